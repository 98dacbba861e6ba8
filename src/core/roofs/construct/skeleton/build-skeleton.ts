import { boxOf } from '../../../geometry/polygon.ts';
import { measureFaults } from './check-skeleton.ts';
import { moveFront } from './move-front.ts';
import type { Skeleton, SkeletonInput } from './skeleton.ts';

/** Shares of the outline's size within which corners count as together, and sines below which sides count as parallel. */
const LADDER = [
  { near: 1e-10, parallel: 1e-9 },
  { near: 1e-8, parallel: 1e-7 },
  { near: 1e-7, parallel: 1e-6 },
  { near: 1e-6, parallel: 1e-5 },
  { near: 1e-5, parallel: 1e-4 },
] as const;

/**
 * The weighted straight skeleton of an outline with holes, checked. Where an outline is so nearly degenerate that noise
 * decides what meets what, the front is moved again with coarser ideas of "together" and "parallel"; the first result that
 * covers the outline once and closes is taken. Null where no roof closes over it.
 */
export function buildSkeleton(input: SkeletonInput): Skeleton | null {
  const box = boxOf(input.rings.flat());
  const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
  for (const { near, parallel } of LADDER) {
    const found = moveFront(input, { near: near * size, parallel });
    if (!found) continue;
    const { area, offPlane, open } = measureFaults(input, found);
    if (area < 10 * near && offPlane < 100 * near * size && open === 0) return found;
  }
  return null;
}

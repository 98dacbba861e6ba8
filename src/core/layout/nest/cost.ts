import type { Construction, OpenSheet } from './construct.ts';
import type { Job } from './job.ts';

/** One sheet of the next lower preference weighs as much as so many of the one above it. */
const STEP = 1000;
const MOST_RANKS = 2;
/** A piece without a place weighs more than any sheets. */
const LEFT_OUT = 1e12;

/**
 * Fewest pieces without a place, then fewest sheets of the kinds least liked, then of those liked better, then the largest rest
 * along one side of a sheet. Sheets with locked pieces are in use anyway and cost nothing.
 */
export function costOf(job: Job, { sheets, leftOut }: Construction): number {
  let cost = leftOut.length * LEFT_OUT;
  let rest = 0;
  for (const sheet of sheets) {
    if (sheet.laid.length === 0) continue;
    const { rank, round } = job.kinds[sheet.kind]!;
    if (sheet.fixed.length > round.length) continue;
    cost += STEP ** Math.min(rank, MOST_RANKS);
    rest = Math.max(rest, restShare(sheet));
  }
  return cost - rest;
}

/** Share of the sheet's box that is left free along the best of its four sides. */
export function restShare({ box, laid, fixed }: OpenSheet): number {
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  let [left, right, below, above] = [width, width, height, height];
  const locked = fixed.filter(({ shape }) => shape.width <= width && shape.height <= height);
  for (const { shape, x, y } of [
    ...locked,
    ...laid.map(({ pose, x: px, y: py }) => ({ shape: pose.shape, x: px, y: py })),
  ]) {
    left = Math.min(left, x - box.minX);
    right = Math.min(right, box.maxX - x - shape.width);
    below = Math.min(below, y - box.minY);
    above = Math.min(above, box.maxY - y - shape.height);
  }
  return Math.max(0, left / width, right / width, below / height, above / height);
}

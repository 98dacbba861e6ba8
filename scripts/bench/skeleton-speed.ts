import { Clipper, EndType, JoinType, type Path64 } from 'clipper2-ts';
import { buildSkeleton } from '../../src/core/roofs/construct/skeleton/build-skeleton.ts';
import type { SkeletonInput } from '../../src/core/roofs/construct/skeleton/skeleton.ts';
import { anySimple, numbersFrom } from '../../tests/laws/arbitrary-outline.ts';
import { median, timeInTurn } from './median.ts';

export interface SkeletonSpeed {
  readonly corners: number;
  /** Of the slopes over one outline, and of the library's offsets of the same outline; median over the outlines, ms. */
  readonly ms: number;
  readonly offsets: number;
  /** Time goes with the corners to this power, from the size before to this. */
  readonly growth: number | null;
  /** The worst of the outlines, ms. */
  readonly worst: number;
}

const SIZES = [10, 100, 300, 1000] as const;
/** Outlines of each size. */
const OUTLINES = 5;
/** Levels that the library offsets each outline to. */
export const LEVELS = 50;
/** The library counts in whole numbers: so many to a millimetre. */
const GRID = 1e4;

/**
 * Slopes over random simple outlines, each side with a pitch of its own, beside a polygon library's inward offsets of the same
 * outlines at so many levels up to the top of the roof: level lines without their joints.
 */
export function skeletonSpeeds(): readonly SkeletonSpeed[] {
  const speeds: SkeletonSpeed[] = [];
  for (const corners of SIZES) {
    const work = Array.from({ length: OUTLINES }, (_, i) => {
      const next = numbersFrom(corners + i);
      const ring = anySimple(corners, next);
      const input: SkeletonInput = { rings: [ring], profiles: ring.map(() => [{ level: 0, speed: 0.5 + next() }]) };
      const even: SkeletonInput = { rings: [ring], profiles: ring.map(() => [{ level: 0, speed: 1 }]) };
      const roof = buildSkeleton(even);
      if (!roof || !buildSkeleton(input)) throw new Error(`no roof over outline ${i} of ${corners} corners`);
      const top = Math.max(...roof.nodes.map(([, , z]) => z));
      const path = [ring.map(([x, y]) => ({ x: Math.round(x * GRID), y: Math.round(y * GRID) }))] as Path64[];
      const offset = (): void => {
        for (let level = 1; level <= LEVELS; level++)
          Clipper.inflatePaths(path, -(level / LEVELS) * top * GRID, JoinType.Miter, EndType.Polygon, 1000);
      };
      return [() => void buildSkeleton(input), offset] as const;
    });
    const [rounds, trials] = corners > 300 ? [3, 1] : [9, 5];
    const times = timeInTurn(work.flat(), rounds, 2, trials);
    const ours = times.filter((_, i) => i % 2 === 0);
    const ms = median(ours);
    const before = speeds.at(-1);
    speeds.push({
      corners,
      ms,
      offsets: median(times.filter((_, i) => i % 2 === 1)),
      growth: before ? Math.log(ms / before.ms) / Math.log(corners / before.corners) : null,
      worst: Math.max(...ours),
    });
  }
  return speeds;
}

import { at, clipConvex, type HalfPlane, leftOf, ringArea } from '../../geometry/polygon.ts';
import { cross2, distance2, sub2, unit2, type Vec2 } from '../../geometry/vector.ts';
import { CUT_MM, NOISE_MM, NOISE_MM2 } from '../../tolerance.ts';

/** One straight cut from edge to edge of the paper that lies under the blade. */
export interface TrimCut {
  /** On the sheet, mm. */
  readonly ends: readonly [Vec2, Vec2];
  /**
   * What the trimmer's stop is set to, mm: from the left or lower edge of the paper that is cut. Null along a slanted line, or
   * where that edge is slanted: then the blade is laid along the ends.
   */
  readonly stop: number | null;
}

export interface TrimPlan {
  /** In order. */
  readonly cuts: readonly TrimCut[];
  /** Pieces that hang together still when all straight cuts are made, by their places in the list; each group is cut by hand. */
  readonly byHand: readonly (readonly number[])[];
}

/**
 * How pieces on a sheet are cut apart by straight cuts from edge to edge: strips first, then across, then along slopes. A cut
 * along the outer edge of pieces is made where one of them has an edge there. `sheet` is convex; of an offcut the box.
 */
export function trimCuts(rings: readonly (readonly Vec2[])[], sheet: readonly Vec2[]): TrimPlan {
  const cuts: TrimCut[] = [];
  const byHand: (readonly number[])[] = [];
  const all = rings.map((_, i) => i);
  const part = (region: readonly Vec2[], within: readonly number[]): void => {
    if (within.length === 0) return;
    const found = firstCut(rings, region, within);
    if (!found) {
      if (within.length > 1) byHand.push(within);
      return;
    }
    const { a, b, left, right } = found;
    const [low, high] = [clipConvex(region, leftOf(b, a)), clipConvex(region, leftOf(a, b))];
    cuts.push({ ends: crossing(region, leftOf(a, b)), stop: stopOf(region, a, b) });
    part(low, right);
    part(high, left);
  };
  part(sheet, all);
  return { cuts, byHand };
}

interface Cut {
  readonly a: Vec2;
  readonly b: Vec2;
  /** Pieces on either side of the way from a to b. */
  readonly left: readonly number[];
  readonly right: readonly number[];
}

/** The first cut that parts pieces, or parts them from the rest of the paper along an edge of theirs. */
function firstCut(rings: readonly (readonly Vec2[])[], region: readonly Vec2[], within: readonly number[]): Cut | null {
  for (const { a, b } of linesOf(rings, within)) {
    const half = leftOf(a, b);
    const sides = within.map((i) => sideOf(rings[i] as readonly Vec2[], half));
    if (sides.includes(0) || !partsPaper(region, half)) continue;
    const left = within.filter((_, k) => sides[k] === 1);
    const right = within.filter((_, k) => sides[k] === -1);
    return { a, b, left, right };
  }
  return null;
}

/** Lines along edges of pieces: level ones from the lowest, upright ones from the left, then all others. */
function linesOf(
  rings: readonly (readonly Vec2[])[],
  within: readonly number[],
): readonly { readonly a: Vec2; readonly b: Vec2 }[] {
  const level: { a: Vec2; b: Vec2 }[] = [];
  const upright: typeof level = [];
  const slanted: typeof level = [];
  for (const i of within) {
    const ring = rings[i] as readonly Vec2[];
    ring.forEach((p, k) => {
      const q = at(ring, k + 1);
      if (distance2(p, q) < CUT_MM) return;
      // Level lines run so that below is to the right, upright ones so that the left of the sheet is.
      if (Math.abs(p[1] - q[1]) <= NOISE_MM) level.push({ a: p, b: [p[0] + 1, p[1]] });
      else if (Math.abs(p[0] - q[0]) <= NOISE_MM) upright.push({ a: p, b: [p[0], p[1] - 1] });
      else slanted.push(p[1] > q[1] ? { a: p, b: q } : { a: q, b: p });
    });
  }
  level.sort((one, other) => one.a[1] - other.a[1]);
  upright.sort((one, other) => one.a[0] - other.a[0]);
  slanted.sort((one, other) => one.a[0] + one.b[0] - other.a[0] - other.b[0]);
  return [...level, ...upright, ...slanted];
}

/** 1 where a ring lies left of a line, -1 where it lies right of it, 0 where the line runs through it. */
function sideOf(ring: readonly Vec2[], { normal, offset }: HalfPlane): 1 | 0 | -1 {
  const depths = ring.map((p) => normal[0] * p[0] + normal[1] * p[1] - offset);
  if (Math.min(...depths) >= -NOISE_MM) return 1;
  return Math.max(...depths) <= NOISE_MM ? -1 : 0;
}

/** Whether a line leaves paper on both sides. */
const partsPaper = (region: readonly Vec2[], half: HalfPlane): boolean => {
  const depths = region.map((p) => half.normal[0] * p[0] + half.normal[1] * p[1] - half.offset);
  return Math.min(...depths) < -NOISE_MM && Math.max(...depths) > NOISE_MM && ringArea(region) > NOISE_MM2;
};

/** Where a line enters and leaves a convex region that it parts. */
function crossing(region: readonly Vec2[], { normal, offset }: HalfPlane): readonly [Vec2, Vec2] {
  const depth = (p: Vec2): number => normal[0] * p[0] + normal[1] * p[1] - offset;
  const ends = region.flatMap((p, i): Vec2[] => {
    const q = at(region, i + 1);
    const [d, e] = [depth(p), depth(q)];
    if (Math.abs(d) <= NOISE_MM) return [p];
    if (Math.abs(e) <= NOISE_MM || d > 0 === e > 0) return [];
    const t = d / (d - e);
    return [[p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t]];
  });
  const [first, second] = [ends[0] as Vec2, ends[ends.length - 1] as Vec2];
  return first[0] + first[1] <= second[0] + second[1] ? [first, second] : [second, first];
}

/** From the lower or left edge of the region, where the line is level or upright and that edge too. */
function stopOf(region: readonly Vec2[], a: Vec2, b: Vec2): number | null {
  const along = unit2(sub2(b, a));
  const axis = Math.abs(along[1]) <= NOISE_MM ? 1 : Math.abs(along[0]) <= NOISE_MM ? 0 : null;
  if (axis === null) return null;
  const least = Math.min(...region.map((p) => p[axis]));
  const onEdge = region.filter((p) => p[axis] - least <= NOISE_MM);
  return onEdge.length >= 2 && cross2(along, sub2(onEdge[1] as Vec2, onEdge[0] as Vec2)) ** 2 <= NOISE_MM2
    ? a[axis] - least
    : null;
}

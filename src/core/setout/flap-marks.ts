import { ringArea } from '../geometry/polygon.ts';
import { cross2, distance2, dot2, left2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { NOISE_MM } from '../tolerance.ts';

/**
 * The corners of a flap on marks of the ruler: steps along its seam from one end of the panel's edge, and steps off the seam.
 * First the foot where the edge begins, then round the free edge to the other foot.
 */
export interface FlapMarks {
  /** Which end of the panel's edge the steps count from. */
  readonly zero: 0 | 1;
  readonly marks: readonly Vec2[];
  /** Every corner found a mark inside the flap, so that the drawn flap is nowhere larger than the true one. */
  readonly isInside: boolean;
}

/** How many steps round a corner are searched for a mark inside the flap. */
const REACH = 3;

/**
 * A flap's polygon (its foot first, against the panel's edge from `a` to `b`) on marks: each corner goes to the nearest one
 * inside the flap, its feet along the seam. Where the ruler is too coarse for that, to the nearest; null where then nothing of a
 * flap is left.
 */
export function flapMarks(
  { polygon, base }: { readonly polygon: readonly Vec2[]; readonly base: number },
  ends: readonly [Vec2, Vec2],
  step: number,
): FlapMarks | null {
  // Counted from the lower end, so that the flaps on both sides of a panel have the same measures.
  const zero = ends[1][1] < ends[0][1] - NOISE_MM ? 1 : 0;
  const { from, way, out } = seamFrame(ends, zero);
  const local = (p: Vec2): Vec2 => [dot2(sub2(p, from), way) / step, dot2(sub2(p, from), out) / step];
  const ring = [...polygon.slice(base), polygon[0] as Vec2].map(local);
  const inside = ring.map((p, i) => nearestInside(p, ring, i === 0 || i === ring.length - 1));
  const isInside = inside.every((p) => p !== null) && isFlap(inside as Vec2[], zero);
  const marks = isInside
    ? (inside as Vec2[])
    : ring.map(
        (p, i): Vec2 => [Math.round(p[0]), i === 0 || i === ring.length - 1 ? 0 : Math.max(1, Math.round(p[1]))],
      );
  const length = Math.round(distance2(...ends) / step);
  const kept = distinct(marks.map(([s, d]): Vec2 => [Math.min(Math.max(s, 0), d === 0 ? length : s), d]));
  return isFlap(kept, zero) ? { zero, marks: simplified(kept), isInside } : null;
}

/** A corner is left out where the flap loses less than this share of its area: a simpler flap needs fewer measures. */
const WORTH = 0.08;

/** At most two corners beside the feet, unless another is worth its measure. */
function simplified(marks: readonly Vec2[]): readonly Vec2[] {
  if (marks.length <= 4) return marks;
  const area = Math.abs(ringArea(marks));
  const without = (i: number): readonly Vec2[] => marks.filter((_, k) => k !== i);
  const inner = marks.map((_, i) => i).slice(1, -1);
  const best = inner.reduce((a, b) => (Math.abs(ringArea(without(b))) > Math.abs(ringArea(without(a))) ? b : a));
  return Math.abs(ringArea(without(best))) >= (1 - WORTH) * area ? simplified(without(best)) : marks;
}

/** Off which point the steps of a flap count, along and off its seam; unit vectors. */
export function seamFrame(
  [a, b]: readonly [Vec2, Vec2],
  zero: 0 | 1,
): { readonly from: Vec2; readonly way: Vec2; readonly out: Vec2 } {
  const way = unit2(sub2(b, a));
  const out = scale2(left2(way), -1);
  return zero === 0 ? { from: a, way, out } : { from: b, way: scale2(way, -1), out };
}

const isFlap = (marks: readonly Vec2[], zero: 0 | 1): boolean => {
  const [first, last] = [marks[0]?.[0] ?? 0, marks.at(-1)?.[0] ?? 0];
  return distinct(marks).length > 2 && (zero === 0 ? first < last : first > last);
};

const distinct = (marks: readonly Vec2[]): readonly Vec2[] =>
  marks.filter((p, i) => i === 0 || p[0] !== marks[i - 1]?.[0] || p[1] !== marks[i - 1]?.[1]);

function nearestInside(p: Vec2, ring: readonly Vec2[], isFoot: boolean): Vec2 | null {
  const [x, y] = [Math.round(p[0]), isFoot ? 0 : Math.round(p[1])];
  const least = isFoot ? 0 : 1;
  let best: Vec2 | null = null;
  for (const [dx, dy] of isFoot ? beside : around) {
    const mark: Vec2 = [x + dx, y + dy];
    const isNearer = best === null || distance2(mark, p) < distance2(best, p) - NOISE_MM;
    if (isNearer && mark[1] >= least && holds(ring, mark)) best = mark;
  }
  return best;
}

/** Marks round one, the nearest first. */
const around: readonly Vec2[] = Array.from({ length: (2 * REACH + 1) ** 2 }, (_, i): Vec2 => {
  const side = 2 * REACH + 1;
  return [Math.floor(i / side) - REACH, (i % side) - REACH];
}).sort((a, b) => Math.hypot(...a) - Math.hypot(...b));

const beside = around.filter(([, dy]) => dy === 0);

/** Whether a point lies in a convex ring, its border included; either way round. */
function holds(ring: readonly Vec2[], p: Vec2): boolean {
  let [left, right] = [false, false];
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length] as Vec2;
    const length = distance2(a, b);
    if (length <= NOISE_MM) return;
    const off = cross2(sub2(b, a), sub2(p, a)) / length;
    if (off > NOISE_MM) left = true;
    if (off < -NOISE_MM) right = true;
  });
  return !(left && right);
}

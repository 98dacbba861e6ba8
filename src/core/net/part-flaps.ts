import {
  at,
  clipConvex,
  convexOverlap,
  depthIn,
  type HalfPlane,
  leftOf,
  ringArea,
  ringDistance,
} from '../geometry/polygon.ts';
import { add2, distance2, length2, scale2, sub2, type Vec2 } from '../geometry/vector.ts';
import { isAtMost, isPositive, NOISE_MM, NOISE_MM2, NOISE_RAD } from '../tolerance.ts';
import type { Tooth } from './teeth.ts';

/** The seam seen from the panel that the flap is glued to, in that panel's frame, panel to the left. */
export interface GlueSide {
  readonly seam: number;
  readonly from: number;
  readonly to: number;
  readonly a: Vec2;
  readonly b: Vec2;
  readonly isAbutment: boolean;
  /** How many edges of the carrying panel's loop lie before it along the seam, and how many it takes. */
  readonly start: number;
  readonly edges: number;
  /** One tooth of a curved seam. */
  readonly tooth: Tooth | null;
  /** Positions in the panel's loop whose edges are the seam. */
  readonly onSeam: ReadonlySet<number>;
  /** The flap lies on the outside of the panel, behind a wall that stands there. */
  readonly isTurnedOver: boolean;
}

export type Strip = readonly [ring: readonly Vec2[], side: GlueSide];

/** Two flaps under one panel cut so that they keep the clearance; null where they do already. */
export function cutApart(
  [ring, side]: Strip,
  [other, otherSide]: Strip,
  clearance: number,
): [readonly Vec2[], readonly Vec2[]] | null {
  if (ring.length < 3 || other.length < 3) return null;
  const isClear = (p: readonly Vec2[], q: readonly Vec2[]): boolean =>
    p.length < 3 || q.length < 3 || (convexOverlap(p, q) <= NOISE_MM2 && isAtMost(clearance, ringDistance(p, q)));
  if (isClear(ring, other)) return null;
  const [own, theirs] = [leftOf(side.a, side.b), leftOf(otherSide.a, otherSide.b)];
  const worth = ([kept, away]: readonly [readonly Vec2[], readonly Vec2[]]): number =>
    Math.min(areaBeside(kept, own) / areaOf(ring), areaBeside(away, theirs) / areaOf(other));
  let best: [readonly Vec2[], readonly Vec2[]] = [[], []];
  let most = 0;
  let isFirst = true;
  for (const line of partings([ring, side], [other, otherSide])) {
    const kept = clipConvex(ring, { normal: line.normal, offset: line.offset + clearance / 2 });
    const away = clipConvex(other, { normal: scale2(line.normal, -1), offset: clearance / 2 - line.offset });
    if (!isClear(kept, away)) continue;
    const value = worth([kept, away]);
    // Midway leaves both flaps alike; only where that costs one of them its seam is another line looked for.
    if (isFirst && value > 0) return [kept, away];
    isFirst = false;
    if (value > most) [best, most] = [[kept, away], value];
  }
  return best;
}

/** What is left of a strip beside its seam once it keeps the clearance to a ring that stays as it is. */
export function keepOff(
  ring: readonly Vec2[],
  seam: HalfPlane,
  other: readonly Vec2[],
  clearance: number,
): readonly Vec2[] {
  if (ring.length < 3) return ring;
  if (convexOverlap(ring, other) <= NOISE_MM2 && isAtMost(clearance, ringDistance(ring, other))) return ring;
  return other
    .flatMap((p, i) => {
      const q = at(other, i + 1);
      return isPositive(distance2(p, q)) ? [clipConvex(ring, leftOf(q, p, clearance))] : [];
    })
    .reduce<readonly Vec2[]>((best, kept) => (areaBeside(kept, seam) > areaBeside(best, seam) ? kept : best), []);
}

/**
 * Lines that may part two flaps, the first on the inside. First the line midway: through the corner that their seams share,
 * halving its angle, or where they share none, as far from one seam's line as from the other's. Then along their own edges.
 */
function partings([ring, { a, b }]: Strip, [other, { a: c, b: d }]: Strip): readonly HalfPlane[] {
  const [own, theirs] = [leftOf(a, b), leftOf(c, d)];
  const edgesOf = (of: readonly Vec2[]): [Vec2, Vec2][] =>
    of.map((p, i): [Vec2, Vec2] => [p, at(of, i + 1)]).filter(([p, q]) => isPositive(distance2(p, q)));
  const edges = [...edgesOf(ring).map(([p, q]) => leftOf(p, q)), ...edgesOf(other).map(([p, q]) => leftOf(q, p))];
  const halving = add2(own.normal, theirs.normal);
  const up = length2(halving) <= NOISE_RAD ? own.normal : halving;
  if (!isPositive(distance2(b, c))) return [leftOf(b, add2(b, up)), ...edges];
  if (!isPositive(distance2(a, d))) return [leftOf(add2(a, up), a), ...edges];
  const across = sub2(theirs.normal, own.normal);
  const size = length2(across);
  if (size <= NOISE_RAD) return edges;
  return [{ normal: scale2(across, 1 / size), offset: (theirs.offset - own.offset) / size }, ...edges];
}

/** Area of a convex ring, 0 where it has lost the seam. */
export function areaBeside(ring: readonly Vec2[], seam: HalfPlane): number {
  let onSeam = 0;
  for (const p of ring) if (depthIn(seam, p) <= NOISE_MM) onSeam++;
  return onSeam < 2 ? 0 : areaOf(ring);
}

/** Area of a convex ring, mm²; 0 where nothing is left of it. */
export const areaOf = (ring: readonly Vec2[]): number => (ring.length === 0 ? 0 : ringArea(ring));

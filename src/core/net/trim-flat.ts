import { areApart, at, type Box, boxOf, clipConvex, convexDepth, leftOf, ringDistance } from '../geometry/polygon.ts';
import { apply2, inverse2, type Rigid2 } from '../geometry/rigid2.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import { isAtMost, isPositive } from '../tolerance.ts';
import { areaOf } from './part-flaps.ts';
import { fromSeam, TRIM_MM } from './seam-flap.ts';

/** What a flap must keep off while flat: a convex ring in the piece's frame, and by how much, mm. */
export interface Obstacle {
  readonly ring: readonly Vec2[];
  readonly box: Box;
  readonly gap: number;
}

/**
 * Cuts a flap that lies flat beside its panel so that it keeps off the obstacles: along that edge of each obstacle that
 * leaves most of it. `place` takes the seam's frame to the piece's.
 */
export function trimFlat(
  polygon: readonly Vec2[],
  place: Rigid2,
  obstacles: readonly Obstacle[],
  least: number,
): readonly Vec2[] {
  const back = inverse2(place);
  let ring = polygon;
  let hull = polygon.map((p) => apply2(place, p));
  const box = boxOf(hull);
  for (const { ring: obstacle, box: around, gap } of obstacles) {
    if (ring.length === 0) break;
    if (areApart(box, around, gap)) continue;
    const covers = convexDepth(hull, obstacle) > TRIM_MM;
    if (!covers && isAtMost(gap, ringDistance(hull, obstacle))) continue;
    const there = obstacle.map((p) => apply2(back, p));
    let [best, most]: [readonly Vec2[], number] = [[], 0];
    for (const [i, p] of there.entries()) {
      const q = at(there, i + 1);
      if (!isPositive(distance2(p, q))) continue;
      const cut = clipConvex(ring, leftOf(q, p, gap));
      // What begins on the seam is no larger than what is left of it.
      if (areaOf(cut) <= most) continue;
      const choice = fromSeam(cut, least);
      const area = areaOf(choice);
      if (area > most) [best, most] = [choice, area];
    }
    ring = best;
    hull = best.map((p) => apply2(place, p));
  }
  return ring;
}

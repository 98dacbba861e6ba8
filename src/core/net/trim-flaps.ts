import { boxGrid } from '../geometry/box-grid.ts';
import { at, type Box, boxOf, leftOf } from '../geometry/polygon.ts';
import { alignSegments, apply2 } from '../geometry/rigid2.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import type { FlapSpec } from '../project/project.ts';
import { isSameLength } from '../tolerance.ts';
import { type FlapBeginning, type FlapBeginnings, flapBeginnings } from './flap-beginnings.ts';
import { cutApart, type GlueSide, keepOff } from './part-flaps.ts';
import { fromSeam, type SeamFlap } from './seam-flap.ts';
import type { FlatSolid } from './unfold.ts';

/**
 * Trims every flap so that, folded under, it lies inside the panel it is glued to: clear of that panel's other edges and of
 * every other flap under it. Each cut is straight, so a flap stays convex. It begins as the strip of the wanted width along the
 * seam, cut square at the seam's ends, and is cut along each edge of the panel that comes nearer than the clearance; then two
 * flaps that come nearer to each other are cut apart, midway between their seams where that serves. A wall's flap gives way to
 * the flaps along the slope's own edges. Panels may have any simple shape. `wanted`: seams with the face that carries the flap
 * (a strip's half is the flap of the other face); flaps under one panel go together, those under others do not count.
 */
export function trimFlaps(
  flatSolid: FlatSolid,
  wanted: Iterable<readonly [seam: number, from: number]>,
  spec: FlapSpec,
  taken: readonly TakenRing[] = [],
  beginnings: FlapBeginnings = flapBeginnings(flatSolid, spec),
): readonly SeamFlap[] {
  const { sides, strips } = trimSides(wanted, spec, taken, beginnings);
  return sides.map(({ seam, from, to, a, b, start, edges, tooth, isTurnedOver }, i) => {
    const length = distance2(a, b);
    const toSeam = alignSegments(a, b, [0, 0], [length, 0]);
    const below = (strips[i] ?? []).map((p) => apply2(toSeam, p));
    // Behind a wall that stands on a panel the flap is turned over: printed side on printed side.
    const ring = isTurnedOver ? below.map(([x, y]): Vec2 => [length - x, y]).toReversed() : below;
    const polygon = fromSeam(ring, spec.least);
    // A tooth that has lost part of its base is left out: the next one holds.
    const isWhole = !tooth || (polygon.length > 0 && isSameLength(distance2(at(polygon, 0), at(polygon, 1)), length));
    const meant = Math.min(spec.width, tooth?.reach ?? spec.width);
    return { seam, from, to, start, edges, length, meant, polygon: isWhole ? polygon : [] };
  });
}

/** Where a flap of another part lies already, in the frame of the panel it is glued to. */
export interface TakenRing {
  readonly to: number;
  readonly ring: readonly Vec2[];
}

/** The rings of flaps under their panels, for what is glued there later to keep off. */
export function ringsUnder(
  flatSolid: FlatSolid,
  wanted: Iterable<readonly [seam: number, from: number]>,
  spec: FlapSpec,
): readonly TakenRing[] {
  const { sides, strips } = trimSides(wanted, spec, [], flapBeginnings(flatSolid, spec));
  return sides.flatMap(({ to }, i) => {
    const ring = strips[i] ?? [];
    return ring.length < 3 ? [] : [{ to, ring }];
  });
}

/** The sides of flaps with what is left of each strip under its mate. */
function trimSides(
  wanted: Iterable<readonly [seam: number, from: number]>,
  spec: FlapSpec,
  taken: readonly TakenRing[],
  beginnings: FlapBeginnings,
): { readonly sides: readonly GlueSide[]; readonly strips: readonly (readonly Vec2[])[] } {
  const begun = [...wanted].flatMap(([seam, from]) => beginnings(seam, from));
  const sides = begun.map(({ side }) => side);
  const under = new Map<number, number[]>();
  sides.forEach(({ to }, i) => {
    const known = under.get(to);
    if (known) known.push(i);
    else under.set(to, [i]);
  });
  const strips = begun.map(({ side, inside }) => {
    // A wall's flap stays under the strip that a flap along the slope's own edge takes.
    const givesWayTo = side.isAbutment
      ? (under.get(side.to) ?? []).map((i) => begun[i] as FlapBeginning).filter((other) => !other.side.isAbutment)
      : [];
    const lying = side.isTurnedOver ? [] : taken.filter(({ to }) => to === side.to).map(({ ring }) => ring);
    return [...givesWayTo.map(({ strip }) => strip), ...lying].reduce<readonly Vec2[]>(
      (ring, other) => keepOff(ring, leftOf(side.a, side.b), other, spec.clearance),
      inside,
    );
  });
  for (const together of under.values()) {
    // What flaps are cut to lies within what they begin as.
    const boxes = together.map((i) => boxOf(strips[i] ?? []));
    const grid = boxGrid();
    together.forEach((i, k) => {
      const side = sides[i] as GlueSide;
      for (const n of grid.near(boxes[k] as Box, spec.clearance)) {
        const j = together[n] as number;
        const other = sides[j] as GlueSide;
        // The teeth of one seam lean apart by themselves.
        if (other.seam === side.seam) continue;
        const apart = cutApart([strips[i] ?? [], side], [strips[j] ?? [], other], spec.clearance);
        if (apart) [strips[i], strips[j]] = apart;
      }
      grid.add(boxes[k] as Box);
    });
  }
  return { sides, strips };
}

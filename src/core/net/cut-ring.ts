import { at, ringArea } from '../geometry/polygon.ts';
import { add2, cross2, dot2, left2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { isPositive, NOISE_RAD } from '../tolerance.ts';

interface Side {
  readonly from: Vec2;
  readonly along: Vec2;
}

/** One stretch of a cut ring. */
export interface CutSide {
  /** The side of the uncut ring that it lies along; half a number less where it steps to that side from another in the same line. */
  readonly side: number;
  readonly from: Vec2;
  readonly to: Vec2;
}

/**
 * A counter-clockwise ring with each side moved inwards by its own distance, mm (outwards where it is negative); sides that have
 * come to nothing are left out. Where two sides in one line are moved differently the ring steps from the one to the other. Null
 * where nothing is left, or the ring would run across itself.
 */
export function cutRing(ring: readonly Vec2[], inwards: readonly number[]): readonly Vec2[] | null {
  return cutSides(ring, inwards)?.map(({ from }) => from) ?? null;
}

/** The same ring as `cutRing` gives, stretch by stretch, each with the side that it was. */
export function cutSides(ring: readonly Vec2[], inwards: readonly number[]): readonly CutSide[] | null {
  let sides = ring.map((p, i): Side => {
    const along = unit2(sub2(at(ring, i + 1), p));
    return { along, from: add2(p, scale2(left2(along), inwards[i] ?? 0)) };
  });
  let own = ring.map((_, i) => i);
  while (sides.length > 2) {
    const corners = sides.map((side, i) => cornersBetween(at(sides, i - 1), side, ring[own[i] as number] as Vec2));
    const stretches = sides.map((_, i) => [corners[i]?.at(-1) as Vec2, at(corners, i + 1)[0] as Vec2] as const);
    // How long each side has become, in its own direction; the one that has gone farthest past nothing goes first.
    const lengths = sides.map(({ along }, i) => {
      const [from, to] = stretches[i] as readonly [Vec2, Vec2];
      return dot2(along, sub2(to, from));
    });
    const shortest = lengths.reduce((best, length, i) => (length < (lengths[best] as number) ? i : best), 0);
    if (isPositive(lengths[shortest] as number)) {
      if (!isSound(corners.flat())) return null;
      return stretches.flatMap(([from, to], i): readonly CutSide[] => {
        const side = own[i] as number;
        const [first] = corners[i] as readonly Vec2[];
        const step = first === from ? [] : [{ side: side - 0.5, from: first as Vec2, to: from }];
        return [...step, { side, from, to }];
      });
    }
    sides = sides.filter((_, i) => i !== shortest);
    own = own.filter((_, i) => i !== shortest);
  }
  return null;
}

/** Where two sides meet: a point, or two where they lie in one line and one steps back from the other. */
function cornersBetween(before: Side, after: Side, corner: Vec2): readonly Vec2[] {
  const turn = cross2(before.along, after.along);
  if (Math.abs(turn) <= NOISE_RAD) {
    const foot = ({ from, along }: Side): Vec2 => add2(from, scale2(along, dot2(along, sub2(corner, from))));
    const [p, q] = [foot(before), foot(after)];
    return isPositive(Math.hypot(q[0] - p[0], q[1] - p[1])) ? [p, q] : [p];
  }
  const t = cross2(sub2(after.from, before.from), after.along) / turn;
  return [add2(before.from, scale2(before.along, t))];
}

function isSound(ring: readonly Vec2[]): boolean {
  const crosses = ring.some((a, i) =>
    ring.some((c, j) => {
      if (j < i + 2 || (i === 0 && j === ring.length - 1)) return false;
      const [b, d] = [at(ring, i + 1), at(ring, j + 1)];
      const side = (p: Vec2, q: Vec2, r: Vec2): number => cross2(sub2(q, p), sub2(r, p));
      return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
    }),
  );
  return !crosses && ringArea(ring) > 0;
}

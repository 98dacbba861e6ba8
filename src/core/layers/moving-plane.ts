import { cross3, dot3, length3, scale3, unit3, type Vec3 } from '../geometry/vector.ts';
import { NOISE_RAD } from '../tolerance.ts';

/** A plane that moves along its normal while a solid is offset: by `speed` mm for each mm of offset. */
export interface MovingPlane {
  /** Unit normal, out of the material. */
  readonly normal: Vec3;
  /** 1 for a face, 0 for a plane that holds still. */
  readonly speed: number;
}

export const isSamePlane = (a: MovingPlane, b: MovingPlane): boolean =>
  a === b ||
  (Math.abs(a.speed - b.speed) <= NOISE_RAD &&
    dot3(a.normal, b.normal) > 0 &&
    length3(cross3(a.normal, b.normal)) <= NOISE_RAD);

export const determinant = (a: Vec3, b: Vec3, c: Vec3): number => dot3(a, cross3(b, c));

/** The point on three planes through the origin once each has moved by its distance; null where they have no one point. */
export function meetAfter(normals: readonly [Vec3, Vec3, Vec3], moved: readonly [number, number, number]): Vec3 | null {
  const [a, b, c] = normals;
  const det = determinant(a, b, c);
  if (Math.abs(det) <= NOISE_RAD) return null;
  const [p, q, r] = moved;
  const [bc, ca, ab] = [cross3(b, c), cross3(c, a), cross3(a, b)];
  const part = (i: 0 | 1 | 2): number => (p * bc[i] + q * ca[i] + r * ab[i]) / det;
  return [part(0), part(1), part(2)];
}

/**
 * Three of the planes that stand as far from parallel as any. Where all have one direction in common, a plane across it that
 * holds still takes the third place, so that a corner keeps its place along its edge.
 */
export function threeOf(planes: readonly MovingPlane[]): readonly [MovingPlane, MovingPlane, MovingPlane] {
  const first = planes[0];
  if (!first) throw new Error('a corner without planes');
  const steep = (a: MovingPlane, b: MovingPlane): number => length3(cross3(a.normal, b.normal));
  let best: readonly [MovingPlane, MovingPlane, MovingPlane] | null = null;
  let most = NOISE_RAD;
  // Of a great many only some are looked at: the others lie between them.
  const step = Math.max(1, Math.floor(planes.length / 12));
  const some = step === 1 ? planes : planes.filter((_, i) => i % step === 0 || i >= planes.length - 2);
  for (let i = 0; i < some.length; i++) {
    const a = some[i] as MovingPlane;
    for (let j = i + 1; j < some.length; j++) {
      const b = some[j] as MovingPlane;
      const across = cross3(a.normal, b.normal);
      for (let k = j + 1; k < some.length; k++) {
        const c = some[k] as MovingPlane;
        const size = Math.abs(dot3(across, c.normal));
        if (size > most) {
          most = size;
          best = [a, b, c];
        }
      }
    }
  }
  if (best) return best;
  const second = planes.reduce((kept, one) => (steep(first, one) > steep(first, kept) ? one : kept), first);
  if (steep(first, second) > NOISE_RAD) {
    return [first, second, { normal: unit3(cross3(first.normal, second.normal)), speed: 0 }];
  }
  const [x, y, z] = first.normal;
  const level: Vec3 = Math.hypot(x, y) <= NOISE_RAD ? [1, 0, 0] : unit3([-y, x, 0]);
  return [first, { normal: level, speed: 0 }, { normal: unit3(cross3([x, y, z], level)), speed: 0 }];
}

/** How a corner of these planes moves for each mm of offset, and whether all of them still meet in it. */
export function velocityOf(planes: readonly MovingPlane[]): { readonly velocity: Vec3; readonly isTogether: boolean } {
  const [a, b, c] = threeOf(planes);
  const velocity = meetAfter([a.normal, b.normal, c.normal], [a.speed, b.speed, c.speed]) ?? scale3(a.normal, a.speed);
  const size = 1 + length3(velocity);
  return {
    velocity,
    isTogether: planes.every(({ normal, speed }) => Math.abs(dot3(normal, velocity) - speed) <= NOISE_RAD * size),
  };
}

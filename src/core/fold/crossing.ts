import { at, distanceToSegment, isInside } from '../geometry/polygon.ts';
import { add3, dot3, lerp3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { newellNormal } from '../solid/face-frame.ts';
import { CUT_MM } from '../tolerance.ts';

/** A flat part in space: its outer ring first, then holes. */
export interface FlatPart {
  readonly rings: readonly (readonly Vec3[])[];
  readonly normal: Vec3;
  readonly box: SpaceBox;
  /** Axes that are kept where it is looked at from its broad side. */
  readonly axes: readonly [0 | 1 | 2, 0 | 1 | 2];
}

export interface SpaceBox {
  readonly min: Vec3;
  readonly max: Vec3;
}

export function flatPart(...rings: readonly (readonly Vec3[])[]): FlatPart {
  const normal = newellNormal(rings[0] ?? []);
  const sizes = normal.map(Math.abs);
  const broad = sizes.indexOf(Math.max(...sizes));
  return {
    rings,
    normal,
    box: spaceBox(rings.flat()),
    axes: broad === 0 ? [1, 2] : broad === 1 ? [0, 2] : [0, 1],
  };
}

export function spaceBox(points: readonly Vec3[]): SpaceBox {
  const of = (pick: (...all: number[]) => number): Vec3 =>
    ([0, 1, 2] as const).map((i) =>
      points.reduce((best, p) => pick(best, p[i]), points[0]?.[i] ?? 0),
    ) as unknown as Vec3;
  return { min: of(Math.min), max: of(Math.max) };
}

export const joinSpaceBoxes = (boxes: readonly SpaceBox[]): SpaceBox =>
  spaceBox(boxes.flatMap(({ min, max }) => [min, max]));

export const boxesMeet = (a: SpaceBox, b: SpaceBox, shift: Vec3 = [0, 0, 0]): boolean =>
  ([0, 1, 2] as const).every((i) => a.min[i] + shift[i] <= b.max[i] && b.min[i] <= a.max[i] + shift[i]);

/**
 * Whether one part, shifted, passes through another: an edge of one goes through the other's plane inside its outline. Parts
 * that touch, or lie on each other, do not cross: nothing counts that is less than a tenth of a millimetre deep.
 */
export function cross(moving: FlatPart, shift: Vec3, still: FlatPart): boolean {
  if (!boxesMeet(moving.box, still.box, shift)) return false;
  const back: Vec3 = [-shift[0], -shift[1], -shift[2]];
  return pierces(moving, shift, still) || pierces(still, back, moving);
}

/** All the room that a part takes on a straight way. */
export const sweptBox = ({ box }: FlatPart, way: Vec3): SpaceBox =>
  joinSpaceBoxes([box, { min: add3(box.min, way), max: add3(box.max, way) }]);

/** Whether a corner of one part passes through the other while the first is moved all of the way. */
export function sweeps(moving: FlatPart, way: Vec3, still: FlatPart): boolean {
  const back: Vec3 = [-way[0], -way[1], -way[2]];
  const through = (by: FlatPart, along: Vec3, part: FlatPart): boolean =>
    by.rings.some((ring) => ring.some((p) => isPierced(part, p, add3(p, along))));
  return through(moving, way, still) || through(still, back, moving);
}

/** Whether an edge of `by`, shifted, goes through `part`. */
const pierces = (by: FlatPart, shift: Vec3, part: FlatPart): boolean =>
  by.rings.some((ring) => ring.some((p, i) => isPierced(part, add3(p, shift), add3(at(ring, i + 1), shift))));

/** Whether a segment goes through a part. */
function isPierced(part: FlatPart, p: Vec3, q: Vec3): boolean {
  const origin = part.rings[0]?.[0] as Vec3;
  const [from, to] = [dot3(sub3(p, origin), part.normal), dot3(sub3(q, origin), part.normal)];
  if (Math.min(from, to) > -CUT_MM || Math.max(from, to) < CUT_MM) return false;
  return isWithin(part, lerp3(p, q, from / (from - to)));
}

/** Whether a point in the part's plane lies inside its outline, clear of every edge. */
function isWithin({ rings, axes: [u, v] }: FlatPart, point: Vec3): boolean {
  const p: Vec2 = [point[u], point[v]];
  const flat = rings.map((ring) => ring.map((q): Vec2 => [q[u], q[v]]));
  if (flat.filter((ring) => isInside(p, ring)).length % 2 === 0) return false;
  return flat.every((ring) => ring.every((a, i) => distanceToSegment(p, a, at(ring, i + 1)) > CUT_MM));
}

import { at, distanceToSegment, isInside } from '../geometry/polygon.ts';
import { add3, dot3, lerp3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { newellNormal } from '../solid/face-frame.ts';
import { CUT_MM, NOISE_MM } from '../tolerance.ts';

/** A flat part in space: its outer ring first, then holes. */
export interface FlatPart {
  readonly rings: readonly (readonly Vec3[])[];
  readonly normal: Vec3;
  readonly box: SpaceBox;
  /** Axes that are kept where it is looked at from its broad side, and its rings seen so. */
  readonly axes: readonly [0 | 1 | 2, 0 | 1 | 2];
  readonly broadside: readonly (readonly Vec2[])[];
}

export interface SpaceBox {
  readonly min: Vec3;
  readonly max: Vec3;
}

export function flatPart(...rings: readonly (readonly Vec3[])[]): FlatPart {
  const normal = newellNormal(rings[0] ?? []);
  const sizes = normal.map(Math.abs);
  const broad = sizes.indexOf(Math.max(...sizes));
  const [u, v] = broad === 0 ? ([1, 2] as const) : broad === 1 ? ([0, 2] as const) : ([0, 1] as const);
  return {
    rings,
    normal,
    box: spaceBox(rings.flat()),
    axes: [u, v],
    broadside: rings.map((ring) => ring.map((q): Vec2 => [q[u], q[v]])),
  };
}

export function spaceBox(points: readonly Vec3[]): SpaceBox {
  const [first] = points;
  if (!first) return { min: [0, 0, 0], max: [0, 0, 0] };
  let [minX, minY, minZ] = first;
  let [maxX, maxY, maxZ] = first;
  for (const [x, y, z] of points) {
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
    if (z < minZ) minZ = z;
    if (z > maxZ) maxZ = z;
  }
  return { min: [minX, minY, minZ], max: [maxX, maxY, maxZ] };
}

export const joinSpaceBoxes = (boxes: readonly SpaceBox[]): SpaceBox =>
  spaceBox(boxes.flatMap(({ min, max }) => [min, max]));

export const boxesMeet = (a: SpaceBox, b: SpaceBox, [x, y, z]: Vec3 = ORIGIN): boolean =>
  a.min[0] + x <= b.max[0] &&
  b.min[0] <= a.max[0] + x &&
  a.min[1] + y <= b.max[1] &&
  b.min[1] <= a.max[1] + y &&
  a.min[2] + z <= b.max[2] &&
  b.min[2] <= a.max[2] + z;

const ORIGIN: Vec3 = [0, 0, 0];

/**
 * Whether one part, shifted, passes through another: an edge of one goes through the other's plane inside its outline. Parts
 * that touch, or lie on each other, do not cross: nothing counts that is less than a tenth of a millimetre deep.
 */
export const cross = (moving: FlatPart, shift: Vec3, still: FlatPart): boolean =>
  pairCrosses(partPair(moving, still), shift);

/** All the room that a part takes on a straight way. */
export const sweptBox = ({ box }: FlatPart, way: Vec3): SpaceBox =>
  joinSpaceBoxes([box, { min: add3(box.min, way), max: add3(box.max, way) }]);

/** Whether a corner of one part passes through the other while the first is moved all of the way. */
export const sweeps = (moving: FlatPart, way: Vec3, still: FlatPart): boolean =>
  pairMeetsOn(partPair(moving, still), way, []);

/** Whether a corner of `by` goes through `part` on a straight way. */
function passes(by: FlatPart, way: Vec3, part: FlatPart): boolean {
  for (const ring of by.rings)
    for (const p of ring) {
      const [from, to] = [distanceFrom(part, p, ORIGIN), distanceFrom(part, p, way)];
      if (goesThrough(from, to) && isWithin(part, lerp3(p, add3(p, way), from / (from - to)))) return true;
    }
  return false;
}

/** Two parts that are asked about many ways and shifts of the first. */
export interface PartPair {
  readonly moving: FlatPart;
  readonly still: FlatPart;
  /** How far the points of each lie in front of the plane of the other. */
  readonly reach: Reach;
  readonly stillReach: Reach;
}

export const partPair = (moving: FlatPart, still: FlatPart): PartPair => ({
  moving,
  still,
  reach: reachFrom(still, moving),
  stillReach: reachFrom(moving, still),
});

/** Whether a pair's first part, shifted, crosses its second: most parts stay on one side of each other's plane, which is seen at once. */
export function pairCrosses({ moving, still, reach, stillReach }: PartPair, shift: Vec3): boolean {
  const isThrough = staysThrough(reach, dot3(shift, still.normal));
  const isThroughBack = staysThrough(stillReach, -dot3(shift, moving.normal));
  if (!(isThrough || isThroughBack) || !boxesMeet(moving.box, still.box, shift)) return false;
  return (
    (isThrough && pierces(moving, shift, still)) ||
    (isThroughBack && pierces(still, [-shift[0], -shift[1], -shift[2]], moving))
  );
}

/** Whether a pair's first part sweeps its second on a straight way, or crosses it at one of these shifts along the way. */
export function pairMeetsOn(pair: PartPair, way: Vec3, shifts: readonly Vec3[]): boolean {
  const { moving, still, reach, stillReach } = pair;
  const isThrough = comesThrough(reach, dot3(way, still.normal));
  const isThroughBack = comesThrough(stillReach, -dot3(way, moving.normal));
  if (!(isThrough || isThroughBack)) return false;
  return (
    (isThrough && passes(moving, way, still)) ||
    (isThroughBack && passes(still, [-way[0], -way[1], -way[2]], moving)) ||
    shifts.some((shift) => pairCrosses(pair, shift))
  );
}

/** Whether points may lie on both sides of a plane, once or while they are moved so far towards its front, mm. */
const staysThrough = ([low, high]: Reach, by: number): boolean =>
  low + by <= NOISE_MM - CUT_MM && high + by >= CUT_MM - NOISE_MM;
const comesThrough = ([low, high]: Reach, by: number): boolean =>
  Math.min(low, low + by) <= NOISE_MM - CUT_MM && Math.max(high, high + by) >= CUT_MM - NOISE_MM;

type Reach = readonly [low: number, high: number];

/** How far the points of `by` lie in front of the plane of a part, the least and the most, mm. */
function reachFrom(part: FlatPart, by: FlatPart): Reach {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const ring of by.rings)
    for (const p of ring) {
      const distance = distanceFrom(part, p, ORIGIN);
      if (distance < low) low = distance;
      if (distance > high) high = distance;
    }
  return [low, high];
}

/** Whether an edge of `by`, shifted, goes through `part`. */
function pierces(by: FlatPart, shift: Vec3, part: FlatPart): boolean {
  for (const ring of by.rings) {
    let p = ring[0] as Vec3;
    let from = distanceFrom(part, p, shift);
    for (let i = 1; i <= ring.length; i++) {
      const q = at(ring, i);
      const to = distanceFrom(part, q, shift);
      if (goesThrough(from, to) && isWithin(part, lerp3(add3(p, shift), add3(q, shift), from / (from - to))))
        return true;
      [p, from] = [q, to];
    }
  }
  return false;
}

/** How far a shifted point lies in front of the plane of a part, mm. */
function distanceFrom({ rings, normal }: FlatPart, [x, y, z]: Vec3, shift: Vec3): number {
  const origin = rings[0]?.[0] as Vec3;
  return (
    (x + shift[0] - origin[0]) * normal[0] +
    (y + shift[1] - origin[1]) * normal[1] +
    (z + shift[2] - origin[2]) * normal[2]
  );
}

const goesThrough = (from: number, to: number): boolean =>
  Math.min(from, to) <= -CUT_MM && Math.max(from, to) >= CUT_MM;

/** Whether a point in the part's plane lies inside its outline, clear of every edge. */
function isWithin({ broadside, axes: [u, v] }: FlatPart, point: Vec3): boolean {
  const p: Vec2 = [point[u], point[v]];
  let around = 0;
  for (const ring of broadside) if (isInside(p, ring)) around++;
  if (around % 2 === 0) return false;
  return broadside.every((ring) => ring.every((a, i) => distanceToSegment(p, a, at(ring, i + 1)) > CUT_MM));
}

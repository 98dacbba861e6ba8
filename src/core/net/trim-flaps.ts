import {
  at,
  clipConvex,
  convexOverlap,
  depthIn,
  type HalfPlane,
  leftOf,
  ringArea,
  ringDistance,
  ringLength,
} from '../geometry/polygon.ts';
import { alignSegments, apply2, type Rigid2 } from '../geometry/rigid2.ts';
import { distance2, dot3, length2, scale2, sub2, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { FlapSpec } from '../project/project.ts';
import { faceFrame } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { isAtMost, isPositive, NOISE_MM, NOISE_MM2, NOISE_RAD } from '../tolerance.ts';
import type { FlatSolid } from './unfold.ts';

/**
 * A flap in the frame of its seam: x along the seam, y into the panel it is glued to, so that the seam is y = 0.
 * Laid flat it lies just so beyond the edge of the panel that carries it.
 */
export interface SeamFlap {
  readonly seam: number;
  readonly from: number;
  readonly to: number;
  /** Length of the seam, mm. */
  readonly length: number;
  /** Convex, counter-clockwise, the first two points on the seam; empty where too little is left to glue. */
  readonly polygon: readonly Vec2[];
}

/** The seam seen from the panel that the flap is glued to, in that panel's frame, panel to the left. */
interface GlueSide {
  readonly seam: number;
  readonly from: number;
  readonly to: number;
  readonly a: Vec2;
  readonly b: Vec2;
  readonly isAbutment: boolean;
}

/**
 * Trims every flap so that, folded under, it lies inside the panel it is glued to: clear of that panel's other edges and of
 * every other flap under it. Each of these is a straight cut, so a flap stays convex: the strip of the wanted width along the
 * seam, cut square at the seam's ends, along each other edge of the panel moved in by the clearance, and along the line
 * midway to each other flap's seam. A wall's flap gives way to the flaps along the slope's own edges.
 *
 * Expects convex panels.
 */
export function trimFlaps(
  { solid, flat }: FlatSolid,
  carriers: ReadonlyMap<number, number>,
  spec: FlapSpec,
): readonly SeamFlap[] {
  const sides = [...carriers].map(([seam, from]) => glueSide(solid, seam, from));
  return sides.map((side) => {
    const { seam, from, to, a, b } = side;
    const length = distance2(a, b);
    // A wall's flap must not touch the body's top edge below it or the ridge above it.
    const end = side.isAbutment ? spec.clearance : 0;
    let ring: Vec2[] = [
      [end, 0],
      [length - end, 0],
      [length - end, spec.width],
      [end, spec.width],
    ];
    const toSeam = alignSegments(a, b, [0, 0], [length, 0]);
    const cuts = [
      ...edgeCuts(flat[to] as readonly Vec2[], toSeam, spec.clearance),
      ...sides
        .filter((other) => other !== side && other.to === to)
        .flatMap((other) => flapCut(side, other, toSeam, spec)),
    ];
    for (const cut of cuts) ring = clipConvex(ring, cut);
    return { seam, from, to, length, polygon: fromSeam(ring, spec.least) };
  });
}

function glueSide(solid: Solid, seam: number, from: number): GlueSide {
  const { ends, faces, role } = solid.edges[seam] as Solid['edges'][number];
  const to = faces.find((f) => f !== from) as number;
  const { origin, x, y } = faceFrame(solid, to);
  const [start, end] = ends.map((v): Vec2 => {
    const away = sub3(solid.vertices[v] as Vec3, origin);
    return [dot3(away, x), dot3(away, y)];
  }) as [Vec2, Vec2];
  // The edge runs in the direction of its first face's loop, with that face to the left.
  const [a, b] = faces[0] === to ? [start, end] : [end, start];
  return { seam, from, to, a, b, isAbutment: role === 'abutment' };
}

/** The panel's edges moved in by the clearance, but for those on the line of the seam. */
function edgeCuts(panel: readonly Vec2[], toSeam: Rigid2, clearance: number): HalfPlane[] {
  const ring = panel.map((p) => apply2(toSeam, p));
  return ring.flatMap((p, i) => {
    const q = at(ring, i + 1);
    const isOnSeam = Math.abs(p[1]) <= NOISE_MM && Math.abs(q[1]) <= NOISE_MM;
    return isOnSeam ? [] : [leftOf(p, q, clearance)];
  });
}

/** The cut that keeps two flaps under one panel apart by the clearance. */
function flapCut(side: GlueSide, other: GlueSide, toSeam: Rigid2, { width, clearance }: FlapSpec): HalfPlane[] {
  const p = apply2(toSeam, other.a);
  const q = apply2(toSeam, other.b);
  if (side.isAbutment && !other.isAbutment) return [leftOf(p, q, width + clearance)];
  if (!side.isAbutment && other.isAbutment) return [];
  // Points as far from one seam's line as from the other's lie on their bisector.
  const theirs = leftOf(p, q);
  const across = sub2(theirs.normal, [0, 1]);
  const size = length2(across);
  if (size <= NOISE_RAD) return [];
  return [{ normal: scale2(across, 1 / size), offset: theirs.offset / size + clearance / 2 }];
}

/** The ring from its seam side on; empty where it has lost the seam or is too small to hold glue. */
export function fromSeam(ring: readonly Vec2[], least: number): Vec2[] {
  const start = ring.findIndex(
    (p, i) => p[1] <= NOISE_MM && at(ring, i + 1)[1] <= NOISE_MM && at(ring, i + 1)[0] > p[0],
  );
  if (start < 0) return [];
  const polygon = withoutRepeats([...ring.slice(start), ...ring.slice(0, start)]);
  const width = Math.max(...polygon.map((p) => p[1]));
  const base = distance2(at(polygon, 0), at(polygon, 1));
  return polygon.length < 3 || width < least || base < least ? [] : polygon;
}

const withoutRepeats = (ring: readonly Vec2[]): Vec2[] =>
  ring.filter((p, i) => i === 0 || isPositive(distance2(p, at(ring, i - 1))));

/** What a flap must keep off while flat: a convex ring in the piece's frame, and by how much, mm. */
export interface Obstacle {
  readonly ring: readonly Vec2[];
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
  const back = inverse(place);
  let ring = polygon;
  for (const { ring: obstacle, gap } of obstacles) {
    if (ring.length === 0) break;
    const there = obstacle.map((p) => apply2(back, p));
    const covers = convexOverlap(ring, there) > NOISE_MM2 * Math.max(1, ringLength(ring));
    if (!covers && isAtMost(gap, ringDistance(ring, there))) continue;
    const choices = there.map((p, i) => {
      const q = at(there, i + 1);
      return isPositive(distance2(p, q)) ? fromSeam(clipConvex(ring, leftOf(q, p, gap)), least) : [];
    });
    ring = choices.reduce((best, choice) => (areaOf(choice) > areaOf(best) ? choice : best));
  }
  return ring;
}

const areaOf = (ring: readonly Vec2[]): number => (ring.length === 0 ? 0 : ringArea(ring));

const inverse = ({ cos, sin, move: [x, y] }: Rigid2): Rigid2 => ({
  cos,
  sin: -sin,
  move: [-(cos * x + sin * y), sin * x - cos * y],
});

/** How far a flap reaches from its seam, mm. */
export const flapDepth = (polygon: readonly Vec2[]): number => {
  const seam = leftOf(at(polygon, 0), at(polygon, 1));
  return Math.max(...polygon.map((p) => depthIn(seam, p)));
};

import { alignFrames, type Motion, move3 } from '../geometry/motion.ts';
import { at } from '../geometry/polygon.ts';
import {
  add3,
  cross3,
  distance3,
  dot3,
  length3,
  scale3,
  sub3,
  unit3,
  type Vec2,
  type Vec3,
} from '../geometry/vector.ts';
import {
  bendPoint,
  lengthBetween,
  type OnRuling,
  type Roll,
  type RolledSurface,
  type Ruling,
  rulingAt,
  rulingUnder,
  type Touch,
  touchUnder,
  unbendPoint,
} from './roll.ts';
import type { Face, Solid } from './solid.ts';

type Points = readonly Vec3[];

/** Axes in the plane of a face: x along the level direction with the outside towards the eye, y up the fall line. */
export interface FaceFrame {
  readonly origin: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  /** Outward unit normal. */
  readonly normal: Vec3;
}

/**
 * A face's own frame; its origin is the first corner of the loop. A level face takes x to the east. A smooth face has the
 * frame of its flat panel, in the plane that touches the surface along its middle ruling.
 */
export function faceFrame({ vertices, faces }: Pick<Solid, 'vertices' | 'faces'>, face: number): FaceFrame {
  const asked = faces[face] as Face;
  let own = frames.get(vertices);
  if (!own) {
    own = new Map();
    frames.set(vertices, own);
  }
  let frame = own.get(asked);
  if (!frame) {
    const points = asked.loop.map((v) => vertices[v] as Vec3);
    frame = asked.roll ? rolledFrame(asked.roll, points) : flatFrame(points);
    own.set(asked, frame);
  }
  return frame;
}

/** A face's frame is asked for again and again; solids never change. */
const frames = new WeakMap<Points, Map<Face, FaceFrame>>();

function flatFrame(points: Points): FaceFrame {
  const normal = newellNormal(points);
  const level = Math.hypot(normal[0], normal[1]);
  const x: Vec3 = level === 0 ? [1, 0, 0] : [-normal[1] / level, normal[0] / level, 0];
  return { origin: points[0] as Vec3, x, y: cross3(normal, x), normal };
}

/** Outward unit normal; of a smooth face that along its middle ruling. */
export const faceNormal = (vertices: Points, face: Face): Vec3 => faceFrame({ vertices, faces: [face] }, 0).normal;

/** Outward unit normal of a face at a point on it. */
export function normalAt(vertices: Points, face: Face, point: Vec3): Vec3 {
  const frame = faceFrame({ vertices, faces: [face] }, 0);
  return face.roll ? outOf(frame, touchUnder(face.roll.surface, into(frame, point)).normal) : frame.normal;
}

/** The plane that touches a rolled face along the ruling under a point. */
export function touchOf(frame: FaceFrame, surface: RolledSurface, under: Vec3): Touch {
  const { point, normal } = touchUnder(surface, into(frame, under));
  return { point: add3(frame.origin, outOf(frame, point)), normal: outOf(frame, normal) };
}

/** The ruling of a rolled face under a point. */
export const rulingOf = (frame: FaceFrame, surface: RolledSurface, under: Vec3): OnRuling =>
  rulingUnder(surface, into(frame, under));

/** A ruling of a rolled face as it lies in space. */
export function rulingIn(frame: FaceFrame, surface: RolledSurface, on: OnRuling): Ruling {
  const { point, normal, along } = rulingAt(surface, on);
  return { point: add3(frame.origin, outOf(frame, point)), normal: outOf(frame, normal), along: outOf(frame, along) };
}

/** A point by the axes of a frame. */
export const into = (frame: FaceFrame, point: Vec3): Vec3 => turnedInto(frame, sub3(point, frame.origin));

/** A direction by the axes of a frame, and one so given as it is in space. */
export const turnedInto = ({ x, y, normal }: FaceFrame, way: Vec3): Vec3 => [
  dot3(way, x),
  dot3(way, y),
  dot3(way, normal),
];
const outOf = ({ x, y, normal }: FaceFrame, [a, b, c]: Vec3): Vec3 => [
  x[0] * a + y[0] * b + normal[0] * c,
  x[1] * a + y[1] * b + normal[1] * c,
  x[2] * a + y[2] * b + normal[2] * c,
];

/** Outward unit normal of a flat ring by Newell's sum, which also holds where three points in a row are in line. */
export function newellNormal(points: Points): Vec3 {
  let sum: Vec3 = [0, 0, 0];
  const origin = points[0] as Vec3;
  points.forEach((point, i) => {
    sum = add3(sum, cross3(sub3(point, origin), sub3(at(points, i + 1), origin)));
  });
  return unit3(sum);
}

/** The frame in which the bent panel meets its points, from three of them that stand far apart. */
function rolledFrame({ surface, flat }: Roll, points: Points): FaceFrame {
  const [a, b, c] = farApart(points).map((i) => ({
    from: bendPoint(surface, flat[i] as Vec2, 1),
    to: points[i] as Vec3,
  })) as [Pair, Pair, Pair];
  const axes = (side: keyof Pair): { origin: Vec3; x: Vec3; y: Vec3 } => {
    const x = unit3(sub3(b[side], a[side]));
    const away = sub3(c[side], a[side]);
    return { origin: a[side], x, y: unit3(sub3(away, scale3(x, dot3(away, x)))) };
  };
  const { rotation, move }: Motion = alignFrames(axes('from'), axes('to'));
  const column = (i: 0 | 1 | 2): Vec3 => [rotation[0][i], rotation[1][i], rotation[2][i]];
  return { origin: move, x: column(0), y: column(1), normal: column(2) };
}

interface Pair {
  readonly from: Vec3;
  readonly to: Vec3;
}

/** Three points that span a large triangle. */
function farApart(points: Points): readonly [number, number, number] {
  const farthest = (score: (p: Vec3) => number): number => {
    let [best, most] = [0, Number.NEGATIVE_INFINITY];
    points.forEach((p, i) => {
      const own = score(p);
      if (own > most) [best, most] = [i, own];
    });
    return best;
  };
  const first = points[0] as Vec3;
  const second = farthest((p) => distance3(p, first));
  const along = sub3(points[second] as Vec3, first);
  return [0, second, farthest((p) => length3(cross3(along, sub3(p, first))))];
}

/** Length of a path from vertex to vertex, mm: of more than one step along the curve on the first of these faces that is rolled. */
export function lengthAlong(
  { vertices, faces }: Pick<Solid, 'vertices' | 'faces'>,
  path: readonly number[],
  sides: readonly number[],
): number {
  const rolled = path.length > 2 ? sides.find((f) => faces[f]?.roll) : undefined;
  const points = path.map((v) => vertices[v] as Vec3);
  const sum = (lengths: readonly number[]): number => lengths.reduce((all, length) => all + length, 0);
  if (rolled === undefined) return sum(points.slice(1).map((p, i) => distance3(points[i] as Vec3, p)));
  const { surface } = (faces[rolled] as Face).roll as Roll;
  const frame = faceFrame({ vertices, faces }, rolled);
  const places = points.map((p) => rulingOf(frame, surface, p));
  return sum(places.slice(1).map((place, i) => lengthBetween(surface, places[i] as OnRuling, place)));
}

/** A point of a face in its own frame: of the flat panel where the face is smooth. */
export function pointInFace(solid: Pick<Solid, 'vertices' | 'faces'>, face: number, point: Vec3): Vec2 {
  const local = into(faceFrame(solid, face), point);
  const roll = solid.faces[face]?.roll;
  return roll ? unbendPoint(roll.surface, local) : [local[0], local[1]];
}

/** A face's corners in its own frame, mm, in the order of its loop: the panel laid flat. */
export function flattenFace(solid: Pick<Solid, 'vertices' | 'faces'>, face: number): readonly Vec2[] {
  const { loop, roll } = solid.faces[face] as Face;
  if (roll) return roll.flat;
  const { origin, x, y } = faceFrame(solid, face);
  return loop.map((v) => {
    const from = sub3(solid.vertices[v] as Vec3, origin);
    return [dot3(from, x), dot3(from, y)];
  });
}

/**
 * The flat rings, by vertex, that a face is made of: itself, or where it is smooth the strips between its rulings; no more
 * strips than `most`, then less exactly.
 */
export function facetsOf(
  { loop, roll }: Pick<Face, 'loop' | 'roll'>,
  most = Number.POSITIVE_INFINITY,
): readonly (readonly number[])[] {
  if (!roll) return [loop];
  const { rulings } = roll;
  const count = Math.min(rulings.length - 1, most);
  const ruling = (i: number): readonly [number, number] => at(rulings, Math.round((i * (rulings.length - 1)) / count));
  return Array.from({ length: count }, (_, i) => {
    const [[before, below], [high, low]] = [ruling(i), ruling(i + 1)];
    const ring = [loop[below] as number];
    for (const position of [low, high, before]) {
      const v = loop[position] as number;
      if (v !== ring[0] && v !== ring.at(-1)) ring.push(v);
    }
    return ring;
  });
}

/** Where the bent panel's frame lies in space: takes a flat point (x, y, 0) bent in place to the solid. */
export const frameMotion = ({ origin, x, y, normal }: FaceFrame): Motion => ({
  rotation: [
    [x[0], y[0], normal[0]],
    [x[1], y[1], normal[1]],
    [x[2], y[2], normal[2]],
  ],
  move: origin,
});

/** How far a smooth face's points are from its surface, mm: 0 but for rounding. */
export function offRoll(solid: Pick<Solid, 'vertices' | 'faces'>, face: number): number {
  const { loop, roll } = solid.faces[face] as Face;
  if (!roll) return 0;
  const motion = frameMotion(faceFrame(solid, face));
  return Math.max(
    ...loop.map((v, i) =>
      distance3(solid.vertices[v] as Vec3, move3(motion, bendPoint(roll.surface, at(roll.flat, i), 1))),
    ),
  );
}

import { move3 } from '../geometry/motion.ts';
import { at } from '../geometry/polygon.ts';
import { stepKeys } from '../geometry/step-key.ts';
import type { Vec2, Vec3 } from '../geometry/vector.ts';
import { faceFrame, frameMotion, pointInFace } from '../solid/face-frame.ts';
import { bendPoint, polarOn, type Roll, type RolledSurface } from '../solid/roll.ts';
import { type Edge, edgePath, type Face, type Solid } from '../solid/solid.ts';
import { NOISE_RAD, ROLL_MM } from '../tolerance.ts';

/** Into how many steps each is parted so that the samples keep near enough to their curve, of so far that they keep from it, mm. */
export const stepsFrom = (deviation: number): number =>
  Math.max(1, Math.ceil(Math.sqrt(deviation / ROLL_MM) + NOISE_RAD));

/** How far the samples of curves keep from them at most, mm. */
export const coarsest = ({ faces }: Pick<Solid, 'faces'>): number =>
  Math.max(0, ...faces.map(({ roll }) => roll?.deviation ?? 0));

/** The same solid with every step of its curves in so many, each new point on its surface. */
export function refineCurves(solid: Solid, count: number): Solid {
  if (count <= 1) return solid;
  const vertices: Vec3[] = [...solid.vertices];
  const between = new Map<number, readonly number[]>();
  const key = stepKeys(solid.vertices.length);
  const edges = solid.edges.map((edge): Edge => {
    const rolled = edge.faces.find((f) => solid.faces[f]?.roll);
    if (!edge.via || rolled === undefined) return edge;
    const path = edgePath(edge);
    const made = path.slice(1).map((to, i) => {
      const from = path[i] as number;
      const known = between.get(key(from, to));
      if (known) return known;
      const inner = shares(count).map((share) => vertices.push(pointBetween(solid, rolled, from, to, share)) - 1);
      between.set(key(from, to), inner);
      between.set(key(to, from), inner.toReversed());
      return inner;
    });
    return { ...edge, via: [...made.flatMap((inner, i) => [...inner, path[i + 1] as number])].slice(0, -1) };
  });
  const faces = solid.faces.map((face): Face => {
    const moved: number[] = [];
    const loop = face.loop.flatMap((v, i) => {
      moved.push(i === 0 ? 0 : (moved[i - 1] as number) + 1 + (between.get(key(at(face.loop, i - 1), v)) ?? []).length);
      return [v, ...(between.get(key(v, at(face.loop, i + 1))) ?? [])];
    });
    return face.roll
      ? { ...face, loop, roll: refineRoll({ ...face, roll: face.roll }, loop, moved, count) }
      : { ...face, loop };
  });
  return { ...solid, vertices, faces, edges };
}

const shares = (count: number): readonly number[] => Array.from({ length: count - 1 }, (_, t) => (t + 1) / count);

/** A point of a rolled face between two others, by azimuth and along the rulings. */
function pointBetween(solid: Solid, f: number, from: number, to: number, share: number): Vec3 {
  const { surface } = (solid.faces[f] as Face).roll as Roll;
  const [p, q] = [from, to].map((v) => pointInFace(solid, f, solid.vertices[v] as Vec3)) as [Vec2, Vec2];
  return move3(frameMotion(faceFrame(solid, f)), bendPoint(surface, flatBetween(surface, p, q, share), 1));
}

function flatBetween(surface: RolledSurface, p: Vec2, q: Vec2, share: number): Vec2 {
  const mix = (a: number, b: number): number => a + (b - a) * share;
  if (surface.form === 'cylinder') return [mix(p[0], q[0]), mix(p[1], q[1])];
  const [[r, a], [s, b]] = [polarOn(surface, p), polarOn(surface, q)];
  const [slant, angle] = [mix(r, s), mix(a, b)];
  return [slant * Math.sin(angle), surface.apex - slant * Math.cos(angle)];
}

function refineRoll(
  face: Face & { readonly roll: Roll },
  loop: readonly number[],
  moved: readonly number[],
  count: number,
): Roll {
  const { roll } = face;
  const place = (position: number): number => moved[position] as number;
  const flat = face.loop.flatMap((_, i): Vec2[] => {
    const steps = ((i + 1 < moved.length ? place(i + 1) : loop.length) - place(i)) as number;
    return Array.from({ length: steps }, (_unused, t) =>
      flatBetween(roll.surface, at(roll.flat, i), at(roll.flat, i + 1), t / steps),
    );
  });
  const rulings = roll.rulings.flatMap(([high, low], r): (readonly [number, number])[] => {
    const next = roll.rulings[r + 1];
    const own = [place(high), place(low)] as const;
    if (!next) return [own];
    // The lower ends go on along the loop, the upper ones come back along it.
    const inner = shares(count).map((_, t): readonly [number, number] => [
      next[0] === high ? place(high) : place(next[0]) + count - (t + 1),
      place(low) + t + 1,
    ]);
    return [own, ...inner];
  });
  return { ...roll, flat, rulings, corners: roll.corners.map(place), deviation: roll.deviation / count ** 2 };
}

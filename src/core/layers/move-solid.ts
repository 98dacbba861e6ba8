import { at } from '../geometry/polygon.ts';
import { stepKeys } from '../geometry/step-key.ts';
import { distance3, type Vec3 } from '../geometry/vector.ts';
import type { Face, Solid } from '../solid/solid.ts';
import { NOISE_MM } from '../tolerance.ts';
import { faceTrouble } from './face-trouble.ts';
import { moveFaces } from './move-faces.ts';
import { edgesAnew, edgesMoved, type NewRidge } from './offset-edges.ts';
import { type Corner, meshOf, type OffsetMesh } from './offset-mesh.ts';
import { rolledAnew } from './rolled-anew.ts';
import { placeRolled } from './rolled-corners.ts';

/** A solid whose faces have moved; or the face that would vanish, and how far it could go, mm, where that is known. */
export type MovedSolid =
  | { readonly ok: true; readonly solid: Solid; readonly ridges: readonly NewRidge[] }
  | { readonly ok: false; readonly face: number; readonly at: number | null };

/**
 * The solid once the planes of its mesh have moved by `target` mm times their speeds, and its rolled faces by `rolledBy` mm. Faces
 * keep their ids, titles, sides and order, edges their ids where they are the same edge.
 */
export function moveSolid(solid: Solid, start: OffsetMesh, target: number, rolledBy: number): MovedSolid {
  const moved = moveFaces(start, target);
  if (!moved.ok) return moved;
  const rolled = placeRolled(solid, moved.mesh, target);
  if (typeof rolled === 'number') {
    const sectors = moved.mesh.corners.get(rolled)?.ring.filter(({ face }) => face !== null) ?? [];
    return { ok: false, face: (sectors.find(({ plane }) => plane) ?? sectors[0])?.face ?? 0, at: null };
  }
  const { mesh } = moved;
  const placeOf = (key: number): Vec3 => rolled.get(key) ?? (mesh.corners.get(key) as Corner).place;
  const numbers = numbered(mesh, placeOf);
  const vertices: Vec3[] = [];
  for (const key of mesh.corners.keys()) vertices[numbers[key] as number] = placeOf(key);
  const faces: Face[] = [];
  for (const [f, face] of solid.faces.entries()) {
    const ring = (mesh.loops[f] as readonly number[]).map((key) => numbers[key] as number);
    const loop = ring.filter((v, i) => v !== at(ring, i + 1));
    if (loop.length < 3) return { ok: false, face: f, at: null };
    const points = loop.map((v) => vertices[v] as Vec3);
    const roll = holdsStill(solid, face, points)
      ? face.roll
      : rolledAnew(solid, f, points, placesAfter(ring), rolledBy);
    if (face.roll && !roll) return { ok: false, face: f, at: null };
    if (!points.every(isFinite3)) return { ok: false, face: f, at: null };
    faces.push({ ...face, loop, ...(roll ? { roll } : {}) });
  }
  const trouble = faceTrouble(solid, { vertices, faces });
  if (trouble !== null) return { ok: false, face: trouble, at: null };
  if (isAsBefore(solid, mesh, numbers))
    return {
      ok: true,
      solid: { ...solid, vertices, faces, edges: edgesMoved(solid.edges, { vertices, faces }) },
      ridges: [],
    };
  const twice = stepTwice(faces, vertices.length);
  if (twice !== null) return { ok: false, face: twice, at: null };
  const { edges, ridges } = edgesAnew(solid, mesh, numbers, { vertices, faces });
  return { ok: true, solid: { ...solid, vertices, faces, edges }, ridges };
}

/** Whether no corner has come apart or met another: each is still the vertex of its number. */
const isAsBefore = (solid: Solid, { corners, loops }: OffsetMesh, numbers: readonly number[]): boolean =>
  loops === meshOf(solid).loops &&
  corners.size === solid.vertices.length &&
  [...corners].every(([key, { origins }]) => origins[0] === key && numbers[key] === key);

/** For each corner of a ring its place once of corners that follow each other and are one only one is kept. */
function placesAfter(ring: readonly number[]): readonly number[] {
  let count = 0;
  const places = ring.map((v, i) => (v === at(ring, i + 1) ? count : count++));
  return places.map((place) => place % count);
}

/** A face whose corners are where they were; it lies flat as before. */
const holdsStill = ({ vertices }: Solid, { loop, roll }: Face, points: readonly Vec3[]): boolean =>
  !roll ||
  (loop.length === points.length &&
    loop.every((v, i) => distance3(vertices[v] as Vec3, points[i] as Vec3) <= NOISE_MM));

/** A face that runs along an edge in the same direction as another, or along both sides of it: it has met another away from its edges. */
function stepTwice(faces: readonly Face[], count: number): number | null {
  const keyOf = stepKeys(count);
  const seen = new Map<number, number>();
  for (const [f, { loop }] of faces.entries()) {
    for (const [i, v] of loop.entries()) {
      const to = at(loop, i + 1);
      if (seen.has(keyOf(v, to)) || seen.get(keyOf(to, v)) === f) return f;
      seen.set(keyOf(v, to), f);
    }
  }
  return null;
}

const isFinite3 = ([x, y, z]: Vec3): boolean => Number.isFinite(x) && Number.isFinite(y) && Number.isFinite(z);

/** The vertex of each corner: corners of one face that have come nearer than the noise are one. */
function numbered({ corners, loops }: OffsetMesh, placeOf: (key: number) => Vec3): readonly number[] {
  const kept = new Map<number, number>();
  const root = (key: number): number => {
    const up = kept.get(key);
    return up === undefined ? key : root(up);
  };
  for (const loop of loops) {
    loop.forEach((from, i) => {
      const to = at(loop, i + 1);
      // Of three each is within the noise of the next, though the last need not be of the first.
      if (distance3(placeOf(from), placeOf(to)) > NOISE_MM) return;
      const [a, b] = [root(from), root(to)];
      if (a !== b) kept.set(Math.max(a, b), Math.min(a, b));
    });
  }
  const numbers: number[] = [];
  let count = 0;
  for (const key of [...corners.keys()].sort((a, b) => a - b)) if (!kept.has(key)) numbers[key] = count++;
  for (const key of kept.keys()) numbers[key] = numbers[root(key)] as number;
  return numbers;
}

import { at } from '../geometry/polygon.ts';
import { distance3, type Vec3 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Roll } from '../solid/roll.ts';
import type { Edge, Face, Solid } from '../solid/solid.ts';
import { isPositive, NOISE_MM, ROLL_MM } from '../tolerance.ts';
import { abutmentTrouble, faceTrouble, wallTrouble } from './face-trouble.ts';
import { moveFaces } from './move-faces.ts';
import { edgesAnew, type NewRidge } from './offset-edges.ts';
import { type Corner, meshOf, type OffsetMesh } from './offset-mesh.ts';
import { refineCurves } from './refine-curves.ts';
import { placeRolled, rolledAnew } from './rolled-corners.ts';

/**
 * The solid whose faces lie `by` mm outside those of another (inside where it is negative), solved anew from the moved planes.
 * Faces keep their ids, titles, sides and order, edges their ids where they are the same edge. Free edges hold what they end at:
 * eaves, feet and open tops their level, verges their upright plane (flush with a wall, that wall's). A peak in which the moved
 * planes no longer meet becomes short ridges, which a note tells. Fails with the panel that would vanish and how far the faces
 * can go.
 */
export function offsetSolid(solid: Solid, by: number): Result<Solid> {
  if (!isPositive(Math.abs(by))) return succeed(solid);
  const found = tryOffset(solid, by);
  if (found.ok) return succeed(found.solid, ridgeNotes(found.solid, found.ridges));
  return fail(tooThick(solid, found.face, mostOffset(solid, by, found.at), by));
}

type Tried =
  | { readonly ok: true; readonly solid: Solid; readonly ridges: readonly NewRidge[] }
  | { readonly ok: false; readonly face: number; readonly at: number | null };

function tryOffset(first: Solid, by: number): Tried {
  // A larger curve takes more samples.
  const guess = stepsFrom(Math.max(0, ...first.faces.map(({ roll }) => (roll ? deviationAfter(roll, by) : 0))));
  const once = offsetOnce(refineCurves(first, guess), by);
  if (!once.ok) return once;
  const coarse = Math.max(0, ...once.solid.faces.map(({ roll }) => roll?.deviation ?? 0));
  return coarse <= ROLL_MM ? once : offsetOnce(refineCurves(first, guess * stepsFrom(coarse)), by);
}

/** Into how many steps each is parted so that the samples keep near enough to their curve. */
const stepsFrom = (deviation: number): number => Math.max(1, Math.ceil(Math.sqrt(deviation / ROLL_MM)));

/** How far the same samples will keep from their curve, mm: by the radius, that of a cone at its level eave. */
function deviationAfter({ surface, flat, deviation }: Roll, by: number): number {
  if (surface.form === 'cylinder') return deviation * (1 + by / surface.radius);
  const { apex, sine } = surface;
  const radius = sine * Math.max(...flat.map(([x, y]) => Math.hypot(x, apex - y)));
  return deviation * (1 + by / Math.sqrt((1 - sine) * (1 + sine)) / radius);
}

/** How far the faces can go the same way, mm: where something came to nothing, if all is sound until then; else by halving. */
function mostOffset(solid: Solid, by: number, known: number | null): number {
  const isSound = (far: number): boolean => tryOffset(solid, Math.sign(by) * far).ok;
  let [low, high] = [0, known ?? Math.abs(by)];
  if (high > 0 && known !== null && isSound(NEARLY * known)) return known;
  for (let round = 0; round < HALVINGS && high > 0; round++) {
    const middle = (low + high) / 2;
    if (isSound(middle)) low = middle;
    else high = middle;
  }
  return low;
}

const NEARLY = 0.999;
const HALVINGS = 12;

function offsetOnce(solid: Solid, by: number): Tried {
  const moved = moveFaces(meshOf(solid), by);
  if (!moved.ok) return moved;
  const rolled = placeRolled(solid, moved.mesh, by);
  const corners = new Map(
    [...moved.mesh.corners].map(
      ([key, corner]) => [key, { ...corner, place: rolled.get(key) ?? corner.place }] as const,
    ),
  );
  const mesh: OffsetMesh = { corners, loops: moved.mesh.loops };
  const numbers = numbered(mesh);
  const vertices: Vec3[] = [];
  for (const [key, index] of numbers) vertices[index] = (corners.get(key) as Corner).place;
  const faces: Face[] = [];
  for (const [f, face] of solid.faces.entries()) {
    const ring = (mesh.loops[f] as readonly number[]).map((key) => numbers.get(key) as number);
    const loop = ring.filter((v, i) => v !== at(ring, i + 1));
    if (loop.length < 3) return { ok: false, face: f, at: null };
    const points = loop.map((v) => vertices[v] as Vec3);
    const roll = face.roll ? rolledAnew(solid, f, points, by) : null;
    if (face.roll && !roll) return { ok: false, face: f, at: null };
    if (!points.every((p) => p.every(Number.isFinite))) return { ok: false, face: f, at: null };
    faces.push({ ...face, loop, ...(roll ? { roll } : {}) });
  }
  const trouble = faceTrouble(solid, { vertices, faces });
  if (trouble !== null) return { ok: false, face: trouble, at: null };
  const twice = stepTwice(faces);
  if (twice !== null) return { ok: false, face: twice, at: null };
  const { edges, ridges } = edgesAnew(solid, mesh, numbers, { vertices, faces });
  const whole: Solid = { ...solid, vertices, faces, edges };
  const loose = abutmentTrouble(whole) ?? wallTrouble(solid, whole);
  return loose === null ? { ok: true, solid: whole, ridges } : { ok: false, face: loose, at: null };
}

/** A face that runs along an edge in the same direction as another, or along both sides of it: it has met another away from its edges. */
function stepTwice(faces: readonly Face[]): number | null {
  const seen = new Map<string, number>();
  for (const [f, { loop }] of faces.entries()) {
    for (const [i, v] of loop.entries()) {
      const to = at(loop, i + 1);
      if (seen.has(`${v}-${to}`) || seen.get(`${to}-${v}`) === f) return f;
      seen.set(`${v}-${to}`, f);
    }
  }
  return null;
}

/** A number for each place: corners of one face that have come nearer than the noise are one. */
function numbered({ corners, loops }: OffsetMesh): ReadonlyMap<number, number> {
  const kept = new Map<number, number>();
  const root = (key: number): number => {
    const up = kept.get(key);
    return up === undefined ? key : root(up);
  };
  for (const loop of loops) {
    loop.forEach((from, i) => {
      const [a, b] = [root(from), root(at(loop, i + 1))];
      const near = distance3((corners.get(a) as Corner).place, (corners.get(b) as Corner).place);
      if (a !== b && near <= NOISE_MM) kept.set(Math.max(a, b), Math.min(a, b));
    });
  }
  const numbers = new Map<number, number>();
  let count = 0;
  for (const key of [...corners.keys()].sort((a, b) => a - b)) if (root(key) === key) numbers.set(key, count++);
  for (const key of corners.keys()) numbers.set(key, numbers.get(root(key)) as number);
  return numbers;
}

function ridgeNotes({ edges }: Solid, ridges: readonly NewRidge[]): readonly Issue[] {
  const told = ridges.filter(({ edge }) => (edges[edge] as Edge).faces.length === 2);
  const byCorner = new Map<number, NewRidge[]>();
  for (const ridge of told) byCorner.set(ridge.origin, [...(byCorner.get(ridge.origin) ?? []), ridge]);
  return [...byCorner.values()].map((own): Issue => {
    const apart = Math.max(...own.map((ridge) => ridge.apart));
    const length = own.reduce((sum, { edge }) => sum + (edges[edge] as Edge).length, 0);
    return {
      level: 'note',
      code: 'peak-parted',
      path: '',
      numbers: { apart, length },
      message:
        'At the thickness of the layers the panels of a corner no longer meet in one point: opposite ones meet {apart} apart in height, with a short edge of {length} between them.',
      remedy: 'Nothing needs to be done: this layer is cut to that shape.',
      place: { edges: own.map(({ edge }) => (edges[edge] as Edge).id) },
    };
  });
}

const tooThick = (solid: Solid, face: number, most: number, by: number): Issue => ({
  level: 'error',
  code: 'layer-too-thick',
  path: '',
  numbers: { found: Math.abs(by), most },
  message: `The layers are too thick for this roof: ${by < 0 ? 'inside' : 'outside'} by {found}, the panel ${solid.faces[face]?.title.toLowerCase()} would vanish or run through another. At most {most} is possible.`,
  remedy: 'Take thinner stock, fewer layers, or a larger roof.',
  place: { faces: [solid.faces[face]?.id ?? ''] },
});

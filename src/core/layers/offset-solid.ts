import { at } from '../geometry/polygon.ts';
import { add3, distance3, dot3, scale3, sub3, unit3, type Vec3 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { edgeRole, type Meeting, turnBetween } from '../solid/build-solid.ts';
import { faceFrame, normalAt, pointInFace } from '../solid/face-frame.ts';
import { lengthOnRoll } from '../solid/roll.ts';
import { type Edge, edgePath, type Face, type Solid } from '../solid/solid.ts';
import { isPositive, isSameLength, NOISE_MM, ROLL_MM } from '../tolerance.ts';
import { abutmentTrouble, faceTrouble } from './face-trouble.ts';
import { moveFaces } from './move-faces.ts';
import { type Corner, meshOf, type OffsetMesh, type Sector } from './offset-mesh.ts';
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
  const once = offsetOnce(first, by);
  if (!once.ok) return once;
  const coarse = Math.max(...once.solid.faces.map(({ roll }) => roll?.deviation ?? 0));
  if (coarse <= ROLL_MM) return once;
  // A larger curve takes more samples.
  return offsetOnce(refineCurves(first, Math.ceil(Math.sqrt(coarse / ROLL_MM))), by);
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

/** A short edge that a corner has become. */
interface NewRidge {
  readonly edge: number;
  /** Vertex of the first solid. */
  readonly origin: number;
  /** How much higher or lower than the edge the planes at its ends meet, mm. */
  readonly apart: number;
}

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
  const loose = abutmentTrouble(whole);
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

/** Where an edge runs: its vertices from end to end, in the direction of the first face's loop. */
interface Run {
  readonly path: readonly number[];
  readonly faces: readonly number[];
  /** The edge of the first solid that it is. */
  readonly old: number | null;
  readonly origin: number;
}

function edgesAnew(
  first: Solid,
  { corners, loops }: OffsetMesh,
  numbers: ReadonlyMap<number, number>,
  shape: Pick<Solid, 'vertices' | 'faces'>,
): { readonly edges: readonly Edge[]; readonly ridges: readonly NewRidge[] } {
  const runs: Run[] = [];
  const steps = new Map<string, number>();
  const numberOf = (key: number): number => numbers.get(key) as number;
  loops.forEach((loop, f) => {
    loop.forEach((from, i) => {
      steps.set(`${numberOf(from)}-${numberOf(at(loop, i + 1))}`, f);
    });
  });
  const matched = matcher(first);
  const done = new Set<string>();
  loops.forEach((loop, f) => {
    loop.forEach((fromKey, i) => {
      const [a, b] = [fromKey, at(loop, i + 1)].map((key) => corners.get(key) as Corner) as [Corner, Corner];
      const [from, to] = [numberOf(fromKey), numberOf(at(loop, i + 1))];
      if (from === to || done.has(`${from}-${to}`)) return;
      const beyond = sectorBeyond(a, f);
      const isFree = beyond?.face === null;
      const other = isFree ? undefined : steps.get(`${to}-${from}`);
      done.add(`${from}-${to}`);
      if (other !== undefined) done.add(`${to}-${from}`);
      const host =
        beyond?.edge != null && first.edges[beyond.edge]?.role === 'abutment'
          ? first.edges[beyond.edge]?.faces[1]
          : undefined;
      const faces = [f, ...(other === undefined ? [] : [other]), ...(host === undefined ? [] : [host])];
      const old = matched(f, other, isFree ? (beyond?.edge ?? null) : null, a.origins, b.origins);
      runs.push({ path: [from, to], faces, old, origin: a.origins[0] as number });
    });
  });
  const joined = joinRuns(first, runs);
  const taken = new Set(joined.flatMap(({ old }) => (old === null ? [] : [first.edges[old]?.id])));
  const ridges: NewRidge[] = [];
  const edges = joined.map((run, e): Edge => {
    const made = edgeFrom(first, run, shape, taken);
    if (run.old === null) ridges.push({ edge: e, origin: run.origin, apart: apartAt(shape, made) });
    return made;
  });
  return { edges, ridges };
}

/** What lies across the edge by which the loop of a face leaves a corner: the sector before it in the ring. */
function sectorBeyond({ ring }: Corner, face: number): Sector | undefined {
  const own = ring.findIndex((sector) => sector.face === face);
  return own < 0 ? undefined : at(ring, own - 1);
}

/** Finds which edge of the first solid a step of a face's loop is: each once but for the steps of a curve. */
function matcher(
  first: Solid,
): (
  face: number,
  other: number | undefined,
  free: number | null,
  from: readonly number[],
  to: readonly number[],
) => number | null {
  const along = new Map<string, number[]>();
  first.edges.forEach((edge, e) => {
    const path = edgePath(edge);
    path.slice(1).forEach((w, i) => {
      const v = path[i] as number;
      for (const step of [`${v}-${w}`, `${w}-${v}`]) along.set(step, [...(along.get(step) ?? []), e]);
    });
  });
  return (face, other, free, from, to) => {
    const isMeant = (e: number): boolean => {
      if (free !== null) return e === free;
      const { role, faces } = first.edges[e] as Edge;
      return role !== 'abutment' && faces.includes(face) && faces.includes(other ?? -1);
    };
    for (const v of from) {
      for (const w of to) {
        const found = along.get(`${v}-${w}`)?.find(isMeant);
        if (found !== undefined) return found;
      }
    }
    return null;
  };
}

/** Steps of one edge that follow each other, together, and all in the order of the first solid's edges; new edges come last. */
function joinRuns(first: Solid, runs: readonly Run[]): readonly Run[] {
  const byOld = new Map<number, Run[]>();
  const fresh: Run[] = [];
  for (const run of runs) {
    if (run.old === null) fresh.push(run);
    else byOld.set(run.old, [...(byOld.get(run.old) ?? []), run]);
  }
  const kept = first.edges.flatMap((_, e) => {
    const own = byOld.get(e) ?? [];
    if (own.length < 2) return own;
    const starts = new Map(own.map((run) => [run.path[0] as number, run]));
    const ends = new Set(own.map((run) => run.path[1] as number));
    const begin = own.find((run) => !ends.has(run.path[0] as number)) ?? own[0];
    const path = [...(begin as Run).path];
    for (let next = starts.get(path.at(-1) as number); next && path.length <= own.length; ) {
      path.push(next.path[1] as number);
      next = starts.get(path.at(-1) as number);
    }
    return [{ ...(begin as Run), path }];
  });
  return [...kept, ...fresh];
}

function edgeFrom(
  first: Solid,
  { path, faces, old }: Run,
  shape: Pick<Solid, 'vertices' | 'faces'>,
  taken: Set<string | undefined>,
): Edge {
  const before = old === null ? null : (first.edges[old] as Edge);
  const isTurned = before !== null && before.faces[0] !== faces[0];
  const way = isTurned ? path.toReversed() : path;
  const own = before ? before.faces : faces;
  const half = Math.floor((way.length - 1) / 2);
  const [a, b] = [way[half], way[half + 1]].map((v) => shape.vertices[v as number] as Vec3) as [Vec3, Vec3];
  const middle = scale3(add3(a, b), 0.5);
  const along = unit3(sub3(b, a));
  const meeting = own.map(
    (face): Meeting => ({ face, normal: normalAt(shape.vertices, shape.faces[face] as Face, middle) }),
  ) as [Meeting, Meeting?];
  const isLevel = way.every((v) => isSameLength(shape.vertices[v]?.[2] ?? 0, a[2]));
  const role = before?.role ?? edgeRole(shape.faces, meeting, along, isLevel);
  let id = before?.id ?? [role, ...own.map((face) => shape.faces[face]?.id)].join('-');
  if (!before) for (let count = 2, name = id; taken.has(id); count++) id = `${name}-${count}`;
  taken.add(id);
  const rolled = own.find((face) => shape.faces[face]?.roll);
  const length = way.slice(1).reduce((sum, v, i) => {
    const [p, q] = [shape.vertices[way[i] as number] as Vec3, shape.vertices[v] as Vec3];
    const roll = shape.faces[rolled ?? -1]?.roll;
    if (way.length === 2 || rolled === undefined || !roll) return sum + distance3(p, q);
    return sum + lengthOnRoll(roll.surface, pointInFace(shape, rolled, p), pointInFace(shape, rolled, q));
  }, 0);
  return {
    id,
    ends: [way[0] as number, way.at(-1) as number],
    ...(way.length > 2 ? { via: way.slice(1, -1) } : {}),
    faces: own,
    role,
    length,
    dihedral: meeting[1] ? Math.PI - turnBetween(meeting[0], meeting[1], along, role === 'abutment') : null,
  };
}

/** How far over or under the middle of a new edge the planes of the faces at its ends lie, mm; 0 where they are upright. */
function apartAt({ vertices, faces }: Pick<Solid, 'vertices' | 'faces'>, { ends, faces: own }: Edge): number {
  const [a, b] = ends.map((v) => vertices[v] as Vec3) as [Vec3, Vec3];
  const middle = scale3(add3(a, b), 0.5);
  const heights = faces.flatMap(({ loop }, f) => {
    if (own.includes(f) || !ends.some((v) => loop.includes(v))) return [];
    const { normal, origin } = faceFrame({ vertices, faces }, f);
    return normal[2] <= NOISE_MM ? [] : [Math.abs(dot3(normal, sub3(origin, middle)) / normal[2])];
  });
  return Math.max(0, ...heights);
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

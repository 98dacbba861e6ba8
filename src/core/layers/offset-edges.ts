import { at } from '../geometry/polygon.ts';
import { stepKeys } from '../geometry/step-key.ts';
import { add3, dot3, scale3, sub3, unit3, type Vec3 } from '../geometry/vector.ts';
import { edgeRole, type Meeting, turnBetween } from '../solid/build-solid.ts';
import { faceFrame, lengthAlong, normalAt } from '../solid/face-frame.ts';
import { edgeFinder } from '../solid/measure.ts';
import { type Edge, edgePath, type Face, type Solid } from '../solid/solid.ts';
import { isSameLength, NOISE_MM } from '../tolerance.ts';
import type { Corner, OffsetMesh, Sector } from './offset-mesh.ts';

/** A short edge that a corner has become. */
export interface NewRidge {
  readonly edge: number;
  /** Vertex of the first solid. */
  readonly origin: number;
  /** How much higher or lower than the edge the planes at its ends meet, mm. */
  readonly apart: number;
}

/** Where an edge runs: its vertices from end to end, in the direction of the first face's loop. */
interface Run {
  readonly path: number[];
  readonly faces: readonly number[];
  /** Whether the second face is met on its inside. */
  readonly isAbutment: boolean;
  /** The edge of the first solid that it is. */
  readonly old: number | null;
  readonly origin: number;
}

/**
 * The edges of a moved mesh, in the order of the first solid's; those that it did not have come last. `numbers`: the vertex of each
 * corner.
 */
export function edgesAnew(
  first: Solid,
  { corners, loops }: OffsetMesh,
  numbers: readonly number[],
  shape: Pick<Solid, 'vertices' | 'faces'>,
): { readonly edges: readonly Edge[]; readonly ridges: readonly NewRidge[] } {
  const runs: Run[] = [];
  const keyOf = stepKeys(shape.vertices.length);
  const steps = new Map<number, number>();
  const rings = loops.map((loop) => loop.map((key) => numbers[key] as number));
  rings.forEach((ring, f) => {
    ring.forEach((from, i) => {
      steps.set(keyOf(from, at(ring, i + 1)), f);
    });
  });
  const matched = matcher(first);
  loops.forEach((loop, f) => {
    const ring = rings[f] as readonly number[];
    ring.forEach((from, i) => {
      const to = at(ring, i + 1);
      // What is not left has been done from the other side.
      if (from === to || !steps.delete(keyOf(from, to))) return;
      const a = corners.get(loop[i] as number) as Corner;
      const b = corners.get(at(loop, i + 1)) as Corner;
      const beyond = sectorBeyond(a, f);
      const isFree = beyond?.face === null;
      const other = isFree ? undefined : steps.get(keyOf(to, from));
      if (other !== undefined) steps.delete(keyOf(to, from));
      const host =
        beyond?.edge != null && first.edges[beyond.edge]?.role === 'abutment'
          ? first.edges[beyond.edge]?.faces[1]
          : undefined;
      const old = matched(f, other, isFree ? (beyond?.edge ?? null) : null, a.origins, b.origins);
      const last = runs.at(-1);
      if (old !== null && last?.old === old && last.faces[0] === f && last.path.at(-1) === from) {
        last.path.push(to);
        return;
      }
      const faces = [f, other ?? host].filter((face) => face !== undefined);
      runs.push({ path: [from, to], faces, isAbutment: host !== undefined, old, origin: a.origins[0] as number });
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

/** The edges of a solid whose corners have moved and are the same: only what is measured of them is another. */
export const edgesMoved = (edges: readonly Edge[], shape: Pick<Solid, 'vertices' | 'faces'>): readonly Edge[] =>
  edges.map((edge): Edge => {
    const { id, ends, via, faces, role } = edge;
    const path = edgePath(edge);
    const isFlat = faces.every((f) => !shape.faces[f]?.roll);
    // Planes that move keep their angle.
    const dihedral = isFlat ? edge.dihedral : dihedralOf(role, ...meetingAlong(shape, path, faces));
    return { id, ends, ...(via ? { via } : {}), faces, role, length: lengthAlong(shape, path, faces), dihedral };
  });

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
  const edgeAt = edgeFinder(first);
  return (face, other, free, from, to) => {
    const isMeant = ({ role, faces }: Edge, e: number): boolean => {
      // Where a panel has lost its free edge to a neighbour, that one's is another.
      if (free !== null) return e === free && faces.includes(face);
      return role !== 'abutment' && faces.includes(face) && faces.includes(other ?? -1);
    };
    for (const v of from) {
      for (const w of to) {
        const found = edgeAt(v, w, isMeant);
        if (found !== undefined) return found;
      }
    }
    return null;
  };
}

/** Runs of one edge that follow each other, together, and all in the order of the first solid's edges; new edges come last. */
function joinRuns(first: Solid, runs: readonly Run[]): readonly Run[] {
  const byOld = new Map<number, Run[]>();
  const fresh: Run[] = [];
  for (const run of runs) {
    if (run.old === null) fresh.push(run);
    else if (!byOld.get(run.old)?.push(run)) byOld.set(run.old, [run]);
  }
  const kept = first.edges.flatMap((_, e) => {
    const own = byOld.get(e) ?? [];
    if (own.length < 2) return own;
    const starts = new Map(own.map((run) => [run.path[0] as number, run]));
    const ends = new Set(own.map((run) => run.path.at(-1) as number));
    const begin = own.find((run) => !ends.has(run.path[0] as number)) ?? own[0];
    const path = [...(begin as Run).path];
    let next = starts.get(path.at(-1) as number);
    for (let used = 1; next && used < own.length; used++) {
      path.push(...next.path.slice(1));
      next = starts.get(path.at(-1) as number);
    }
    return [{ ...(begin as Run), path }];
  });
  return [...kept, ...fresh];
}

function edgeFrom(
  first: Solid,
  { path, faces, isAbutment, old }: Run,
  shape: Pick<Solid, 'vertices' | 'faces'>,
  taken: Set<string | undefined>,
): Edge {
  const before = old === null ? null : (first.edges[old] as Edge);
  const isTurned = before !== null && before.faces[0] !== faces[0];
  const way = isTurned ? path.toReversed() : path;
  const own = before ? before.faces : faces;
  const [meeting, along] = meetingAlong(shape, way, own);
  const levels = way.map((v) => shape.vertices[v]?.[2] ?? 0);
  const isLevel = levels.every((level) => isSameLength(level, levels[0] as number));
  const role = before?.role ?? (isAbutment ? 'abutment' : edgeRole(shape.faces, meeting, along, isLevel));
  let id = before?.id ?? [role, ...own.map((face) => shape.faces[face]?.id)].join('-');
  if (!before) for (let count = 2, name = id; taken.has(id); count++) id = `${name}-${count}`;
  taken.add(id);
  return {
    id,
    ends: [way[0] as number, way.at(-1) as number],
    ...(way.length > 2 ? { via: way.slice(1, -1) } : {}),
    faces: own,
    role,
    length: lengthAlong(shape, way, own),
    dihedral: dihedralOf(role, meeting, along),
  };
}

/** How the faces at an edge meet in the middle of it, and its direction there. */
function meetingAlong(
  { vertices, faces }: Pick<Solid, 'vertices' | 'faces'>,
  path: readonly number[],
  sides: readonly number[],
): readonly [meeting: readonly [Meeting, Meeting?], along: Vec3] {
  const half = Math.floor((path.length - 1) / 2);
  const [a, b] = [path[half], path[half + 1]].map((v) => vertices[v as number] as Vec3) as [Vec3, Vec3];
  const middle = scale3(add3(a, b), 0.5);
  const meeting = sides.map((face): Meeting => ({ face, normal: normalAt(vertices, faces[face] as Face, middle) }));
  return [meeting as [Meeting, Meeting?], unit3(sub3(b, a))];
}

const dihedralOf = (role: Edge['role'], [first, second]: readonly [Meeting, Meeting?], along: Vec3): number | null =>
  second ? Math.PI - turnBetween(first, second, along, role === 'abutment') : null;

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

import { at } from '../geometry/polygon.ts';
import { add3, cross3, distance3, dot3, scale3, sub3, unit3, type Vec3 } from '../geometry/vector.ts';
import { isSameLength, NOISE_MM, NOISE_RAD } from '../tolerance.ts';
import { lengthAlong, normalAt } from './face-frame.ts';
import type { Roll } from './roll.ts';
import type { Edge, EdgeRole, Face, Solid } from './solid.ts';

/** A face by its corner points, counter-clockwise seen from outside. */
export interface FaceDraft {
  readonly id: string;
  readonly title: string;
  readonly part: Face['part'];
  readonly side: string;
  readonly points: readonly Vec3[];
  /** Positions in it count along `points`. */
  readonly roll?: Roll;
  /** Positions in `points` of a flat face that only sample a curve which no smooth face runs along. */
  readonly samples?: readonly number[];
}

/** The slanted edge of a wall, by its ends, meets the inside of a slope away from the slope's own edges. */
export interface AbutmentDraft {
  readonly wall: string;
  readonly slope: string;
  readonly ends: readonly [Vec3, Vec3];
}

/**
 * Joins faces into a solid: points closer than the noise become one vertex, edges that two faces run along in opposite
 * directions become one, and every edge gets its role, length and dihedral from the geometry.
 */
export function buildSolid(drafts: readonly FaceDraft[], abutments: readonly AbutmentDraft[] = []): Solid {
  const vertices: Vec3[] = [];
  const byCell = new Map<number, number[]>();
  const vertexAt = (point: Vec3): number => {
    for (const cell of cellsAround(point))
      for (const v of byCell.get(cell) ?? []) if (distance3(vertices[v] as Vec3, point) <= NOISE_MM) return v;
    const index = vertices.push(point) - 1;
    const cell = cellOf(point, 0);
    const here = byCell.get(cell);
    if (here) here.push(index);
    else byCell.set(cell, [index]);
    return index;
  };
  const faces: Face[] = drafts.map(({ points, samples: _, ...face }) => ({
    ...face,
    loop: points.map(vertexAt),
  }));
  const met = abutments.map(({ wall, slope, ends }) => ({
    wall: faces.findIndex((face) => face.id === wall),
    slope: faces.findIndex((face) => face.id === slope),
    ends: ends.map(vertexAt) as [number, number],
  }));
  const keyOf = (start: number, end: number): number => start * vertices.length + end;
  const hosts = new Map<number, Map<number, number>>();
  for (const { wall, slope, ends } of met)
    hosts.set(wall, (hosts.get(wall) ?? new Map<number, number>()).set(keyOf(...ends), slope));

  const open = new Map<number, number>();
  const parts: EdgePart[] = [];
  faces.forEach((face, f) => {
    face.loop.forEach((start, i) => {
      const end = at(face.loop, i + 1);
      const twin = open.get(keyOf(end, start));
      if (twin !== undefined) {
        parts[twin]?.sides.push(f);
        open.delete(keyOf(end, start));
        return;
      }
      const host = hosts.get(f)?.get(keyOf(start, end));
      const index = parts.push({ ends: [start, end], sides: [f], host });
      if (host === undefined) open.set(keyOf(start, end), index - 1);
    });
  });

  const taken = new Set<string>();
  const edges = joinCurves(parts, curvedVertices(faces, drafts)).map((run): Edge => {
    const path = [run[0]?.ends[0] as number, ...run.map((part) => part.ends[1])];
    const { ends, sides, host } = run[Math.floor(run.length / 2)] as EdgePart;
    const [a, b] = ends.map((v) => vertices[v] as Vec3) as [Vec3, Vec3];
    const isLevel = path.every((v) => isSameLength(vertices[v]?.[2] ?? 0, a[2]));
    const along = unit3(sub3(b, a));
    const middle = scale3(add3(a, b), 0.5);
    const own = [...sides, ...(host === undefined ? [] : [host])];
    const meeting = own.map((face): Meeting => ({ face, normal: normalAt(vertices, faces[face] as Face, middle) })) as [
      Meeting,
      Meeting?,
    ];
    const role = host === undefined ? edgeRole(faces, meeting, along, isLevel) : 'abutment';
    const name = [role, ...meeting.map((side) => faces[side?.face ?? -1]?.id)].join('-');
    // A face may be called as another with a number, so that numbering alone would not tell their edges apart.
    let id = name;
    for (let count = 2; taken.has(id); count++) id = `${name}-${count}`;
    taken.add(id);
    return {
      id,
      ends: [path[0] as number, path.at(-1) as number],
      ...(path.length > 2 ? { via: path.slice(1, -1) } : {}),
      faces: own,
      role,
      length: lengthAlong({ vertices, faces }, path, own),
      dihedral: meeting[1] ? Math.PI - turnBetween(meeting[0], meeting[1], along, host !== undefined) : null,
    };
  });
  return { vertices, faces, edges };
}

/** How far the paper turns at an edge, radians; at the foot of a wall that stands on a face, to the face behind the wall. */
export function turnBetween(first: Meeting, second: Meeting, along: Vec3, isAbutment: boolean): number {
  const turn = turnAlong(first.normal, second.normal, along);
  return isAbutment && standsOn(first.normal, second.normal, along) ? turn + Math.PI : turn;
}

/**
 * Whether a wall stands on the outside of the face that its edge meets, in place of ending under it: from the edge it goes up
 * from the face. By outward normals, and the direction of the wall's loop.
 */
export const standsOn = (wall: Vec3, host: Vec3, along: Vec3): boolean => dot3(host, cross3(wall, along)) > 0;

/** Side of the cells that points are sorted into, mm; they begin off the marks of rulers, on which many points lie. */
const CELL = 1;
const BEGIN = 0.3137;

const cellAt = (part: number): number => Math.floor((part - BEGIN) / CELL);

/** A number for the cell of a point; other cells may share it. */
const cellOf = ([x, y, z]: Vec3, shift: number): number =>
  cellKey(cellAt(x + shift), cellAt(y + shift), cellAt(z + shift));

const cellKey = (x: number, y: number, z: number): number =>
  Math.imul(x, 73_856_093) ^ Math.imul(y, 19_349_663) ^ Math.imul(z, 83_492_791);

/** The cells that a point within the noise of this one may lie in: all but always one. */
function cellsAround(point: Vec3): readonly number[] {
  const [low, high] = [cellOf(point, -NOISE_MM), cellOf(point, NOISE_MM)];
  if (low === high) return [low];
  const axes = point.map((part) => [...new Set([cellAt(part - NOISE_MM), cellAt(part + NOISE_MM)])]);
  const [xs, ys, zs] = axes as [number[], number[], number[]];
  return xs.flatMap((x) => ys.flatMap((y) => zs.map((z) => cellKey(x, y, z))));
}

/** One step along the loop of a face, and of the face beyond. */
interface EdgePart {
  readonly ends: readonly [number, number];
  readonly sides: number[];
  /** The face whose inside is met there. */
  readonly host: number | undefined;
}

/** A face at an edge with its outward normal there. */
export interface Meeting {
  readonly face: number;
  readonly normal: Vec3;
}

/** Vertices that only sample a curve: no smooth face has a corner there. */
function curvedVertices(faces: readonly Face[], drafts: readonly FaceDraft[]): ReadonlySet<number> {
  const curved = new Set<number>();
  drafts.forEach(({ samples = [] }, f) => {
    for (const i of samples) curved.add(faces[f]?.loop[i] as number);
  });
  for (const { loop, roll } of faces) if (roll) for (const v of loop) curved.add(v);
  for (const { loop, roll } of faces) for (const i of roll?.corners ?? []) curved.delete(loop[i] as number);
  return curved;
}

/** Parts that follow each other round a curve between the same faces, together; each other part by itself. */
function joinCurves(parts: readonly EdgePart[], curved: ReadonlySet<number>): readonly (readonly EdgePart[])[] {
  const runs: EdgePart[][] = [];
  for (const part of parts) {
    const last = runs.at(-1)?.at(-1);
    const goesOn =
      last?.ends[1] === part.ends[0] &&
      curved.has(part.ends[0]) &&
      last.host === part.host &&
      last.sides.length === part.sides.length &&
      last.sides.every((side, i) => side === part.sides[i]);
    if (goesOn) runs.at(-1)?.push(part);
    else runs.push([part]);
  }
  return runs;
}

/** Angle from the first face's normal to the second's about the edge (direction of the first face's loop); positive: outside angle. */
export const turnAlong = (n1: Vec3, n2: Vec3, along: Vec3): number =>
  Math.atan2(dot3(cross3(n1, n2), along), dot3(n1, n2));

/**
 * What an edge is, from how its faces leave it. A face leaves an edge of its loop along its normal crossed with the edge:
 * upward (a slope from its eave), downward (a slope from its ridge) or level (a flat top).
 */
export function edgeRole(
  faces: readonly Face[],
  [first, second]: readonly [Meeting, Meeting?],
  along: Vec3,
  isLevel: boolean,
): EdgeRole {
  const climb = ({ normal }: Meeting, direction: Vec3): number => cross3(normal, direction)[2];
  const firstClimbs = climb(first, along);
  const isWall = ({ face }: Meeting): boolean => faces[face]?.part !== 'slope';
  if (second === undefined) {
    if (!isLevel) return 'verge';
    if (firstClimbs < -NOISE_RAD) return 'rim';
    return isWall(first) ? 'foot' : 'eave';
  }
  // The second face runs along the edge the other way.
  const secondClimbs = climb(second, scale3(along, -1));
  if (isWall(first) !== isWall(second)) {
    if (!isLevel) return 'verge';
    const [slopeClimbs, wallClimbs] = isWall(first) ? [secondClimbs, firstClimbs] : [firstClimbs, secondClimbs];
    return slopeClimbs >= -NOISE_RAD && wallClimbs < -NOISE_RAD ? 'eave' : 'break';
  }
  // Where a smooth face is made of two, the paper goes straight on.
  if (!isLevel) return turnAlong(first.normal, second.normal, along) > -NOISE_RAD ? 'hip' : 'valley';
  if (firstClimbs < -NOISE_RAD && secondClimbs < -NOISE_RAD) return 'ridge';
  return firstClimbs > NOISE_RAD && secondClimbs > NOISE_RAD ? 'valley' : 'break';
}

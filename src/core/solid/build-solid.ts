import { at } from '../geometry/polygon.ts';
import { add3, cross3, distance3, dot3, scale3, sub3, unit3, type Vec3 } from '../geometry/vector.ts';
import { NOISE_MM, NOISE_RAD } from '../tolerance.ts';
import type { Edge, EdgeRole, Face, Solid } from './solid.ts';

/** A face by its corner points, counter-clockwise seen from outside. */
export interface FaceDraft {
  readonly id: string;
  readonly title: string;
  readonly part: Face['part'];
  readonly side: string;
  readonly points: readonly Vec3[];
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
  const vertexAt = (point: Vec3): number => {
    const known = vertices.findIndex((v) => distance3(v, point) <= NOISE_MM);
    return known >= 0 ? known : vertices.push(point) - 1;
  };
  const faces: Face[] = drafts.map(({ points, ...face }) => ({ ...face, loop: points.map(vertexAt) }));
  const normals = faces.map((face) => faceNormal(vertices, face));

  const hosts = new Map<string, number>();
  for (const { wall, slope, ends } of abutments) {
    const wallIndex = faces.findIndex((face) => face.id === wall);
    const slopeIndex = faces.findIndex((face) => face.id === slope);
    hosts.set(edgeKey(wallIndex, vertexAt(ends[0]), vertexAt(ends[1])), slopeIndex);
  }

  const open = new Map<string, number>();
  const found: { ends: readonly [number, number]; faces: number[]; host: boolean }[] = [];
  faces.forEach((face, f) => {
    face.loop.forEach((start, i) => {
      const end = at(face.loop, i + 1);
      const twin = open.get(`${end}-${start}`);
      if (twin !== undefined) {
        found[twin]?.faces.push(f);
        open.delete(`${end}-${start}`);
        return;
      }
      const host = hosts.get(edgeKey(f, start, end));
      const index = found.push({
        ends: [start, end],
        faces: host === undefined ? [f] : [f, host],
        host: host !== undefined,
      });
      if (host === undefined) open.set(`${start}-${end}`, index - 1);
    });
  });

  const taken = new Set<string>();
  const edges = found.map(({ ends, faces: sides, host }): Edge => {
    const a = vertices[ends[0]] as Vec3;
    const b = vertices[ends[1]] as Vec3;
    const [first, second] = sides as [number, number?];
    const along = unit3(sub3(b, a));
    const turn = second === undefined ? null : turnAlong(normals[first] as Vec3, normals[second] as Vec3, along);
    const role = host ? 'abutment' : edgeRole(faces, normals, along, sides);
    const name = [role, ...sides.map((f) => faces[f]?.id)].join('-');
    // A face may be called as another with a number, so that numbering alone would not tell their edges apart.
    let id = name;
    for (let count = 2; taken.has(id); count++) id = `${name}-${count}`;
    taken.add(id);
    return {
      id,
      ends,
      faces: sides,
      role,
      length: distance3(a, b),
      dihedral: turn === null ? null : Math.PI - turn,
    };
  });
  return { vertices, faces, edges };
}

const edgeKey = (face: number, start: number, end: number): string => `${face}:${start}-${end}`;

/** Outward unit normal by Newell's sum, which also holds where three points in a row are in line. */
export function faceNormal(vertices: readonly Vec3[], face: Face): Vec3 {
  let sum: Vec3 = [0, 0, 0];
  const origin = vertices[face.loop[0] as number] as Vec3;
  face.loop.forEach((v, i) => {
    const p = sub3(vertices[v] as Vec3, origin);
    const q = sub3(vertices[at(face.loop, i + 1)] as Vec3, origin);
    sum = add3(sum, cross3(p, q));
  });
  return unit3(sum);
}

/** Angle from the first face's normal to the second's about the edge (direction of the first face's loop); positive: outside angle. */
export const turnAlong = (n1: Vec3, n2: Vec3, along: Vec3): number =>
  Math.atan2(dot3(cross3(n1, n2), along), dot3(n1, n2));

/**
 * What an edge is, from how its faces leave it. A face leaves an edge of its loop along its normal crossed with the edge:
 * upward (a slope from its eave), downward (a slope from its ridge) or level (a flat top).
 */
function edgeRole(faces: readonly Face[], normals: readonly Vec3[], along: Vec3, sides: readonly number[]): EdgeRole {
  const isLevel = Math.abs(along[2]) <= NOISE_RAD;
  const [first, second] = sides as readonly [number, number?];
  const climb = (f: number, direction: Vec3): number => cross3(normals[f] as Vec3, direction)[2];
  const firstClimbs = climb(first, along);
  const isWall = (f: number): boolean => faces[f]?.part !== 'slope';
  if (second === undefined) {
    if (!isLevel) return 'verge';
    if (firstClimbs < -NOISE_RAD) return 'rim';
    return isWall(first) ? 'foot' : 'eave';
  }
  const turn = turnAlong(normals[first] as Vec3, normals[second] as Vec3, along);
  // The second face runs along the edge the other way.
  const secondClimbs = climb(second, scale3(along, -1));
  if (isWall(first) !== isWall(second)) {
    if (!isLevel) return 'verge';
    const [slopeClimbs, wallClimbs] = isWall(first) ? [secondClimbs, firstClimbs] : [firstClimbs, secondClimbs];
    return slopeClimbs >= -NOISE_RAD && wallClimbs < -NOISE_RAD ? 'eave' : 'break';
  }
  if (!isLevel) return turn > 0 ? 'hip' : 'valley';
  if (firstClimbs < -NOISE_RAD && secondClimbs < -NOISE_RAD) return 'ridge';
  return firstClimbs > NOISE_RAD && secondClimbs > NOISE_RAD ? 'valley' : 'break';
}

import { add3, distance3, scale3, sub3, unit3, type Vec3 } from '../geometry/vector.ts';
import { standsOn, turnAlong } from '../solid/build-solid.ts';
import { normalAt } from '../solid/face-frame.ts';
import type { Edge, EdgeRole, Face, Solid } from '../solid/solid.ts';
import { SNAP_MM } from '../tolerance.ts';

/** A solid that faces are added to; what it had keeps its place. */
export interface GrowingSolid {
  readonly vertices: Vec3[];
  readonly faces: Face[];
  readonly edges: Edge[];
}

export const growing = ({ vertices, faces, edges }: Solid): GrowingSolid => ({
  vertices: [...vertices],
  faces: [...faces],
  edges: [...edges],
});

/** The index of a point among those added after the first `from` vertices; it is added where it is none of them. */
export function addVertex({ vertices }: GrowingSolid, from: number, point: Vec3): number {
  const known = vertices.findIndex((v, i) => i >= from && distance3(v, point) <= SNAP_MM);
  return known >= 0 ? known : vertices.push(point) - 1;
}

/** Adds an edge by its path, in the direction of the loop of its first face. */
export function addEdge(solid: GrowingSolid, path: readonly number[], faces: readonly number[], role: EdgeRole): void {
  const { vertices, edges } = solid;
  const name = [role, ...faces.map((face) => solid.faces[face]?.id)].join('-');
  const count = edges.filter(({ id }) => id === name || id.startsWith(`${name}-`)).length;
  const points = path.map((v) => vertices[v] as Vec3);
  edges.push({
    id: count === 0 ? name : `${name}-${count + 1}`,
    ends: [path[0] as number, path.at(-1) as number],
    ...(path.length > 2 ? { via: path.slice(1, -1) } : {}),
    faces,
    role,
    length: points.slice(1).reduce((sum, p, i) => sum + distance3(points[i] as Vec3, p), 0),
    dihedral: faces.length === 2 ? dihedralAt(solid, points, faces as readonly [number, number], role) : null,
  });
}

function dihedralAt(
  { vertices, faces }: GrowingSolid,
  points: readonly Vec3[],
  [first, second]: readonly [number, number],
  role: EdgeRole,
): number {
  const half = Math.floor((points.length - 1) / 2);
  const [a, b] = [points[half], points[half + 1]] as [Vec3, Vec3];
  const along = unit3(sub3(b, a));
  const middle = scale3(add3(a, b), 0.5);
  const [n1, n2] = [first, second].map((f) => normalAt(vertices, faces[f] as Face, middle)) as [Vec3, Vec3];
  const turn = turnAlong(n1, n2, along);
  // At the foot of a wall that stands on a face: to the face behind the wall.
  return Math.PI - (role === 'abutment' && standsOn(n1, n2, along) ? turn + Math.PI : turn);
}

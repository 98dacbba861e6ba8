import { BufferAttribute, BufferGeometry, DynamicDrawUsage, ShapeUtils, Vector2 } from 'three';
import { bentAt, type PartPose } from '../../core/fold/pose.ts';
import { compose } from '../../core/geometry/motion.ts';
import type { Vec2, Vec3 } from '../../core/geometry/vector.ts';
import { cross3, left2, scale2, sub2, sub3, unit2, unit3 } from '../../core/geometry/vector.ts';

/**
 * Flat figures gathered into one geometry. Each vertex belongs to an owner (a panel or flap, counted through the net)
 * whose motion carries it from the net's plane into space. Frame: the net, mm, z along the printed side's normal.
 */
export interface FlatPart {
  readonly positions: number[];
  readonly normals: number[];
  readonly uvs: number[];
  readonly owners: number[];
  readonly indices: number[];
}

export const emptyPart = (): FlatPart => ({ positions: [], normals: [], uvs: [], owners: [], indices: [] });

export interface Placed {
  readonly owner: number;
  readonly z: number;
  /** Facing down: seen from the inside of the roof. */
  readonly under?: boolean;
}

const pushVertex = (
  part: FlatPart,
  [x, y]: Vec2,
  z: number,
  normal: readonly number[],
  uv: Vec2,
  owner: number,
): void => {
  part.positions.push(x, y, z);
  part.normals.push(normal[0] ?? 0, normal[1] ?? 0, normal[2] ?? 0);
  part.uvs.push(uv[0], uv[1]);
  part.owners.push(owner);
};

/** A filled ring (any simple ring). `mapping` gives the texture place of a point. */
export const pushPolygon = (
  part: FlatPart,
  ring: readonly Vec2[],
  { owner, z, under = false }: Placed,
  mapping: (p: Vec2) => Vec2 = (p) => p,
): void => {
  const first = part.owners.length;
  for (const point of ring) pushVertex(part, point, z, [0, 0, under ? -1 : 1], mapping(point), owner);
  const triangles = ShapeUtils.triangulateShape(
    ring.map(([x, y]) => new Vector2(x, y)),
    [],
  );
  for (const [a = 0, b = 0, c = 0] of triangles) {
    const [p, q, r] = [ring[a], ring[b], ring[c]] as [Vec2, Vec2, Vec2];
    const isLeft = (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]) > 0;
    if (isLeft !== under) part.indices.push(first + a, first + b, first + c);
    else part.indices.push(first + a, first + c, first + b);
  }
};

/** A four-cornered figure with its texture corners in the same order (counter-clockwise from lower left). */
export const pushQuad = (
  part: FlatPart,
  corners: readonly [Vec2, Vec2, Vec2, Vec2],
  { owner, z, under = false }: Placed,
  [left, bottom, right, top]: readonly [number, number, number, number] = [0, 0, 1, 1],
): void => {
  const first = part.owners.length;
  const places: readonly Vec2[] = [
    [left, bottom],
    [right, bottom],
    [right, top],
    [left, top],
  ];
  corners.forEach((corner, i) => {
    pushVertex(part, corner, z, [0, 0, under ? -1 : 1], places[i] ?? [0, 0], owner);
  });
  const order = under ? [0, 2, 1, 0, 3, 2] : [0, 1, 2, 0, 2, 3];
  for (const i of order) part.indices.push(first + i);
};

/** A line of true width; `side` shifts it: 0 centred, 1 wholly to the left of a to b, -1 to the right. */
export const pushRibbon = (part: FlatPart, a: Vec2, b: Vec2, width: number, placed: Placed, side = 0): void => {
  if (a[0] === b[0] && a[1] === b[1]) return;
  const across = scale2(left2(unit2(sub2(b, a))), width / 2);
  const shift = scale2(across, side);
  const corner = (p: Vec2, s: number): Vec2 => [p[0] + across[0] * s + shift[0], p[1] + across[1] * s + shift[1]];
  pushQuad(part, [corner(a, -1), corner(b, -1), corner(b, 1), corner(a, 1)], placed);
};

/** The cut side of a sheet of paper along a to b (ring counter-clockwise: outside is to the right). */
export const pushRim = (part: FlatPart, a: Vec2, b: Vec2, low: number, high: number, owner: number): void => {
  if (a[0] === b[0] && a[1] === b[1]) return;
  const out = scale2(left2(unit2(sub2(b, a))), -1);
  const first = part.owners.length;
  for (const [p, z] of [
    [a, low],
    [b, low],
    [b, high],
    [a, high],
  ] as const) {
    pushVertex(part, p, z, [out[0], out[1], 0], [0, 0], owner);
  }
  for (const i of [0, 1, 2, 0, 2, 3]) part.indices.push(first + i);
};

/** A flat triangle anywhere in the net's frame, counter-clockwise as it is seen. */
export const pushFacet = (part: FlatPart, corners: readonly [Vec3, Vec3, Vec3], owner: number): void => {
  const [a, b, c] = corners;
  const normal = unit3(cross3(sub3(b, a), sub3(c, a)));
  const first = part.owners.length;
  for (const [x, y, z] of corners) pushVertex(part, [x, y], z, normal, [0, 0], owner);
  part.indices.push(first, first + 1, first + 2);
};

/** A geometry to be posed again and again; the part itself stays the unposed source. */
export const partGeometry = (part: FlatPart): BufferGeometry => {
  const geometry = new BufferGeometry();
  const moving = (numbers: number[]): BufferAttribute => {
    const attribute = new BufferAttribute(new Float32Array(numbers), 3);
    attribute.setUsage(DynamicDrawUsage);
    return attribute;
  };
  geometry.setAttribute('position', moving(part.positions));
  geometry.setAttribute('normal', moving(part.normals));
  geometry.setAttribute('uv', new BufferAttribute(new Float32Array(part.uvs), 2));
  geometry.setIndex(part.indices);
  return geometry;
};

/** Carries a part's vertices into space. What is rolled is bent vertex by vertex. `lifts`: shift of each owner along its own normal, mm. */
export const posePart = (
  part: FlatPart,
  geometry: BufferGeometry,
  poses: readonly PartPose[],
  lifts: ArrayLike<number>,
): void => {
  const positions = geometry.getAttribute('position').array as Float32Array;
  const normals = geometry.getAttribute('normal').array as Float32Array;
  const { positions: from, normals: facing, owners } = part;
  for (let i = 0, k = 0; i < owners.length; i += 1, k += 3) {
    const owner = owners[i] as number;
    const pose = poses[owner];
    if (pose === undefined) continue;
    const { bend } = pose;
    const flat: Vec2 = [from[k] as number, from[k + 1] as number];
    const motion = bend ? compose(pose.motion, bentAt(bend, flat, bend.share)) : pose.motion;
    const [row0, row1, row2] = motion.rotation;
    const [x, y] = flat;
    const z = (from[k + 2] as number) + (lifts[owner] as number);
    positions[k] = row0[0] * x + row0[1] * y + row0[2] * z + motion.move[0];
    positions[k + 1] = row1[0] * x + row1[1] * y + row1[2] * z + motion.move[1];
    positions[k + 2] = row2[0] * x + row2[1] * y + row2[2] * z + motion.move[2];
    const nx = facing[k] as number;
    const ny = facing[k + 1] as number;
    const nz = facing[k + 2] as number;
    normals[k] = row0[0] * nx + row0[1] * ny + row0[2] * nz;
    normals[k + 1] = row1[0] * nx + row1[1] * ny + row1[2] * nz;
    normals[k + 2] = row2[0] * nx + row2[1] * ny + row2[2] * nz;
  }
  geometry.getAttribute('position').needsUpdate = true;
  geometry.getAttribute('normal').needsUpdate = true;
  geometry.computeBoundingSphere();
};

/** A part that never moves: on the table, or wherever its coordinates put it. */
export const stillGeometry = (part: FlatPart): BufferGeometry => {
  const geometry = partGeometry(part);
  geometry.computeBoundingSphere();
  return geometry;
};

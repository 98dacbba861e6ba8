import { at, isInside, ringArea, ringDistance } from '../geometry/polygon.ts';
import { cross2, dot3, sub2, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { faceFrame, flattenFace, pointInFace } from '../solid/face-frame.ts';
import type { Face, Solid } from '../solid/solid.ts';
import { NOISE_MM, NOISE_MM2, SNAP_MM } from '../tolerance.ts';

/** Corners of a face up to which its edges are compared each with each: the others only sample a curve. */
const MOST_CORNERS = 80;

/** The first flat face of a moved solid that is turned over or runs across itself, seen in the plane it had; null: all are sound. */
export function faceTrouble(first: Solid, { vertices, faces }: Pick<Solid, 'vertices' | 'faces'>): number | null {
  for (const [f, face] of faces.entries()) {
    const flat = seenFrom(first, f, face, vertices);
    if (!(ringArea(flat) > NOISE_MM2)) return f;
    if (!face.roll && flat.length <= MOST_CORNERS && crossesItself(flat)) return f;
  }
  return null;
}

/**
 * The first wall whose edge no longer lies under (or on) the panel that it met, as where the valley beside it has moved away; null
 * where all do. A rolled panel is looked at by its flat shape.
 */
export function abutmentTrouble({ vertices, faces, edges }: Solid): number | null {
  const off = edges.find(({ role, ends, faces: [, host] }) => {
    if (role !== 'abutment' || host === undefined) return false;
    const ring = flattenFace({ vertices, faces }, host);
    return ends.some((v) => {
      const p = pointInFace({ vertices, faces }, host, vertices[v] as Vec3);
      return !isInside(p, ring) && ringDistance([p], ring) > SNAP_MM;
    });
  });
  return off?.faces[0] ?? null;
}

/**
 * The first wall that has come to share an edge with a panel over another wall in its plane, as where the valley at its foot has
 * risen and the wall beyond runs into its panel; null where none has.
 */
export function wallTrouble(first: Solid, { faces, edges }: Solid): number | null {
  const pairOf = ([a = -1, b = -1]: readonly number[]): string => `${Math.min(a, b)}-${Math.max(a, b)}`;
  const met = new Set(first.edges.map((edge) => pairOf(edge.faces)));
  const isWall = (f: number): boolean => faces[f]?.part === 'wall';
  const wallsUnder = (panel: number): readonly number[] =>
    first.edges.flatMap((edge) => (edge.faces.includes(panel) ? edge.faces.filter(isWall) : []));
  for (const { faces: sides } of edges) {
    const wall = sides.find(isWall);
    const panel = sides.find((f) => !isWall(f));
    if (wall === undefined || panel === undefined || met.has(pairOf(sides))) continue;
    const { normal, origin } = faceFrame(first, wall);
    const isInPlane = (f: number): boolean =>
      (first.faces[f] as Face).loop.every(
        (v) => Math.abs(dot3(normal, sub3(first.vertices[v] as Vec3, origin))) <= SNAP_MM,
      );
    if (wallsUnder(panel).some((f) => f !== wall && isInPlane(f))) return wall;
  }
  return null;
}

function seenFrom(first: Solid, f: number, { loop, roll }: Face, vertices: readonly Vec3[]): readonly Vec2[] {
  if (roll) return roll.flat;
  const { x, y, origin } = faceFrame(first, f);
  return loop.map((v) => {
    const away = sub3(vertices[v] as Vec3, origin);
    return [dot3(away, x), dot3(away, y)];
  });
}

function crossesItself(ring: readonly Vec2[]): boolean {
  const side = (a: Vec2, b: Vec2, p: Vec2): number =>
    cross2(sub2(b, a), sub2(p, a)) / Math.hypot(b[0] - a[0], b[1] - a[1]);
  return ring.some((a, i) => {
    const b = at(ring, i + 1);
    return ring.some((c, j) => {
      if (j < i + 2 || (i === 0 && j === ring.length - 1)) return false;
      const d = at(ring, j + 1);
      const isApart = (p: number, q: number): boolean =>
        (p > NOISE_MM && q < -NOISE_MM) || (p < -NOISE_MM && q > NOISE_MM);
      return isApart(side(a, b, c), side(a, b, d)) && isApart(side(c, d, a), side(c, d, b));
    });
  });
}

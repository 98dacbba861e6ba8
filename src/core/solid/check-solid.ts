import { move3 } from '../geometry/motion.ts';
import { at, isInside } from '../geometry/polygon.ts';
import { cross3, distance2, distance3, dot3, length3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import { isPositive, isSameLength, NOISE_MM, ROLL_MM, SNAP_MM } from '../tolerance.ts';
import { faceFrame, faceNormal, frameMotion, normalAt, offRoll, pointInFace } from './face-frame.ts';
import { bendPoint, type Roll } from './roll.ts';
import { boundsFace, edgePath, type Face, type Solid } from './solid.ts';

/**
 * What a solid must be before anything is unfolded from it: faces flat and facing out, every edge known and of its
 * true length, no face left hanging, the lowest eave at z = 0 (a fascia hangs below it; of a layer's surface the lowest corner may be
 * a verge's or a deck's that has moved). Returns no issue for every solid that a kind builds.
 */
export function checkSolid(solid: Solid, { isLayer = false } = {}): readonly Issue[] {
  const issues: Issue[] = [];
  const found = (code: string, message: string, numbers: Record<string, number>): void => {
    issues.push({ level: 'error', code, path: '', numbers, message });
  };

  const roofs = slopesByRoof(solid);
  solid.vertices.forEach((v, i) => {
    if (!v.every(Number.isFinite)) found('vertex-not-finite', 'A corner has no place.', { vertexCount: i });
  });
  solid.faces.forEach((face, f) => {
    const normal = faceNormal(solid.vertices, face);
    const origin = solid.vertices[face.loop[0] as number] as Vec3;
    const off = face.roll
      ? Math.max(offRoll(solid, f), offRulings(solid.vertices, face, face.roll))
      : Math.max(...face.loop.map((v) => Math.abs(dot3(normal, sub3(solid.vertices[v] as Vec3, origin)))));
    if (!(off <= NOISE_MM))
      found('face-not-flat', `The panel ${face.title} is neither flat nor rolled from flat.`, { off });
    const deviation = face.roll?.deviation ?? 0;
    if (!(deviation <= ROLL_MM))
      found('face-coarse', `The curves of ${face.title} are sampled too coarsely.`, { deviation });
    if (face.part === 'slope' && !(solid.overhangs ? isOutside(solid, f, roofs) : isPositive(normal[2]))) {
      found('face-inside-out', `The panel ${face.title} does not face out.`, { upward: normal[2] });
    }
    face.loop.forEach((start, i) => {
      const end = at(face.loop, i + 1);
      const runs = solid.edges.filter((edge) => boundsFace(edge, f) && runsBetween(edgePath(edge), start, end));
      if (runs.length !== 1)
        found('edge-missing', `An edge of the panel ${face.title} is not listed once.`, { runsCount: runs.length });
    });
  });
  for (const [what, parts] of [
    ['panels', solid.faces],
    ['edges', solid.edges],
  ] as const) {
    const twice = parts.length - new Set(parts.map(({ id }) => id)).size;
    if (twice > 0) found('id-twice', `Two ${what} have one id.`, { twiceCount: twice });
  }
  const standing = solid.faces.filter((face) => face.part !== 'fascia');
  const lowest = Math.min(...standing.flatMap(({ loop }) => loop.map((v) => solid.vertices[v]?.[2] ?? Number.NaN)));
  if (!isLayer && !isSameLength(lowest, 0)) found('eave-off-zero', 'The lowest eave is not at level 0.', { lowest });
  for (const edge of solid.edges) {
    const [a, b] = edge.ends.map((v) => solid.vertices[v] as Vec3) as [Vec3, Vec3];
    const off = Math.abs(lengthOf(solid, edge) - edge.length);
    if (!(off <= NOISE_MM)) found('edge-length', `The length of the edge ${edge.id} is wrong.`, { off });
    if (edge.faces.length === 2 && edge.faces[0] === edge.faces[1])
      found('edge-within', `The edge ${edge.id} has one panel on both sides.`, {});
    if (!isPositive(edge.length)) found('edge-empty', `The edge ${edge.id} has no length.`, { length: edge.length });
    if ((edge.faces.length === 2) !== (edge.dihedral !== null)) {
      found('edge-dihedral', `The edge ${edge.id} has an angle without two panels, or two panels without one.`, {});
    }
    if (edge.role === 'eave' && !isSameLength(a[2], b[2])) {
      found('eave-not-level', `The eave ${edge.id} is not level.`, { off: a[2] - b[2] });
    }
    const runs = ({ loop }: Face): boolean =>
      edgePath(edge).every(
        (v, i, path) => i === 0 || runsBetween([...loop, ...loop.slice(0, 1)], path[i - 1] as number, v),
      );
    if (!edge.faces.every((f) => !boundsFace(edge, f) || runs(solid.faces[f] as Face))) {
      found('edge-beside', `The edge ${edge.id} does not bound its panels.`, {});
    }
    if (edge.role === 'abutment') {
      const [, slope] = edge.faces as readonly [number, number];
      const away = Math.max(
        ...edgePath(edge).map((v) =>
          Math.abs(distanceToFace(solid, slope, solid.vertices[v] as Vec3) - (edge.inset ?? 0)),
        ),
      );
      if (!(away <= NOISE_MM))
        found('abutment-off', `The wall edge ${edge.id} does not lie on its slope.`, { off: away });
    }
  }
  return issues;
}

const runsBetween = (path: readonly number[], start: number, end: number): boolean =>
  path.some((v, i) => (v === start && path[i + 1] === end) || (v === end && path[i + 1] === start));

/** How much longer or shorter a ruling is flat than on the surface, mm. */
const offRulings = (vertices: readonly Vec3[], { loop }: Face, { rulings, flat }: Roll): number =>
  Math.max(
    ...rulings.map(([high, low]) => {
      const [a, b] = [vertices[loop[high] as number] as Vec3, vertices[loop[low] as number] as Vec3];
      return Math.abs(distance3(a, b) - distance2(at(flat, high), at(flat, low)));
    }),
  );

/** Length of an edge, mm; of a curve as the sum of arcs through its samples, by the circle through three of them in turn. */
function lengthOf({ vertices }: Solid, edge: Solid['edges'][number]): number {
  const points = edgePath(edge).map((v) => vertices[v] as Vec3);
  const [a, b, c] = points as [Vec3, Vec3, Vec3?];
  if (!c) return distance3(a, b);
  const [ab, bc, ca] = [distance3(a, b), distance3(b, c), distance3(c, a)];
  const radius = (ab * bc * ca) / (2 * length3(cross3(sub3(b, a), sub3(c, a))));
  return points
    .slice(1)
    .reduce((sum, p, i) => sum + 2 * radius * Math.asin(distance3(points[i] as Vec3, p) / (2 * radius)), 0);
}

/** How far a point is from a face's plane or rolled surface, mm. */
export function distanceToFace(solid: Solid, face: number, point: Vec3): number {
  const frame = faceFrame(solid, face);
  const roll = solid.faces[face]?.roll;
  if (!roll) return Math.abs(dot3(frame.normal, sub3(point, frame.origin)));
  // The plane that touches a cone or a cylinder along the ruling under a point is as far from it as the surface.
  const on = move3(frameMotion(frame), bendPoint(roll.surface, pointInFace(solid, face, point), 1));
  return Math.abs(dot3(normalAt(solid.vertices, solid.faces[face] as Face, on), sub3(point, on)));
}

/** For each face which roof it belongs to: slopes that meet along an edge belong together, those of a roof on another do not. */
function slopesByRoof({ faces, edges }: Solid): readonly number[] {
  const roofs = faces.map((_, f) => f);
  const isSlope = (f: number): boolean => faces[f]?.part === 'slope';
  for (const { faces: sides, role } of edges) {
    const [a, b] = sides as readonly [number, number?];
    if (b === undefined || role === 'abutment' || !isSlope(a) || !isSlope(b)) continue;
    const [kept, merged] = [roofs[a], roofs[b]];
    roofs.forEach((roof, f) => {
      if (roof === merged) roofs[f] = kept as number;
    });
  }
  return roofs;
}

/**
 * Whether the space in front of a flat slope is outside: straight up from there the roof is passed an even number of times. The
 * point lies off the middle of the slope, so that it is under no fold of a panel above that is like it.
 */
function isOutside({ vertices, faces }: Solid, face: number, roofs: readonly number[]): boolean {
  const own = faces[face] as Face;
  const normal = faceNormal(vertices, own);
  const shares = own.loop.map((_, i) => 1 + i / 7);
  const whole = shares.reduce((sum, share) => sum + share);
  const [x, y, z] = ([0, 1, 2] as const).map((k) =>
    own.loop.reduce(
      (sum, v, i) => sum + ((vertices[v]?.[k] ?? 0) * (shares[i] as number)) / whole,
      SNAP_MM * normal[k],
    ),
  ) as [number, number, number];
  const passed = faces.filter((other, f) => {
    const ring = other.loop.map((v) => vertices[v] as Vec3);
    if (
      other.part !== 'slope' ||
      roofs[f] !== roofs[face] ||
      !isInside(
        [x, y],
        ring.map(([u, v]): Vec2 => [u, v]),
      )
    )
      return false;
    const n = faceNormal(vertices, other);
    const [o] = ring as [Vec3];
    return o[2] - (n[0] * (x - o[0]) + n[1] * (y - o[1])) / n[2] > z;
  });
  return passed.length % 2 === 0;
}

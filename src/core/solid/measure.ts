import { at } from '../geometry/polygon.ts';
import { stepKeys } from '../geometry/step-key.ts';
import { add3, scale3, sub3, type Vec3 } from '../geometry/vector.ts';
import { isPositive } from '../tolerance.ts';
import { standsOn } from './build-solid.ts';
import { faceFrame, flattenFace, normalAt } from './face-frame.ts';
import { boundsFace, type Edge, edgePath, type Face, type Solid } from './solid.ts';

export interface FaceMeasures {
  /** Angle of the plane to the horizontal, radians. */
  readonly pitch: number;
  /** From the lowest level to the highest along the fall line, mm. */
  readonly slant: number;
  /** mm² */
  readonly area: number;
  /** At each corner of the loop, radians; over pi at an inside corner. */
  readonly angles: readonly number[];
  /** Of each edge of the loop from its corner to the next, mm. */
  readonly lengths: readonly number[];
}

export interface SolidMeasures {
  /** Eave plane to the highest point, mm. */
  readonly rise: number;
  /** Of all faces, mm². */
  readonly area: number;
  readonly faces: readonly FaceMeasures[];
}

export function measureSolid(solid: Solid): SolidMeasures {
  const faces = solid.faces.map((face, f): FaceMeasures => {
    const { normal } = faceFrame(solid, f);
    const flat = flattenFace(solid, f);
    const heights = flat.map((p) => p[1]);
    const sides = flat.map((p, i) => {
      const q = at(flat, i + 1);
      return [q[0] - p[0], q[1] - p[1]] as const;
    });
    const area3 = face.loop.reduce(
      (sum, _, i) => sum + (at(flat, i)[0] * at(flat, i + 1)[1] - at(flat, i)[1] * at(flat, i + 1)[0]) / 2,
      0,
    );
    return {
      pitch: Math.atan2(Math.hypot(normal[0], normal[1]), normal[2]),
      slant: Math.max(...heights) - Math.min(...heights),
      area: area3,
      angles: sides.map((out, i) => {
        const into = at(sides, i - 1);
        const turn = Math.atan2(into[0] * out[1] - into[1] * out[0], into[0] * out[0] + into[1] * out[1]);
        return Math.PI - turn;
      }),
      lengths: sides.map((side) => Math.hypot(...side)),
    };
  });
  return {
    rise: Math.max(...solid.vertices.map((v) => v[2])),
    area: faces.reduce((sum, face) => sum + face.area, 0),
    faces,
  };
}

/**
 * The right triangle in the front panel: of the slopes that rise from the eave plane those that go up highest, of them the one
 * that faces most to the south, the first of equals. Pitch in radians, lengths in mm; the rise is the panel's own, that of the
 * roof where it reaches the top.
 */
export function frontMeasures(solid: Solid): {
  readonly face: number;
  readonly rise: number;
  readonly pitch: number;
  readonly slant: number;
  readonly run: number;
} {
  const measures = measureSolid(solid);
  const levelsOf = ({ loop }: Face): number[] => loop.map((v) => (solid.vertices[v] as Vec3)[2]);
  const rising = solid.faces.flatMap((face, f) => {
    const levels = levelsOf(face);
    return face.part === 'slope' && !isPositive(Math.min(...levels)) ? [{ face: f, top: Math.max(...levels) }] : [];
  });
  const top = Math.max(...rising.map((candidate) => candidate.top));
  let face = 0;
  let most = Number.NEGATIVE_INFINITY;
  for (const candidate of rising) {
    if (isPositive(top - candidate.top)) continue;
    const { normal } = faceFrame(solid, candidate.face);
    // A hundredth of a degree of turn must not decide between a slope facing east and one facing west.
    const southward = Number((-normal[1] / Math.hypot(normal[0], normal[1])).toFixed(6));
    if (southward > most) [face, most] = [candidate.face, southward];
  }
  const { pitch, slant } = measures.faces[face] as FaceMeasures;
  const roll = solid.faces[face]?.roll;
  if (roll?.surface.form === 'cylinder' && roll.surface.rulings === 'x') {
    // Over a vault the triangle is that of the straight line from the eave to the crown.
    const half = slant / 2 / roll.surface.radius;
    const run = roll.surface.radius * Math.sin(half);
    const rise = roll.surface.radius * (1 - Math.cos(half));
    return { face, rise, run, pitch: Math.atan2(rise, run), slant: Math.hypot(rise, run) };
  }
  return { face, rise: slant * Math.sin(pitch), pitch, slant, run: slant * Math.cos(pitch) };
}

/** Whether an edge is the foot of a wall that stands on the outside of a face, not the head of one that ends under it. */
export function isFootOnFace({ vertices, faces, edges }: Solid, edge: number): boolean {
  const asked = edges[edge] as Edge;
  const { faces: sides, role } = asked;
  if (role !== 'abutment') return false;
  const path = edgePath(asked);
  const half = Math.floor((path.length - 1) / 2);
  const [a, b] = path.slice(half, half + 2).map((v) => vertices[v] as Vec3) as [Vec3, Vec3];
  const [wall, host] = sides.map((f) => normalAt(vertices, faces[f] as Face, scale3(add3(a, b), 0.5))) as [Vec3, Vec3];
  return standsOn(wall, host, sub3(b, a));
}

/**
 * For each face the edges that its loop runs along, in its order: entry i joins corner i to the next, so that a curved edge is
 * entered once for each of its parts. An abutment on the inside of a slope is not one of the slope's.
 */
export function edgesOfFaces(solid: Solid): readonly (readonly number[])[] {
  const known = edgesFound.get(solid) ?? findEdges(solid);
  edgesFound.set(solid, known);
  return known;
}

/** They are asked for again and again; solids never change. */
const edgesFound = new WeakMap<Solid, readonly (readonly number[])[]>();

function findEdges(solid: Solid): readonly (readonly number[])[] {
  const edgeAt = edgeFinder(solid);
  return solid.faces.map(({ loop }, f) => {
    const isOwn = (edge: Edge): boolean => boundsFace(edge, f);
    return loop.map((start, i) => edgeAt(start, at(loop, i + 1), isOwn) ?? -1);
  });
}

/** Finds, of the edges that may be meant, the first that runs from one vertex to a neighbour or back. */
export function edgeFinder({
  vertices,
  edges,
}: Solid): (v: number, w: number, isMeant: (edge: Edge, index: number) => boolean) => number | undefined {
  const keyOf = stepKeys(vertices.length);
  const byStep = new Map<number, number>();
  /** Where an abutment runs along another edge. */
  const besides = new Map<number, number[]>();
  edges.forEach((edge, e) => {
    const path = edgePath(edge);
    for (let i = 1; i < path.length; i++) {
      const [v, w] = [path[i - 1] as number, path[i] as number];
      const key = keyOf(Math.min(v, w), Math.max(v, w));
      if (!byStep.has(key)) byStep.set(key, e);
      else if (!besides.get(key)?.push(e)) besides.set(key, [e]);
    }
  });
  return (v, w, isMeant) => {
    const key = keyOf(Math.min(v, w), Math.max(v, w));
    const first = byStep.get(key);
    if (first === undefined || isMeant(edges[first] as Edge, first)) return first;
    return besides.get(key)?.find((e) => isMeant(edges[e] as Edge, e));
  };
}

import { at } from '../geometry/polygon.ts';
import { stepKeys } from '../geometry/step-key.ts';
import { add3, cross3, dot3, length3, scale3, sub3, unit3, type Vec3 } from '../geometry/vector.ts';
import { standsOn } from '../solid/build-solid.ts';
import { normalAt } from '../solid/face-frame.ts';
import { edgesOfFaces } from '../solid/measure.ts';
import { type Edge, edgePath, type Face, type Solid } from '../solid/solid.ts';
import { isSameLength, NOISE_MM, NOISE_RAD } from '../tolerance.ts';
import type { MovingPlane } from './moving-plane.ts';

/** A face where it takes part in a corner, or what lies beyond an edge of one face. */
export interface Sector {
  /** Index of the face; null beyond an edge. */
  readonly face: number | null;
  /** Index of the edge; null for a face. */
  readonly edge: number | null;
  /** Null where the paper is rolled and the plane differs from point to point. */
  readonly plane: MovingPlane | null;
  /** Face whose rolled surface is met, from its inside (-1) or its outside (1), and how fast what touches it there moves. */
  readonly rolled?: { readonly face: number; readonly side: 1 | -1; readonly speed: number };
}

/** The planes that meet in a corner; null where paper is rolled there. */
export const planesOf = (ring: readonly Sector[]): readonly MovingPlane[] | null =>
  ring.some(({ plane }) => plane === null) ? null : ring.map(({ plane }) => plane as MovingPlane);

/** Where faces meet. Going round counter-clockwise, seen from outside. */
export interface Corner {
  readonly ring: readonly Sector[];
  /** Vertices of the first solid that it comes from. */
  readonly origins: readonly number[];
  readonly place: Vec3;
}

/** A solid while it is offset: corners by key, faces as loops of such keys. */
export interface OffsetMesh {
  readonly corners: ReadonlyMap<number, Corner>;
  readonly loops: readonly (readonly number[])[];
}

/** The solid as faces and the planes beyond its free edges. */
export function meshOf(solid: Solid): OffsetMesh {
  const mesh = meshes.get(solid) ?? makeMesh(solid);
  meshes.set(solid, mesh);
  return mesh;
}

/** Every layer of a roof asks anew; solids never change. */
const meshes = new WeakMap<Solid, OffsetMesh>();

function makeMesh(solid: Solid): OffsetMesh {
  const { vertices, faces } = solid;
  const sectors = faces.map((face, f): Sector => sectorOfFace(solid, face, f));
  const beyond = new Map<number, Sector>();
  const sectorBeyond = (e: number): Sector => {
    const known = beyond.get(e) ?? sectorOfEdge(solid, e);
    beyond.set(e, known);
    return known;
  };
  const { steps, before, across, leaving } = stepsOf(solid);
  const corners = new Map<number, Corner>();
  const loops = faces.map(({ loop }) => loop.map(() => -1));
  const isSeen = new Uint8Array(steps.length);
  leaving.forEach((own, v) => {
    const isFirst = (step: number): boolean => across[step] === null;
    for (const first of own.length > 1 ? [...own.filter(isFirst), ...own] : own) {
      if (isSeen[first]) continue;
      const key = corners.size;
      const ring: Sector[] = [];
      if (isFirst(first)) ring.push(sectorBeyond((steps[first] as Step).edge));
      let last = first;
      // The next face round the vertex lies across the edge by which the loop comes in.
      for (
        let next: number | null = first;
        next !== null && !isSeen[next];
        next = across[before(last)] as number | null
      ) {
        isSeen[next] = 1;
        last = next;
        const { face, position } = steps[next] as Step;
        ring.push(sectors[face] as Sector);
        (loops[face] as number[])[position] = key;
      }
      if (isFirst(first)) ring.push(sectorBeyond((steps[before(last)] as Step).edge));
      corners.set(key, { ring, origins: [v], place: vertices[v] as Vec3 });
    }
  });
  return { corners, loops };
}

/** A step along an edge, from a corner of a face's loop to the next. */
interface Step {
  readonly face: number;
  /** Of the corner in the loop. */
  readonly position: number;
  readonly edge: number;
}

/**
 * The steps round all faces, face after face. `across`: the step of another face the other way along the same edge; null where that
 * is free or ends under another face. `before`: the step before one in its loop. `leaving`: those from each vertex.
 */
function stepsOf(solid: Solid) {
  const { vertices, faces, edges } = solid;
  const edgesOf = edgesOfFaces(solid);
  const steps: Step[] = [];
  const leaving = vertices.map((): number[] => []);
  const shared = new Map<number, number>();
  const keyOf = stepKeys(vertices.length);
  faces.forEach(({ loop }, face) => {
    loop.forEach((v, position) => {
      const edge = edgesOf[face]?.[position] as number;
      if (edges[edge]?.role !== 'abutment') shared.set(keyOf(v, at(loop, position + 1)), steps.length);
      leaving[v]?.push(steps.length);
      steps.push({ face, position, edge });
    });
  });
  const across = steps.map(({ face, position, edge }): number | null => {
    const { loop } = faces[face] as Face;
    const other = shared.get(keyOf(at(loop, position + 1), loop[position] as number));
    const isOther = edges[edge]?.role !== 'abutment' && other !== undefined && steps[other]?.face !== face;
    return isOther ? other : null;
  });
  const before = (step: number): number => {
    const { face, position } = steps[step] as Step;
    return position > 0 ? step - 1 : step + (faces[face] as Face).loop.length - 1;
  };
  return { steps, before, across, leaving };
}

function sectorOfFace(solid: Solid, face: Face, f: number): Sector {
  const own = { face: f, edge: null };
  if (face.roll) return { ...own, plane: null, rolled: { face: f, side: 1, speed: 1 } };
  const speed = holdsStill(solid, f) ? 0 : 1;
  return {
    ...own,
    plane: { normal: normalAt(solid.vertices, face, solid.vertices[face.loop[0] as number] as Vec3), speed },
  };
}

/**
 * A wall that cuts a cone through its peak, as behind half a cone, stays in its plane: paper could not be rolled over the peak
 * beyond it.
 */
export function holdsStill({ faces }: Pick<Solid, 'faces'>, wall: number): boolean {
  const own = faces[wall] as Face;
  if (own.part !== 'wall') return false;
  return faces.some(({ loop, roll }) => {
    if (roll?.surface.form !== 'cone') return false;
    return roll.rulings.some(([high, low]) => [high, low].every((p) => own.loop.includes(at(loop, p))));
  });
}

/** The plane in which a face ends at a free edge, or the surface that a wall ends at. */
export function sectorOfEdge(solid: Solid, e: number): Sector {
  const { vertices, faces } = solid;
  const edge = solid.edges[e] as Edge;
  const path = edgePath(edge).map((v) => vertices[v] as Vec3);
  const [f, host] = edge.faces as readonly [number, number?];
  const face = faces[f] as Face;
  const half = Math.floor((path.length - 1) / 2);
  const [from, to] = [path[half], path[half + 1]] as [Vec3, Vec3];
  const along = unit3(sub3(to, from));
  const middle = scale3(add3(from, to), 0.5);
  const normal = normalAt(vertices, face, middle);
  const own = { face: null, edge: e };
  if (edge.role === 'abutment' && host !== undefined) {
    const met = faces[host] as Face;
    const facing = normalAt(vertices, met, middle);
    const side = standsOn(normal, facing, along) ? 1 : -1;
    if (met.roll) return { ...own, plane: null, rolled: { face: host, side, speed: side } };
    return { ...own, plane: { normal: scale3(facing, side), speed: side } };
  }
  const out = cross3(along, normal);
  const facing = (plane: Vec3): Vec3 => (dot3(plane, out) < 0 ? scale3(plane, -1) : plane);
  const isLevel = path.every((p) => isSameLength(p[2], from[2]));
  const isDeck = Math.hypot(normal[0], normal[1]) <= NOISE_RAD;
  const leansOnWall = edge.role === 'rim' && face.part === 'slope' && isOutermost(solid, edge, out);
  if (isLevel && !isDeck && !leansOnWall) return { ...own, plane: { normal: facing([0, 0, 1]), speed: 0 } };
  const upright = uprightPlane(solid, edge, path, normal);
  return { ...own, plane: { normal: facing(upright.normal), speed: upright.speed } };
}

/** The upright plane through an edge; the one square to its face where the face is upright itself. */
function uprightPlane(solid: Solid, edge: Edge, path: readonly Vec3[], normal: Vec3): MovingPlane {
  const { vertices, edges } = solid;
  const chord = sub3(path.at(-1) as Vec3, path[0] as Vec3);
  const level = Math.hypot(chord[0], chord[1]);
  const upright: Vec3 = [chord[1] / level, -chord[0] / level, 0];
  const isUpright = level <= NOISE_MM * length3(chord);
  const out = cross3(unit3(chord), normal);
  const outward = (plane: Vec3): Vec3 => (dot3(plane, out) < 0 ? scale3(plane, -1) : plane);
  if (isUpright || Math.abs(dot3(upright, normal)) > 1 - NOISE_RAD) {
    // Under a gable a fascia ends where the slope above it does.
    const beside = edges.find(
      (other) =>
        other !== edge &&
        other.faces.length === 1 &&
        other.role === 'verge' &&
        other.ends.some((v) => edge.ends.includes(v)),
    );
    const step = beside && sub3(vertices[beside.ends[1]] as Vec3, vertices[beside.ends[0]] as Vec3);
    if (isUpright && step && Math.hypot(step[0], step[1]) > NOISE_MM) {
      const plane = outward(unit3([step[1], -step[0], 0]));
      const speed = isFlush(solid, beside as Edge, vertices[beside?.ends[0] as number] as Vec3, plane) ? 1 : 0;
      if (Math.abs(dot3(plane, normal)) < 1 - NOISE_RAD) return { normal: plane, speed };
    }
    const facing = unit3(out);
    return { normal: facing, speed: isUpright && isFlush(solid, edge, path[0] as Vec3, facing) ? 1 : 0 };
  }
  // A slope that ends flush with a wall goes out with it.
  const facing = outward(upright);
  const isWall = isFlush(solid, edge, path[0] as Vec3, facing);
  return { normal: facing, speed: isWall ? 1 : eaveSpeed(solid, edge, facing) };
}

/** How fast an upright plane moves in which a slope ends in line with a free eave beside it, as where a wing ends flush with the eave that it crosses; 0 where there is none. */
function eaveSpeed({ vertices, faces, edges }: Solid, { ends }: Edge, plane: Vec3): number {
  for (const { role, ends: others, faces: own } of edges) {
    if (role !== 'eave' || own.length !== 1 || !others.some((v) => ends.includes(v))) continue;
    const [a, b] = others.map((v) => vertices[v] as Vec3) as [Vec3, Vec3];
    const face = faces[own[0] as number] as Face;
    const out = dot3(normalAt(vertices, face, a), plane);
    if (!face.roll && out > NOISE_RAD && Math.abs(dot3(sub3(b, a), plane)) <= NOISE_MM) return 1 / out;
  }
  return 0;
}

/**
 * Whether a wall lies in the plane in which an edge ends: one that it touches, or one that looks the same way, as where a row of
 * slopes ends in one plane and the body under them is shorter.
 */
const isFlush = (solid: Solid, edge: Edge, place: Vec3, plane: Vec3): boolean =>
  solid.faces.some((face, f) => {
    if (face.part !== 'wall' || face.roll || holdsStill(solid, f)) return false;
    const facing = dot3(normalAt(solid.vertices, face, place), plane);
    const isMet = facing < 0 && face.loop.some((v) => edgePath(edge).includes(v));
    return (
      (isMet ? -facing : facing) > 1 - NOISE_RAD &&
      face.loop.every((v) => Math.abs(dot3(sub3(solid.vertices[v] as Vec3, place), plane)) <= NOISE_MM)
    );
  });

/** Nothing of the roof lies straight out beyond the edge in plan, as it would across an open top. */
function isOutermost({ vertices }: Solid, edge: Edge, out: Vec3): boolean {
  const level = Math.hypot(out[0], out[1]);
  if (level <= NOISE_RAD) return false;
  const reach = ([x, y]: Vec3): number => (x * out[0] + y * out[1]) / level;
  const own = Math.max(...edge.ends.map((v) => reach(vertices[v] as Vec3)));
  return vertices.every((v) => reach(v) <= own + NOISE_MM);
}

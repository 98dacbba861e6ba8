import { at } from '../geometry/polygon.ts';
import { cross3, dot3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { isPositive } from '../tolerance.ts';
import { faceNormal } from './build-solid.ts';
import type { Face, Solid } from './solid.ts';

/** Axes in the plane of a face: x along the level direction with the outside towards the eye, y up the fall line. */
export interface FaceFrame {
  readonly origin: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  /** Outward unit normal. */
  readonly normal: Vec3;
}

/** A face's own frame; its origin is the first corner of the loop. A level face takes x to the east. */
export function faceFrame(solid: Solid, face: number): FaceFrame {
  const { loop } = solid.faces[face] as Solid['faces'][number];
  const normal = faceNormal(solid.vertices, { ...(solid.faces[face] as Solid['faces'][number]) });
  const level = Math.hypot(normal[0], normal[1]);
  const x: Vec3 = level === 0 ? [1, 0, 0] : [-normal[1] / level, normal[0] / level, 0];
  return { origin: solid.vertices[loop[0] as number] as Vec3, x, y: cross3(normal, x), normal };
}

/** A face's corners in its own frame, mm, in the order of its loop. */
export function flattenFace(solid: Solid, face: number): Vec2[] {
  const { origin, x, y } = faceFrame(solid, face);
  return (solid.faces[face]?.loop ?? []).map((v) => {
    const from = sub3(solid.vertices[v] as Vec3, origin);
    return [dot3(from, x), dot3(from, y)];
  });
}

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
  return { face, rise: slant * Math.sin(pitch), pitch, slant, run: slant * Math.cos(pitch) };
}

/**
 * For each face the edges that its loop runs along, in its order: entry i joins corner i to the next. An abutment on the
 * inside of a slope is not one of the slope's.
 */
export function edgesOfFaces(solid: Solid): readonly (readonly number[])[] {
  const byEnds = new Map<string, number[]>();
  const keyOf = (a: number, b: number): string => (a < b ? `${a}-${b}` : `${b}-${a}`);
  solid.edges.forEach(({ ends }, e) => {
    const key = keyOf(...ends);
    byEnds.set(key, [...(byEnds.get(key) ?? []), e]);
  });
  return solid.faces.map((face, f) =>
    face.loop.map((start, i) => {
      const here = byEnds.get(keyOf(start, at(face.loop, i + 1))) ?? [];
      return here.find((e) => solid.edges[e]?.faces.includes(f)) ?? -1;
    }),
  );
}

import { expect } from 'vitest';
import { at } from '../../../src/core/geometry/polygon.ts';
import { sub3, type Vec2, type Vec3 } from '../../../src/core/geometry/vector.ts';
import type { ShapeValues } from '../../../src/core/project/project.ts';
import { findKind } from '../../../src/core/roofs/catalogue.ts';
import { raiseRoof } from '../../../src/core/roofs/construct/raise-roof.ts';
import { flattenFace } from '../../../src/core/solid/face-frame.ts';
import type { Edge, Solid } from '../../../src/core/solid/solid.ts';
import { formatMark, MM_PER_INCH, type Ruler } from '../../../src/core/units/units.ts';

export const inches = (n: number): number => n * MM_PER_INCH;
export const feet = (n: number): number => inches(12 * n);
export const marked = (mm: number, ruler: Ruler): string => formatMark(mm, ruler, { unit: false });
export const pitchOf = (rise: number): number => Math.atan2(rise, 12);

export const solidOf = (kind: string, shape: ShapeValues): Solid => {
  const built = findKind(kind)?.build(shape, null);
  if (!built?.ok) throw new Error(JSON.stringify(built));
  return built.value;
};

/** Slopes over an outline; a pitch of a quarter turn is a gable. The id of a side is its number. */
export function raised(ring: readonly Vec2[], pitches: readonly number[]): Solid {
  const built = raiseRoof({
    rings: [ring],
    sides: ring.map((_, i) => ({
      id: `${i}`,
      title: `Side ${i}`,
      bands: [{ level: 0, pitch: pitches[i] ?? pitches[0] ?? 0 }],
    })),
    walls: [],
  });
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
}

/** An L, feet; corner 3 is the inside one, between side 2 (its slope faces north) and side 3 (its slope faces east). */
export const ell = (south: number, west: number): readonly Vec2[] =>
  (
    [
      [0, 0],
      [west + 28, 0],
      [west + 28, south],
      [west, south],
      [west, south + 28],
      [0, south + 28],
    ] as const
  ).map(([x, y]): Vec2 => [feet(x), feet(y)]);
export const lShape = ell(20, 16);

export const faceOf = (solid: Solid, id: string): number => solid.faces.findIndex((face) => face.id === id);
export const edgeBetween = (solid: Solid, role: Edge['role'], a: string, b: string): Edge => {
  const pair = [faceOf(solid, a), faceOf(solid, b)];
  const edge = solid.edges.find((one) => one.role === role && pair.every((f) => one.faces.includes(f)));
  if (!edge) throw new Error(`no ${role} between ${a} and ${b}`);
  return edge;
};
export const directionOf = (solid: Solid, { ends }: Edge): Vec3 => {
  const [a, b] = ends.map((v) => solid.vertices[v] as Vec3) as [Vec3, Vec3];
  return a[2] < b[2] ? sub3(b, a) : sub3(a, b);
};
/** Of a hip or valley, for a foot of run of the common rafter, inches; equal pitches. */
export const perFoot = (solid: Solid, edge: Edge, pitch: number): number =>
  (edge.length / MM_PER_INCH) * ((12 * Math.tan(pitch)) / (directionOf(solid, edge)[2] / MM_PER_INCH));

/**
 * Lengths of the rafters of a panel at a spacing: its sections up the fall line. They are counted from the end of the hip or
 * valley, where a rafter would have no length, along the eave; `count` of them, before the next line of the roof is met.
 */
export function jackLengths(solid: Solid, face: number, edge: Edge, spacing: number, count: number): number[] {
  const flat = flattenFace(solid, face);
  const ends = edge.ends.map((v) => flat[solid.faces[face]?.loop.indexOf(v) ?? -1]?.[0] ?? Number.NaN);
  // Hip jacks grow from the foot of the hip, valley jacks from the top of the valley.
  const levels = edge.ends.map((v) => solid.vertices[v]?.[2] ?? 0);
  const isFirst = edge.role === 'hip' ? (levels[0] ?? 0) < (levels[1] ?? 0) : (levels[0] ?? 0) > (levels[1] ?? 0);
  const [from = 0, to = 0] = isFirst ? ends : ends.toReversed();
  return Array.from({ length: count }, (_, i) => {
    const x = from + Math.sign(to - from) * spacing * (i + 1);
    expect(Math.abs(x - from)).toBeLessThan(Math.abs(to - from));
    const cuts = flat.flatMap((p, j) => {
      const q = at(flat, j + 1);
      return p[0] > x === q[0] > x ? [] : [p[1] + ((q[1] - p[1]) * (x - p[0])) / (q[0] - p[0])];
    });
    expect(cuts).toHaveLength(2);
    return Math.abs((cuts[0] ?? 0) - (cuts[1] ?? 0));
  });
}

import type { Vec2 } from '../../core/geometry/vector.ts';
import { distance2, lerp2 } from '../../core/geometry/vector.ts';

/** Lines of one ink are told apart by dash. Lengths of ink and gap by turns, in line widths; empty: continuous. */
export const dashPatterns = {
  cut: [],
  valley: [7, 5],
  mountain: [11, 4, 1.5, 4],
  glue: [1.5, 3.5],
  ruling: [1, 9],
} as const satisfies Record<string, readonly number[]>;

export type DashKind = keyof typeof dashPatterns;

export type Segment = readonly [Vec2, Vec2];

/**
 * The inked parts of the line from a to b. The pattern is stretched a little so that the line starts and ends with a
 * whole first dash; a line too short for that is drawn continuous. `unit`: length of one pattern unit, mm.
 */
export const dashLine = (a: Vec2, b: Vec2, kind: DashKind, unit: number): readonly Segment[] => {
  const pattern: readonly number[] = dashPatterns[kind];
  const length = distance2(a, b);
  const period = pattern.reduce((sum, part) => sum + part, 0) * unit;
  const first = (pattern[0] ?? 0) * unit;
  if (period === 0 || length < period + first) return length > 0 ? [[a, b]] : [];
  const count = Math.max(1, Math.round((length - first) / period));
  const stretch = length / (count * period + first);
  const at = (distance: number): Vec2 => lerp2(a, b, Math.min(1, distance / length));
  const dashes: Segment[] = [];
  let along = 0;
  for (let i = 0; i < count * pattern.length + 1; i += 1) {
    const next = along + (pattern[i % pattern.length] ?? 0) * unit * stretch;
    if (i % 2 === 0) dashes.push([at(along), at(next)]);
    along = next;
  }
  return dashes;
};

/** What is left of a to b when the stretch from c to d (on the same line) is taken out. */
export const takeOut = (a: Vec2, b: Vec2, spans: readonly Segment[]): readonly Segment[] => {
  const length = distance2(a, b);
  if (length === 0) return [];
  const place = (p: Vec2): number =>
    ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / (length * length);
  const cuts = spans
    .map(([c, d]) => [Math.min(place(c), place(d)), Math.max(place(c), place(d))] as const)
    .sort((p, q) => p[0] - q[0]);
  const rest: Segment[] = [];
  let from = 0;
  const shortest = 1e-3;
  for (const [start, end] of [...cuts, [1, 1] as const]) {
    if (start - from > shortest) rest.push([lerp2(a, b, from), lerp2(a, b, Math.min(1, start))]);
    from = Math.max(from, end);
  }
  return rest;
};

import { PointIndex } from '../geometry/point-index.ts';
import { at } from '../geometry/polygon.ts';
import { add2, cross2, distance2, dot2, scale2, sub2, type Vec2 } from '../geometry/vector.ts';
import type { Piece } from '../net/net.ts';
import { SNAP_MM } from '../tolerance.ts';
import type { Ruler } from '../units/units.ts';
import type { PieceClass, RuledLine } from './piece-class.ts';
import { type AxisPlace, ruleAxis } from './round-axis.ts';

/** A piece of slopes round one peak, joined side by side: every panel is a triangle with a corner at the apex. */
export interface Fan {
  readonly apex: Vec2;
  /** The corners round it, counter-clockwise: one more than there are panels. */
  readonly rim: readonly Vec2[];
}

/** From so many slopes on a compass is less work than corners one by one, and keeps them alike. */
const LEAST = 3;
/** A fan that comes nearer to a full circle than this, radians, might come round to its beginning once it is rounded. */
const LEAST_GAP = 0.1;

/** The shortest ray is at least this share of the longest, and no slope wider than this at the peak, radians: else a mark more or less on a chord swings the next slope too far. */
const LEAST_SHARE = 0.5;
const WIDEST = 2.2;

/** The fan that a piece is; null where it is none, or where a compass would not draw it well. */
export function fanOf({ panels, board, strip }: Piece): Fan | null {
  const [first] = panels;
  if (board || strip || !first || panels.length < LEAST || panels.some(({ polygon }) => polygon.length !== 3)) {
    return null;
  }
  const isAt = (p: Vec2, q: Vec2): boolean => distance2(p, q) <= SNAP_MM;
  const apex = first.polygon.find((p) => panels.every(({ polygon }) => polygon.some((q) => isAt(p, q))));
  if (!apex) return null;
  const chords = panels.map(({ polygon }): readonly [Vec2, Vec2] => {
    const i = polygon.findIndex((p) => isAt(p, apex));
    return [at(polygon, i + 1), at(polygon, i + 2)];
  });
  const start = chords.find(([p]) => !chords.some(([, q]) => isAt(p, q)));
  if (!start) return null;
  const rim: Vec2[] = [...start];
  while (rim.length <= panels.length) {
    const next = chords.find(([p]) => isAt(p, rim.at(-1) as Vec2));
    if (!next) return null;
    rim.push(next[1]);
  }
  return isSteady({ apex, rim }) ? { apex, rim } : null;
}

function isSteady({ apex, rim }: Fan): boolean {
  const angles = rim.slice(1).map((p, i) => angleAt(apex, rim[i] as Vec2, p));
  const radii = rim.map((p) => distance2(apex, p));
  return (
    sum(angles) < 2 * Math.PI - LEAST_GAP &&
    Math.max(...angles) <= WIDEST &&
    Math.min(...radii) >= LEAST_SHARE * Math.max(...radii)
  );
}

/** Angle at a centre from one point to the other, radians, counter-clockwise above 0. */
function angleAt(centre: Vec2, p: Vec2, q: Vec2): number {
  const [u, v] = [sub2(p, centre), sub2(q, centre)];
  return Math.atan2(cross2(u, v), dot2(u, v));
}

/**
 * A fan by its radii and chords, each on a mark of the ruler; its middle stays where it is. `points` are its corners in the frame
 * of the class, mm; their places in that list are those of the class.
 */
export function fanClass({ apex, rim }: Fan, points: readonly Vec2[], ruler: Ruler): PieceClass {
  const radii = ruleAxis(
    rim.map((p) => distance2(apex, p)),
    false,
    ruler,
  );
  const chords = ruleAxis(
    rim.slice(1).map((p, i) => distance2(rim[i] as Vec2, p)),
    false,
    ruler,
  );
  const { step } = radii.axis;
  const index = new PointIndex(points);
  const rank = rim.map((p) => index.find(p));
  const rimOf = new Map(rank.map((point, i) => [point, i] as const));
  const way = angleAt(apex, rim[0] as Vec2, rim[1] as Vec2) < 0 ? -1 : 1;
  const turns = rim.slice(1).map((p, i) => angleAt(apex, rim[i] as Vec2, p));
  const [x, y] = sub2(rim[0] as Vec2, apex);
  const middle = Math.atan2(y, x) + sum(turns) / 2;
  const radius = (i: number): number => radii.axis.counts[(radii.places[i] as AxisPlace).line] as number;
  const chord = (i: number): number => chords.axis.counts[(chords.places[i] as AxisPlace).line] as number;
  const angle = (i: number): number => way * apexAngle(radius(i), radius(i + 1), chord(i));
  const centre = scale2(apex, 1 / step);
  return {
    axes: [radii.axis, chords.axis],
    place: (point) => {
      const at = rimOf.get(point);
      if (at === undefined) return centre;
      const all = turns.map((_, i) => angle(i));
      const direction = middle - sum(all) / 2 + sum(all.slice(0, at));
      return add2(centre, scale2([Math.cos(direction), Math.sin(direction)], radius(at)));
    },
    between: (ends) => {
      const found = ends.flatMap((end) => rimOf.get(end) ?? []).sort((a, b) => a - b);
      const [from, to = from] = found;
      if (from === undefined || to === undefined) return [];
      const line = ({ axis, places }: typeof radii, i: number): RuledLine => ({
        axis,
        line: (places[i] as AxisPlace).line,
      });
      const rays = found.length < 2 ? [from] : range(from, to);
      return [...rays.map((i) => line(radii, i)), ...range(from, to - 1).map((i) => line(chords, i))];
    },
  };
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);
const range = (from: number, to: number): readonly number[] =>
  Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);

/** The angle between two radii that a chord closes, radians; the law of cosines. */
const apexAngle = (a: number, b: number, chord: number): number =>
  Math.acos(Math.min(1, Math.max(-1, (a * a + b * b - chord * chord) / (2 * a * b))));

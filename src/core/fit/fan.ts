import { PointIndex } from '../geometry/point-index.ts';
import { at } from '../geometry/polygon.ts';
import { add2, cross2, distance2, dot2, left2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import type { Piece } from '../net/net.ts';
import { SNAP_MM } from '../tolerance.ts';
import type { Ruler } from '../units/units.ts';
import type { PieceClass, RuledLine } from './piece-class.ts';
import { type AxisPlace, ruleAxis } from './round-axis.ts';

/** A piece of slopes round one peak, joined side by side: triangles with a corner at the apex, and what hangs on their feet. */
export interface Fan {
  readonly apex: Vec2;
  /** The corners round it, counter-clockwise: one more than there are triangles. */
  readonly rim: readonly Vec2[];
  readonly hung: readonly HungPanel[];
}

/** A panel folded on to the foot of a slope, such as a flare, or on to another panel that hangs there. */
export interface HungPanel {
  /** The line that it hangs on, from corner to corner: of the rim, and after it those of panels that hang already. */
  readonly foot: readonly [number, number];
  /** Its other corners, in their order from the foot's end to its beginning. */
  readonly corners: readonly Vec2[];
}

/** From so many slopes on a compass is less work than corners one by one, and keeps them alike. */
const LEAST = 3;
/** A fan that comes nearer to a full circle than this, radians, might come round to its beginning once it is rounded. */
const LEAST_GAP = 0.1;

/** The shortest ray is at least this share of the longest, and no slope wider than this at the peak, radians: else a mark more or less on a chord swings the next slope too far. */
const LEAST_SHARE = 0.5;
const WIDEST = 2.2;

/** The fan that a piece is; null where it is none, or where a compass would not draw it well. */
export function fanOf({ panels, board, strip, folds, rulings }: Piece): Fan | null {
  if (board || strip || rulings.length > 0 || panels.length < LEAST) return null;
  const isAt = (p: Vec2, q: Vec2): boolean => distance2(p, q) <= SNAP_MM;
  const triangles = panels.filter(({ polygon }) => polygon.length === 3);
  const [first] = triangles;
  if (!first || triangles.length < LEAST) return null;
  const apex = first.polygon.find((p) => triangles.every(({ polygon }) => polygon.some((q) => isAt(p, q))));
  if (!apex) return null;
  const chords = triangles.map(({ polygon }): readonly [Vec2, Vec2] => {
    const i = polygon.findIndex((p) => isAt(p, apex));
    return [at(polygon, i + 1), at(polygon, i + 2)];
  });
  const start = chords.find(([p]) => !chords.some(([, q]) => isAt(p, q)));
  if (!start) return null;
  const rim: Vec2[] = [...start];
  while (rim.length <= triangles.length) {
    const next = chords.find(([p]) => isAt(p, rim.at(-1) as Vec2));
    if (!next) return null;
    rim.push(next[1]);
  }
  const hung = hungOn(
    rim,
    panels.filter((panel) => !triangles.includes(panel)),
    panels,
    folds,
  );
  // Where more hangs than there are slopes the compass draws the lesser part.
  if (!hung || hung.length > triangles.length) return null;
  return isSteady({ apex, rim }) ? { apex, rim, hung } : null;
}

/** The least a measure of a fan may be, steps of the ruler, so that with a mark less at each of its ends it is still there. */
const LEAST_STEPS = 1.5;

/** Whether the marks of a ruler leave a fan its radii and chords, and what hangs on it the lines that it hangs on. `step`: mm */
export function isOnMarks(fan: Fan, step: number): boolean {
  const { apex, rim, hung } = fan;
  const points = [...rim, ...hungCorners(fan)];
  const spans = [
    ...rim.map((p) => distance2(apex, p)),
    ...rim.slice(1).map((p, i) => distance2(rim[i] as Vec2, p)),
    // Both its ends are measured by themselves.
    ...hung.map(({ foot: [a, b] }) => distance2(points[a] as Vec2, points[b] as Vec2) - (b < rim.length ? 0 : step)),
  ];
  return spans.every((span) => span >= LEAST_STEPS * step);
}

/** Panels hung one after the other, each on a line that is there by then; null where one hangs on none. */
function hungOn(
  rim: readonly Vec2[],
  rest: readonly Piece['panels'][number][],
  panels: Piece['panels'],
  folds: Piece['folds'],
): readonly HungPanel[] | null {
  const isAt = (p: Vec2, q: Vec2): boolean => distance2(p, q) <= SNAP_MM;
  const points = [...rim];
  const hung: HungPanel[] = [];
  const placed = new Set(panels.filter((panel) => !rest.includes(panel)));
  for (let left = [...rest]; left.length > 0; ) {
    const found = left.flatMap((panel) => {
      const own = panels.indexOf(panel);
      const fold = folds.find(
        ({ panels: both }) => both.includes(own) && both.some((p) => placed.has(panels[p] as typeof panel)),
      );
      const k = fold
        ? panel.polygon.findIndex(
            (c, i) => fold.ends.some((q) => isAt(q, c)) && fold.ends.some((q) => isAt(q, at(panel.polygon, i + 1))),
          )
        : -1;
      // It runs its foot the other way round.
      const foot = [k + 1, k].map((i) => points.findIndex((q) => isAt(q, at(panel.polygon, i))));
      return k < 0 || foot.includes(-1) ? [] : [{ panel, k, foot: foot as [number, number] }];
    });
    const [next] = found;
    if (!next) return null;
    const { panel, k, foot } = next;
    const corners = panel.polygon.slice(2).map((_, i) => at(panel.polygon, k + 2 + i));
    hung.push({ foot: [foot[0], foot[1]], corners });
    points.push(...corners);
    placed.add(panel);
    left = left.filter((other) => other !== panel);
  }
  return hung;
}

/** All corners of what hangs on a fan. */
export const hungCorners = ({ hung }: Fan): readonly Vec2[] => hung.flatMap(({ corners }) => corners);

/** A corner that hangs on a foot, from the nearer end of it: along the foot towards its other end, and off it, mm. */
export interface HungPlace {
  /** Corners, those of the rim first: the end it is measured from, and the other. */
  readonly from: number;
  readonly to: number;
  readonly along: number;
  readonly off: number;
}

/** Where the corners of what hangs on a fan are, in the order of `hungCorners`. */
export function hungPlaces(fan: Fan): readonly HungPlace[] {
  const points = [...fan.rim, ...hungCorners(fan)];
  return fan.hung.flatMap(({ foot: [a, b], corners }) =>
    corners.map((corner, i): HungPlace => {
      // The first corner stands beside the foot's beginning.
      const [from, to] = i < corners.length / 2 ? [a, b] : [b, a];
      const [p, q] = [points[from] as Vec2, points[to] as Vec2];
      const way = unit2(sub2(q, p));
      const away = sub2(corner, p);
      return { from, to, along: dot2(away, way), off: cross2(way, away) };
    }),
  );
}

function isSteady({ apex, rim }: Pick<Fan, 'apex' | 'rim'>): boolean {
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
export function fanClass(fan: Fan, points: readonly Vec2[], ruler: Ruler): PieceClass {
  const { apex, rim } = fan;
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
  const places = hungPlaces(fan);
  const hungOf = new Map(hungCorners(fan).map((p, i) => [index.find(p), i] as const));
  const measured = (values: readonly number[]): typeof radii => ruleAxis(values.map(Math.abs), false, ruler);
  const alongs = measured(places.map(({ along }) => along));
  const offs = measured(places.map(({ off }) => off));
  const way = angleAt(apex, rim[0] as Vec2, rim[1] as Vec2) < 0 ? -1 : 1;
  const turns = rim.slice(1).map((p, i) => angleAt(apex, rim[i] as Vec2, p));
  const [x, y] = sub2(rim[0] as Vec2, apex);
  const middle = Math.atan2(y, x) + sum(turns) / 2;
  const radius = (i: number): number => radii.axis.counts[(radii.places[i] as AxisPlace).line] as number;
  const chord = (i: number): number => chords.axis.counts[(chords.places[i] as AxisPlace).line] as number;
  const angle = (i: number): number => way * apexAngle(radius(i), radius(i + 1), chord(i));
  const centre = scale2(apex, 1 / step);
  const onRim = (i: number): Vec2 => {
    const all = turns.map((_, k) => angle(k));
    const direction = middle - sum(all) / 2 + sum(all.slice(0, i));
    return add2(centre, scale2([Math.cos(direction), Math.sin(direction)], radius(i)));
  };
  const count = ({ axis, places: own }: typeof radii, i: number): number =>
    axis.counts[(own[i] as AxisPlace).line] as number;
  const beside = (i: number, known = new Map<number, Vec2>()): Vec2 => {
    const { from, to, along, off } = places[i] as HungPlace;
    const [p, q] = [from, to].map((k) => {
      const point = known.get(k) ?? (k < rim.length ? onRim(k) : beside(k - rim.length, known));
      known.set(k, point);
      return point;
    }) as [Vec2, Vec2];
    const way = unit2(sub2(q, p));
    // A corner never falls on the line that its panel hangs on.
    const [s, d] = [Math.sign(along) * count(alongs, i), Math.sign(off) * Math.max(1, count(offs, i))];
    return add2(p, add2(scale2(way, s), scale2(left2(way), d)));
  };
  return {
    axes: [radii.axis, chords.axis, alongs.axis, offs.axis],
    place: (point) => {
      const [i, k] = [rimOf.get(point), hungOf.get(point)];
      return i !== undefined ? onRim(i) : k !== undefined ? beside(k) : centre;
    },
    between: (ends) => {
      const line = ({ axis, places: own }: typeof radii, i: number): RuledLine => ({
        axis,
        line: (own[i] as AxisPlace).line,
      });
      const hanging = ends.flatMap((end) => hungOf.get(end) ?? []);
      if (hanging.length > 0) return hanging.flatMap((i) => [line(alongs, i), line(offs, i)]);
      const found = ends.flatMap((end) => rimOf.get(end) ?? []).sort((a, b) => a - b);
      const [from, to = from] = found;
      if (from === undefined || to === undefined) return [];
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

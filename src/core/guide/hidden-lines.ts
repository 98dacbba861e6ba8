import { type BoxGrid, gridOf } from '../geometry/box-grid.ts';
import { at, type Box, boxOf, ringArea } from '../geometry/polygon.ts';
import { dot3, length3, lerp2, scale3, sub2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { NOISE_MM2, SNAP_MM } from '../tolerance.ts';
import type { Sight } from './sight.ts';

/** A flat face: its outline and its holes, each a ring of points in one plane, mm. It is seen from both sides. */
export interface SceneFace {
  readonly rings: readonly (readonly Vec3[])[];
}

export interface SceneLine {
  readonly ends: readonly [Vec3, Vec3];
  /**
   * Two faces (by index) that lie smoothly side by side along the line: it is drawn only where one of them faces the eye and the
   * other does not, as the side of a cone. Missing: it is always drawn.
   */
  readonly between?: readonly [number, number];
}

export interface Scene {
  readonly faces: readonly SceneFace[];
  readonly lines: readonly SceneLine[];
}

/** A part of a line in the picture. */
export type Stretch = readonly [Vec2, Vec2];

export interface SeenLine {
  /** Index into the scene's lines. */
  readonly line: number;
  readonly visible: readonly Stretch[];
  readonly hidden: readonly Stretch[];
}

/** A face as the eye sees it. */
interface Pane {
  /** Its rings in the picture. */
  readonly rings: readonly (readonly Vec2[])[];
  readonly box: Box;
  /** Its plane in the numbers of the sight, turned to the eye: points p with normal · p = offset. */
  readonly normal: Vec3;
  readonly offset: number;
  /** How near its nearest point is. */
  readonly nearest: number;
  /** The sign of its outline in the picture: over 0 where its outer side is seen. */
  readonly facing: number;
}

/**
 * What is seen of the lines of a scene. Each line is cut where it crosses the outline of a face in the picture or goes through
 * the face, so that between two cuts it is all seen or all hidden. A stretch is hidden where faces nearer to the eye cover both
 * its sides; a line that lies on a face (within `SNAP_MM`) is not hidden by it. A line that points at the eye is left out.
 */
export function seeLines({ faces, lines }: Scene, sight: Sight): readonly SeenLine[] {
  const panes = faces.map(({ rings }) => paneOf(rings.map((ring) => ring.map(sight))));
  // A face seen edge on hides nothing.
  const hiding = panes.filter((pane) => Math.abs(pane.facing) > NOISE_MM2);
  const grid = gridOf(hiding.map(({ box }) => box));
  return lines.flatMap(({ ends, between }, line): SeenLine[] => {
    if (between) {
      const [one, other] = between.map((f) => panes[f]?.facing ?? 0) as [number, number];
      if (one > 0 === other > 0) return [];
    }
    const seen = seeLine(ends.map(sight) as [Vec3, Vec3], hiding, grid);
    return seen ? [{ line, ...seen }] : [];
  });
}

function paneOf(rings: readonly (readonly Vec3[])[]): Pane {
  const flat = rings.map((ring) => ring.map(([x, y]): Vec2 => [x, y]));
  const [outline = []] = flat;
  const facing = ringArea(outline);
  const [seen = []] = rings;
  const normal = towardsEye(seen);
  const offset = seen.length === 0 ? 0 : seen.reduce((sum, p) => sum + dot3(normal, p), 0) / seen.length;
  const nearest = seen.reduce((most, [, , z]) => Math.max(most, z), Number.NEGATIVE_INFINITY);
  return { rings: flat, box: boxOf(outline), normal, offset, nearest, facing };
}

/** Newell's sum, turned so that it points at the eye. Of a ring without area: nothing in particular. */
function towardsEye(ring: readonly Vec3[]): Vec3 {
  let sum: [number, number, number] = [0, 0, 0];
  ring.forEach((p, i) => {
    const q = at(ring, i + 1);
    sum = [
      sum[0] + (p[1] - q[1]) * (p[2] + q[2]),
      sum[1] + (p[2] - q[2]) * (p[0] + q[0]),
      sum[2] + (p[0] - q[0]) * (p[1] + q[1]),
    ];
  });
  const size = length3(sum);
  return size === 0 ? [0, 0, 1] : scale3(sum, (sum[2] < 0 ? -1 : 1) / size);
}

function seeLine(
  [a, b]: readonly [Vec3, Vec3],
  hiding: readonly Pane[],
  grid: BoxGrid,
): Pick<SeenLine, 'visible' | 'hidden'> | null {
  const [p, q]: [Vec2, Vec2] = [
    [a[0], a[1]],
    [b[0], b[1]],
  ];
  const way = sub2(q, p);
  const length = Math.hypot(way[0], way[1]);
  if (length <= SNAP_MM) return null;
  const axes = { from: p, along: [way[0] / length, way[1] / length] as const };
  const farthest = Math.min(a[2], b[2]);
  const met = grid.near(boxOf([p, q]), SNAP_MM).flatMap((i) => {
    const pane = hiding[i] as Pane;
    // What lies behind all of the line hides none of it.
    const places = pane.nearest > farthest ? placesOn(pane, axes) : null;
    return places ? [{ pane, places }] : [];
  });
  const cuts = met.flatMap(({ pane, places }) => [
    ...crossings(places, length),
    ...pierced(pane, a, b).map((share) => share * length),
  ]);
  const nearness = (d: number): Vec3 => {
    const s = d / length;
    return [a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s, a[2] + (b[2] - a[2]) * s];
  };
  const isHidden = (d: number): boolean => isCovered(nearness(d), d, met);
  return split(length, cuts, isHidden, (d) => lerp2(p, q, d / length));
}

/** A face's outline by its place along the line and its distance to the left of it, mm. */
interface PaneOnLine {
  readonly pane: Pane;
  readonly places: readonly (readonly Vec2[])[];
}

/** Null where the face lies wholly on one side of the line, clear of it. */
function placesOn(
  { rings }: Pane,
  { from, along: [x, y] }: { readonly from: Vec2; readonly along: readonly [number, number] },
): PaneOnLine['places'] | null {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const places = rings.map((ring) =>
    ring.map((p): Vec2 => {
      const dx = p[0] - from[0];
      const dy = p[1] - from[1];
      const across = dy * x - dx * y;
      if (across < least) least = across;
      if (across > most) most = across;
      return [dx * x + dy * y, across];
    }),
  );
  return least <= SNAP_MM && most >= -SNAP_MM ? places : null;
}

/** How far along the line the outlines cross it. */
const crossings = (places: PaneOnLine['places'], length: number): number[] =>
  places.flatMap((ring) =>
    ring.flatMap((p, i) => {
      const q = at(ring, i + 1);
      // An edge that runs along the line parts nothing but at its ends.
      if (Math.abs(p[1]) <= SNAP_MM && Math.abs(q[1]) <= SNAP_MM) return [p[0], q[0]];
      if (p[1] > 0 === q[1] > 0) return [];
      const d = p[0] + ((q[0] - p[0]) * p[1]) / (p[1] - q[1]);
      return d > 0 && d < length ? [d] : [];
    }),
  );

/** Where the line goes through the plane of a face, as a share of it. */
function pierced({ normal, offset }: Pane, a: Vec3, b: Vec3): number[] {
  const [before, after] = [dot3(normal, a) - offset, dot3(normal, b) - offset];
  return before > 0 === after > 0 ? [] : [before / (before - after)];
}

/** Whether nearer faces cover both sides of the line at a place on it. */
function isCovered(p: Vec3, d: number, met: readonly PaneOnLine[]): boolean {
  let [left, right] = [false, false];
  for (const { pane, places } of met) {
    if (dot3(pane.normal, p) - pane.offset >= -SNAP_MM) continue;
    let [toLeft, toRight] = [0, 0];
    for (const ring of places) {
      for (let i = 0; i < ring.length; i++) {
        const [s, e] = [ring[i] as Vec2, at(ring, i + 1)];
        if (s[0] > d === e[0] > d) continue;
        const across = s[1] + ((e[1] - s[1]) * (d - s[0])) / (e[0] - s[0]);
        if (across > SNAP_MM) toLeft++;
        else if (across < -SNAP_MM) toRight++;
      }
    }
    left ||= toLeft % 2 === 1;
    right ||= toRight % 2 === 1;
    if (left && right) return true;
  }
  return false;
}

/** The line in stretches, neighbours of one sort joined; a stretch too short to be seen goes with the one before it. */
function split(
  length: number,
  cuts: readonly number[],
  isHidden: (d: number) => boolean,
  pointAt: (d: number) => Vec2,
): Pick<SeenLine, 'visible' | 'hidden'> {
  const stops = [0, ...cuts.filter((d) => d > 0 && d < length).sort((x, y) => x - y), length];
  const stretches: { from: number; to: number; readonly hidden: boolean }[] = [];
  let from = 0;
  stops.slice(1).forEach((to) => {
    if (to - from <= SNAP_MM) return;
    const hidden = isHidden((from + to) / 2);
    const last = stretches.at(-1);
    if (last && last.hidden === hidden) last.to = to;
    else stretches.push({ from, to, hidden });
    from = to;
  });
  const last = stretches.at(-1);
  if (last) last.to = length;
  const ofSort = (sort: boolean): Stretch[] =>
    stretches.filter(({ hidden }) => hidden === sort).map((s) => [pointAt(s.from), pointAt(s.to)]);
  return { visible: ofSort(false), hidden: ofSort(true) };
}

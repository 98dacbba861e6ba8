import { at } from '../../geometry/polygon.ts';
import {
  add2,
  cross2,
  distance3,
  dot2,
  dot3,
  length2,
  lerp2,
  scale2,
  sub2,
  sub3,
  unit2,
  type Vec2,
  type Vec3,
} from '../../geometry/vector.ts';
import type { AbutmentDraft, FaceDraft } from '../../solid/build-solid.ts';
import { isAtMost, isPositive, NOISE_MM, SNAP_MM } from '../../tolerance.ts';

/** An upright wall under the slopes, over a line of the plan with the inside of the building to its left. */
export interface WallLine {
  readonly id: string;
  readonly title: string;
  readonly from: Vec2;
  readonly to: Vec2;
}

/** Where one slope passes over a wall line: distance along it and level, in the direction of the line. */
export interface Passing {
  readonly slope: FaceDraft;
  readonly start: Vec2;
  readonly end: Vec2;
  /** The line runs along an edge of the slope, so that wall and slope share it. */
  readonly isShared: boolean;
  /** Of a shared edge: the slope lies to the left of the line, over the inside of the building. */
  readonly isInside: boolean;
}

/**
 * Adds walls that reach from a level foot up to the underside of the slopes. The foot is where the underside is lowest over
 * all of them and over the other walls of the body: the level at which the roof rests on a body with those walls. Where the wall stands under a slope's edge they
 * share it; elsewhere the wall's edge meets the inside of the slope (an abutment).
 */
export function addEndWalls(
  slopes: readonly FaceDraft[],
  lines: readonly WallLine[],
  others: readonly WallLine[] = [],
): { readonly faces: readonly FaceDraft[]; readonly abutments: readonly AbutmentDraft[] } {
  const abutments: AbutmentDraft[] = [];
  const shared: Vec3[] = [];
  const over = lines.map((line) => passingsOver(slopes, line));
  const under = [...over, ...(lines.length === 0 ? [] : others.map((line) => passingsOver(slopes, line)))];
  const foot = Math.min(...under.flatMap((passings) => passings.flatMap(({ start, end }) => [start[1], end[1]])));
  const walls = lines.flatMap((line, l): FaceDraft[] => {
    const passings = undersideOf(over[l] ?? []);
    const [first, last] = [passings[0], passings.at(-1)];
    const top = Math.max(...passings.flatMap(({ start, end }) => [start[1], end[1]]));
    // Where the slopes come down as low as the walls begin, none is left to cut.
    if (!first || !last || top - foot < SNAP_MM) return [];
    const along = unit2(sub2(line.to, line.from));
    const place = ([s, z]: Vec2): Vec3 => [...add2(line.from, scale2(along, s)), z] as Vec3;
    const corners: Vec3[] = [place([first.start[0], foot]), place([last.end[0], foot])];
    for (const { slope, start, end, isShared } of passings.toReversed()) {
      corners.push(place(end), place(start));
      if (isShared) shared.push(place(end), place(start));
      else abutments.push({ wall: line.id, slope: slope.id, ends: [place(end), place(start)] });
    }
    const points = corners.filter((p, i) => isPositive(distance3(p, at(corners, i + 1))));
    return [{ id: line.id, title: line.title, part: 'wall', side: line.id, points }];
  });
  // A slope whose edge is shared only in part gets corners where the wall begins and ends.
  const cut = slopes.map((slope) => ({ ...slope, points: shared.reduce<readonly Vec3[]>(withCorner, slope.points) }));
  return { faces: [...cut, ...walls], abutments };
}

/** Without what lies over another passing: a line in the plane of an upright slope has one at its head and one at its foot. */
const undersideOf = (passings: readonly Passing[]): readonly Passing[] =>
  passings.filter((one, i) => {
    const middle = lerp2(one.start, one.end, 0.5);
    return !passings.some(({ start, end }, k) => {
      if (k === i || start[0] > one.start[0] + SNAP_MM || end[0] < one.end[0] - SNAP_MM) return false;
      const higher = middle[1] - lerp2(start, end, (middle[0] - start[0]) / (end[0] - start[0]))[1];
      return higher > NOISE_MM || (higher >= -NOISE_MM && k < i);
    });
  });

/** Where slopes pass over a line, in its direction, each stretch as far as one slope goes. */
export function passingsOver(slopes: readonly FaceDraft[], { from, to }: WallLine): readonly Passing[] {
  const along = unit2(sub2(to, from));
  const length = length2(sub2(to, from));
  const alongOf = (p: Vec3): number => dot2(along, sub2([p[0], p[1]], from));
  const asideOf = (p: Vec3): number => cross2(along, sub2([p[0], p[1]], from));
  const spans = slopes.flatMap((slope): Passing[] => {
    const { points } = slope;
    const hits: Vec2[] = [];
    const shared: Passing[] = [];
    for (const [i, p] of points.entries()) {
      const q = at(points, i + 1);
      const [a, b] = [asideOf(p), asideOf(q)];
      if (Math.abs(a) <= NOISE_MM && Math.abs(b) <= NOISE_MM) {
        const ends: [Vec2, Vec2] = [
          [alongOf(p), p[2]],
          [alongOf(q), q[2]],
        ];
        const [start, end] = ends[0][0] < ends[1][0] ? ends : [ends[1], ends[0]];
        const isInside = start === ends[0];
        shared.push(...clipSpan({ slope, start, end, isShared: true, isInside }, length));
      } else if (a > NOISE_MM !== b > NOISE_MM) {
        const t = a / (a - b);
        hits.push([alongOf(p) + (alongOf(q) - alongOf(p)) * t, p[2] + (q[2] - p[2]) * t]);
      }
    }
    if (shared.length > 0) return shared;
    hits.sort((p, q) => p[0] - q[0]);
    return hits.flatMap((start, i) => {
      const end = hits[i + 1];
      return i % 2 === 1 || !end ? [] : clipSpan({ slope, start, end, isShared: false, isInside: true }, length);
    });
  });
  return spans.sort((a, b) => a.start[0] - b.start[0]);
}

/** The part of a passing over the wall itself. */
function clipSpan(span: Passing, length: number): Passing[] {
  const { start, end } = span;
  const [low, high] = [Math.max(0, start[0]), Math.min(length, end[0])];
  if (high - low < SNAP_MM) return [];
  // A wall that ends all but at a corner of the slope ends at it: nobody could cut the difference.
  const levelAt = (s: number): Vec2 => {
    if (Math.abs(s - start[0]) < SNAP_MM) return start;
    return Math.abs(s - end[0]) < SNAP_MM ? end : lerp2(start, end, (s - start[0]) / (end[0] - start[0]));
  };
  return [{ ...span, start: levelAt(low), end: levelAt(high) }];
}

/** The loop with one corner more where the point lies between two of its corners. */
export function withCorner(points: readonly Vec3[], corner: Vec3): readonly Vec3[] {
  if (points.some((p) => !isPositive(distance3(p, corner)))) return points;
  const index = points.findIndex((p, i) => {
    const q = at(points, i + 1);
    const along = sub3(q, p);
    const t = dot3(sub3(corner, p), along) / dot3(along, along);
    const foot: Vec3 = [p[0] + along[0] * t, p[1] + along[1] * t, p[2] + along[2] * t];
    return t > 0 && t < 1 && isAtMost(distance3(foot, corner), 0);
  });
  return index < 0 ? points : [...points.slice(0, index + 1), corner, ...points.slice(index + 1)];
}

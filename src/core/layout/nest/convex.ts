import { convexParts, isConvex } from '../../geometry/convex-parts.ts';
import { at } from '../../geometry/polygon.ts';
import { cross2, distance2, dot2, sub2, type Vec2 } from '../../geometry/vector.ts';
import { HAIR_MM } from '../../tolerance.ts';
import type { Ring } from './problem.ts';

/** The ring without points that repeat their neighbour or lie straight between two others. */
export function withoutIdlePoints(ring: Ring): Ring {
  const distinct = ring.filter((p, i) => distance2(p, at(ring, i - 1)) > HAIR_MM);
  return distinct.filter((p, i) => {
    const [before, after] = [at(distinct, i - 1), at(distinct, i + 1)];
    const [into, out] = [sub2(p, before), sub2(after, p)];
    return Math.abs(cross2(into, out)) > HAIR_MM * distance2(before, after) || dot2(into, out) < 0;
  });
}

/** Few convex rings that together are the given ring: its triangles, joined again wherever two make a convex ring. */
export function fewConvexParts(ring: Ring): readonly Ring[] {
  return joinConvex(convexParts(ring));
}

/** Joins convex rings along common edges (corner for corner) while that leaves them convex (S. Hertel, K. Mehlhorn, 1983). */
export function joinConvex(rings: readonly Ring[]): readonly Ring[] {
  const parts = [...rings];
  for (let i = 0; i < parts.length; i++) {
    for (let j = i + 1; j < parts.length; j++) {
      const joined = joinAlongEdge(parts[i]!, parts[j]!);
      if (!joined) continue;
      parts[i] = joined;
      parts.splice(j, 1);
      j = i;
    }
  }
  return parts;
}

function joinAlongEdge(a: Ring, b: Ring): Ring | null {
  for (let i = 0; i < a.length; i++) {
    const [p, q] = [at(a, i), at(a, i + 1)];
    for (let j = 0; j < b.length; j++) {
      if (!isSamePoint(at(b, j), q) || !isSamePoint(at(b, j + 1), p)) continue;
      const ring = Array.from({ length: a.length }, (_, k) => at(a, i + 1 + k));
      for (let k = 2; k < b.length; k++) ring.push(at(b, j + k));
      return isConvex(ring) ? withoutIdlePoints(ring) : null;
    }
  }
  return null;
}

const isSamePoint = (a: Vec2, b: Vec2): boolean => distance2(a, b) <= HAIR_MM;

/**
 * All differences a - b of points of two convex rings, a convex ring too: where a reference point of b may not lie if b is not to
 * overlap a. Edges of both by their angle, one merge.
 */
export function convexDifference(a: Ring, b: Ring): Ring {
  const turned = b.map(([x, y]): Vec2 => [-x, -y]);
  const [a0, b0] = [lowest(a), lowest(turned)];
  let [i, j] = [0, 0];
  const sum: Vec2[] = [];
  while (i < a.length || j < turned.length) {
    const [p, q] = [at(a, a0 + i), at(turned, b0 + j)];
    sum.push([p[0] + q[0], p[1] + q[1]]);
    const turn = cross2(sub2(at(a, a0 + i + 1), p), sub2(at(turned, b0 + j + 1), q));
    const takesA = j >= turned.length || (i < a.length && turn >= 0);
    const takesB = i >= a.length || (j < turned.length && turn <= 0);
    if (takesA) i++;
    if (takesB) j++;
  }
  return withoutIdlePoints(sum);
}

/** Index of the lowest point, the leftmost of several. */
function lowest(ring: Ring): number {
  let best = 0;
  ring.forEach(([x, y], i) => {
    const [bx, by] = ring[best]!;
    if (y < by || (y === by && x < bx)) best = i;
  });
  return best;
}

/** Corners of a grown ring turn by no more than this at a time, radians. */
const TURN_STEP = Math.PI / 4;

/**
 * The convex ring that holds every point within `gap` of the given one: its edges moved out, and at each corner as many further
 * edges as keep it from sticking out by more than an eighth of the gap.
 */
export function growConvex(ring: Ring, gap: number): Ring {
  if (gap === 0) return ring;
  const lines: { readonly normal: Vec2; readonly reach: number }[] = [];
  ring.forEach((p, i) => {
    const [before, after] = [outward(at(ring, i - 1), p), outward(p, at(ring, i + 1))];
    const turn = Math.atan2(cross2(before, after), dot2(before, after));
    const steps = Math.max(1, Math.ceil(turn / TURN_STEP));
    for (let k = 1; k < steps; k++) {
      const angle = (turn * k) / steps;
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
      const normal: Vec2 = [before[0] * cos - before[1] * sin, before[0] * sin + before[1] * cos];
      lines.push({ normal, reach: dot2(normal, p) + gap });
    }
    lines.push({ normal: after, reach: dot2(after, p) + gap });
  });
  return withoutIdlePoints(
    lines.map(({ normal, reach }, i): Vec2 => {
      const next = at(lines, i + 1);
      const det = cross2(normal, next.normal);
      return [
        (reach * next.normal[1] - next.reach * normal[1]) / det,
        (next.reach * normal[0] - reach * next.normal[0]) / det,
      ];
    }),
  );
}

function outward(a: Vec2, b: Vec2): Vec2 {
  const length = distance2(a, b);
  return [(b[1] - a[1]) / length, (a[0] - b[0]) / length];
}

/** The convex hull, counter-clockwise (A. M. Andrew, 1979). */
export function convexHull(points: Ring): Ring {
  const sorted = points.toSorted((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: Ring): Vec2[] => {
    const chain: Vec2[] = [];
    for (const p of list) {
      while (chain.length > 1 && cross2(sub2(chain.at(-1)!, chain.at(-2)!), sub2(p, chain.at(-1)!)) <= 0) chain.pop();
      chain.push(p);
    }
    chain.pop();
    return chain;
  };
  return [...half(sorted), ...half(sorted.toReversed())];
}

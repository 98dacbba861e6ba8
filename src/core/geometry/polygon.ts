import { HAIR_MM } from '../tolerance.ts';
import { cross2, distance2, dot2, lerp2, type Vec2, type Vec3 } from './vector.ts';

/** Signed area, mm². Positive: counter-clockwise with y up. The ring is not closed. Under 3 points: 0. */
export function ringArea(ring: readonly Vec2[]): number {
  let twice = 0;
  for (let i = 0; i < ring.length; i++) twice += cross2(ring[i] as Vec2, at(ring, i + 1));
  return twice / 2;
}

/** Length once round, mm. */
export const ringLength = (ring: readonly Vec2[]): number =>
  ring.reduce((sum, point, i) => sum + distance2(point, at(ring, i + 1)), 0);

/** Length from the first point to the last, mm. */
export const pathLength = (points: readonly Vec2[]): number =>
  points.slice(1).reduce((sum, point, i) => sum + distance2(points[i] as Vec2, point), 0);

/** Element of a ring; the index wraps both ways. */
export function at<T>(ring: readonly T[], index: number): T {
  const n = ring.length;
  return ring[index >= 0 && index < n ? index : ((index % n) + n) % n] as T;
}

export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Box around points; of points in space, that of their plan. */
export function boxOf(points: readonly (Vec2 | Vec3)[]): Box {
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  for (const p of points) {
    if (p[0] < minX) minX = p[0];
    if (p[1] < minY) minY = p[1];
    if (p[0] > maxX) maxX = p[0];
    if (p[1] > maxY) maxY = p[1];
  }
  return { minX, minY, maxX, maxY };
}

/** Whether two boxes are so far apart that what they hold cannot come nearer than the gap. */
export const areApart = (a: Box, b: Box, gap = 0): boolean =>
  a.maxX + gap < b.minX || b.maxX + gap < a.minX || a.maxY + gap < b.minY || b.maxY + gap < a.minY;

/** The points p with `normal · p >= offset`; the normal has length 1. */
export interface HalfPlane {
  readonly normal: Vec2;
  readonly offset: number;
}

/** The mean of some points; of a convex ring's corners a point inside it. */
export function meanPoint(points: readonly Vec2[]): Vec2 {
  let x = 0;
  let y = 0;
  for (const p of points) {
    x += p[0];
    y += p[1];
  }
  return [x / points.length, y / points.length];
}

/** Left of the line from a to b, at least `inset` away from it. */
export function leftOf(a: Vec2, b: Vec2, inset = 0): HalfPlane {
  const x = b[0] - a[0];
  const y = b[1] - a[1];
  const scale = 1 / Math.sqrt(x * x + y * y);
  const normal: Vec2 = [-(y * scale), x * scale];
  return { normal, offset: dot2(normal, a) + inset };
}

/** How far p lies inside the half-plane, mm; negative outside. */
export const depthIn = (half: HalfPlane, p: Vec2): number => dot2(half.normal, p) - half.offset;

/** The part of a convex ring inside the half-plane; empty where nothing is left. Exact at vertices that lie on the line. */
export function clipConvex(ring: readonly Vec2[], half: HalfPlane): Vec2[] {
  const kept: Vec2[] = [];
  const first = ring[0];
  let dp = first ? depthIn(half, first) : 0;
  for (let i = 0; i < ring.length; i++) {
    const p = ring[i] as Vec2;
    const q = at(ring, i + 1);
    const dq = depthIn(half, q);
    if (dp >= 0) kept.push(p);
    if ((dp > 0 && dq < 0) || (dp < 0 && dq > 0)) kept.push(lerp2(p, q, dp / (dp - dq)));
    dp = dq;
  }
  // A cut through a corner leaves two points in one place; the edge between them would point anywhere.
  const distinct = kept.filter((p, i) => distance2(p, at(kept, i - 1)) > HAIR_MM);
  return distinct.length < 3 ? [] : distinct;
}

/** Common area of two convex counter-clockwise rings, mm². */
export function convexOverlap(a: readonly Vec2[], b: readonly Vec2[]): number {
  let rest: readonly Vec2[] = a;
  for (let i = 0; i < b.length && rest.length > 0; i++) {
    const p = at(b, i);
    const q = at(b, i + 1);
    if (distance2(p, q) > 0) rest = clipConvex(rest, leftOf(p, q));
  }
  return rest.length === 0 ? 0 : Math.abs(ringArea(rest));
}

/** Distance from p to the segment ab, mm. */
export const distanceToSegment = (p: Vec2, a: Vec2, b: Vec2): number => Math.sqrt(squareToSegment(p, a, b));

/** Its square, mm². */
function squareToSegment(p: Vec2, a: Vec2, b: Vec2): number {
  const x = b[0] - a[0];
  const y = b[1] - a[1];
  const px = p[0] - a[0];
  const py = p[1] - a[1];
  const square = x * x + y * y;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, (px * x + py * y) / square));
  const dx = px - t * x;
  const dy = py - t * y;
  return dx * dx + dy * dy;
}

/** Least distance between two rings that do not overlap, mm. */
export const ringDistance = (a: readonly Vec2[], b: readonly Vec2[]): number =>
  Math.sqrt(Math.min(squareToRing(a, b), squareToRing(b, a)));

/** The square of the least distance from points to a ring, mm². */
function squareToRing(points: readonly Vec2[], ring: readonly Vec2[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < ring.length; j++) {
    const q = ring[j] as Vec2;
    const r = at(ring, j + 1);
    for (let i = 0; i < points.length; i++) least = Math.min(least, squareToSegment(points[i] as Vec2, q, r));
  }
  return least;
}

/** Whether p lies inside the ring (any simple polygon; of one in space, its plan); points on the border may go either way. */
export function isInside(p: Vec2, ring: readonly (Vec2 | Vec3)[]): boolean {
  let inside = false;
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i] as Vec2 | Vec3;
    const b = at(ring, i + 1);
    if (a[1] > p[1] !== b[1] > p[1] && p[0] < a[0] + ((p[1] - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
  }
  return inside;
}

/**
 * How far two convex rings reach into each other, mm; 0 or less where a line parts them (separating axis theorem: some edge
 * of one of them gives such a line).
 */
export function convexDepth(a: readonly Vec2[], b: readonly Vec2[]): number {
  const depth = depthAcross(a, b, Number.POSITIVE_INFINITY);
  return depth > 0 ? depthAcross(b, a, depth) : depth;
}

/** The least that a ring reaches over an edge of another, if it is less than so much, mm; ends at once where it does not. */
function depthAcross(ring: readonly Vec2[], other: readonly Vec2[], most: number): number {
  let depth = most;
  for (let i = 0; i < ring.length && depth > 0; i++) {
    const p = ring[i] as Vec2;
    const q = at(ring, i + 1);
    const x = q[0] - p[0];
    const y = q[1] - p[1];
    const length = Math.sqrt(x * x + y * y);
    if (length <= HAIR_MM) continue;
    const scale = 1 / length;
    const nx = -(y * scale);
    const ny = x * scale;
    let reach = Number.NEGATIVE_INFINITY;
    for (let j = 0; j < other.length; j++) {
      const point = other[j] as Vec2;
      reach = Math.max(reach, nx * point[0] + ny * point[1]);
    }
    depth = Math.min(depth, reach - (nx * p[0] + ny * p[1]));
  }
  return depth;
}

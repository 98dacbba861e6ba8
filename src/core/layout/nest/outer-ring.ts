import { at, boxOf, ringArea } from '../../geometry/polygon.ts';
import { cross2, distance2, dot2, sub2, type Vec2 } from '../../geometry/vector.ts';
import type { Ring } from './problem.ts';

/** Outlines of no more points than this stay as they are. */
const FEW = 20;
/** Shares of the size (the square root of the area): how far a curve may be off, and how narrow a dent is filled however deep. */
const OFF = 0.002;
const NARROW = 0.06;
/** Points that one dent may have. */
const MOST_SPAN = 40;

/**
 * A ring of fewer points that holds the given one and lies in the same box: shallow and narrow dents are filled (between the teeth of
 * a flap no other piece would lie), and short edges of outward curves give way to the corner of their neighbours.
 */
export function outerRing(ring: Ring): Ring {
  if (ring.length <= FEW) return ring;
  const size = Math.sqrt(Math.abs(ringArea(ring)));
  const outer = withoutShortEdges(withoutDents(ring, size * OFF, size * NARROW), size * OFF);
  return crossesItself(outer) ? ring : outer;
}

function withoutDents(ring: Ring, off: number, narrow: number): Ring {
  // The lowest point lies in no dent.
  const first = ring.reduce((low, [x, y], i) => {
    const [lx, ly] = ring[low]!;
    return y < ly || (y === ly && x < lx) ? i : low;
  }, 0);
  const points = [...ring.slice(first), ...ring.slice(0, first)];
  for (let i = 0; i < points.length; i++) {
    for (let span = Math.min(MOST_SPAN, points.length - i); span > 1; span--) {
      if (points.length - span < 2 || !isDent(points, i, span, off, narrow)) continue;
      points.splice(i + 1, span - 1);
      break;
    }
  }
  return points;
}

/** Whether the points between one and another lie in a dent that may be filled, with nothing else in the way. */
function isDent(points: Ring, from: number, span: number, off: number, narrow: number): boolean {
  const [a, b] = [at(points, from), at(points, from + span)];
  const chord = sub2(b, a);
  const length = distance2(a, b);
  if (length === 0) return false;
  let deepest = 0;
  for (let k = 1; k < span; k++) {
    const depth = cross2(chord, sub2(at(points, from + k), a)) / length;
    if (depth < 0) return false;
    deepest = Math.max(deepest, depth);
  }
  if (deepest > off && length > narrow) return false;
  for (let k = from + span; k < from + points.length; k++) {
    const [p, q] = [at(points, k), at(points, k + 1)];
    if (k > from + span && k + 1 < from + points.length && meet(a, b, p, q)) return false;
  }
  return true;
}

/** Outward edges whose neighbours, made longer, meet no further than `off` beyond them: replaced by that corner. */
function withoutShortEdges(ring: Ring, off: number): Ring {
  const box = boxOf(ring);
  const points = [...ring];
  for (let i = 0; i < points.length && points.length > 4; i++) {
    const [a, b, c, d] = [at(points, i - 1), at(points, i), at(points, i + 1), at(points, i + 2)];
    const [into, edge, out] = [sub2(b, a), sub2(c, b), sub2(d, c)];
    const turn = cross2(into, out);
    if (cross2(into, edge) <= 0 || cross2(edge, out) <= 0 || turn <= 0 || dot2(into, out) <= 0) continue;
    const t = cross2(edge, out) / turn;
    const corner: Vec2 = [b[0] + into[0] * t, b[1] + into[1] * t];
    const height = -cross2(edge, sub2(corner, b)) / distance2(b, c);
    const isInBox = corner[0] >= box.minX && corner[0] <= box.maxX && corner[1] >= box.minY && corner[1] <= box.maxY;
    if (height > off || !isInBox) continue;
    points[i] = corner;
    points.splice((i + 1) % points.length, 1);
  }
  return points;
}

function crossesItself(ring: Ring): boolean {
  const n = ring.length;
  return ring.some((p, i) => {
    for (let j = i + 2; j < n; j++)
      if (!(i === 0 && j === n - 1) && meet(p, at(ring, i + 1), ring[j]!, at(ring, j + 1))) return true;
    return false;
  });
}

/** Whether two segments cross or touch. */
function meet(a: Vec2, b: Vec2, p: Vec2, q: Vec2): boolean {
  const [ab, pq] = [sub2(b, a), sub2(q, p)];
  const [sp, sq] = [cross2(ab, sub2(p, a)), cross2(ab, sub2(q, a))];
  const [sa, sb] = [cross2(pq, sub2(a, p)), cross2(pq, sub2(b, p))];
  return sp * sq <= 0 && sa * sb <= 0 && (sp !== 0 || sq !== 0);
}

import { areApart, at, boxOf, clipConvex, depthIn, type HalfPlane, leftOf, ringDistance } from '../geometry/polygon.ts';
import { dot2, left2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { areaBeside, type GlueSide } from './part-flaps.ts';
import { TRIM_MM } from './seam-flap.ts';

/** What is left of a ring beside a seam from a to b once it keeps the clearance to each of these edges; empty where it has lost the seam. */
export function clearOfEdges(
  start: readonly Vec2[],
  { a, b }: Pick<GlueSide, 'a' | 'b'>,
  edges: readonly (readonly [Vec2, Vec2])[],
  clearance: number,
): readonly Vec2[] {
  const seam = leftOf(a, b);
  let ring = start;
  const around = boxOf(start);
  const isNear = (edge: readonly [Vec2, Vec2], of: readonly Vec2[]): boolean =>
    of.length > 2 && segmentDistance(edge, of) < clearance - TRIM_MM;
  let near = edges
    .filter((edge) => !areApart(boxOf(edge), around, clearance) && isNear(edge, start))
    .map((edge) => ({ edge, cuts: [leftOf(...edge, clearance), ...shortOf(edge, a, b, clearance)] }));
  // Every round clears the first edge for good; the nearest edges of an inside corner may serve for each other.
  for (let [first] = near; first; [first] = near) {
    let [best, most]: [readonly Vec2[], number] = [[], 0];
    for (const { cuts } of near) {
      for (const cut of cuts) {
        const kept = clipConvex(ring, cut);
        const area = areaBeside(kept, seam);
        if (area > most && !isNear(first.edge, kept)) [best, most] = [kept, area];
      }
    }
    ring = best;
    // What is left of it comes no nearer to the others.
    near = near.slice(1).filter(({ edge }) => isNear(edge, best));
  }
  return ring;
}

/**
 * Cuts that end a flap short of an edge's ends, square to its seam from either side and along it: as far off as the clearance,
 * or where the edge runs back along the flap at a sharp angle, as far as the edge needs to open by the clearance.
 */
function shortOf([p, q]: readonly [Vec2, Vec2], a: Vec2, b: Vec2, clearance: number): readonly HalfPlane[] {
  const along = unit2(sub2(b, a));
  const edge = unit2(sub2(q, p));
  const back = scale2(edge, -1);
  const shortOfEnd = (normal: Vec2, end: Vec2, away: Vec2): HalfPlane => {
    const cosine = dot2(away, normal);
    const reach = cosine > 0 ? clearance / Math.sqrt(1 - cosine * cosine) : clearance;
    return { normal, offset: dot2(normal, end) + reach };
  };
  return [along, scale2(along, -1), scale2(left2(along), -1)].flatMap((normal) => [
    shortOfEnd(normal, p, edge),
    shortOfEnd(normal, q, back),
  ]);
}

/** Distance between a segment and a convex ring, mm; under 0 where the segment reaches into the ring. */
function segmentDistance([p, q]: readonly [Vec2, Vec2], ring: readonly Vec2[]): number {
  const along = sub2(q, p);
  let from = 0;
  let to = 1;
  for (let i = 0; i < ring.length; i++) {
    const inner = leftOf(at(ring, i), at(ring, i + 1), TRIM_MM);
    const [depth, rate] = [depthIn(inner, p), dot2(inner.normal, along)];
    if (rate > 0) from = Math.max(from, -depth / rate);
    else if (rate < 0) to = Math.min(to, -depth / rate);
    else if (depth < 0) from = Number.POSITIVE_INFINITY;
  }
  return from < to ? -1 : ringDistance([p, q], ring);
}

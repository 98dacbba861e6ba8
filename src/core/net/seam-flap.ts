import { at, depthIn, leftOf } from '../geometry/polygon.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import { isPositive, NOISE_MM } from '../tolerance.ts';
import { type Flap, flapEnds } from './net.ts';

/**
 * A flap in the frame of its seam: x along the seam, y into the panel it is glued to, so that the seam is y = 0.
 * Laid flat it lies just so beyond the edge of the panel that carries it.
 */
export interface SeamFlap {
  readonly seam: number;
  readonly from: number;
  readonly to: number;
  /** How many edges of the carrying panel's loop lie before it along the seam, and how many it takes: one unless it is a tooth. */
  readonly start: number;
  readonly edges: number;
  /** Length of its base on the seam, mm. */
  readonly length: number;
  /** How far it reaches before anything is trimmed off it, mm. */
  readonly meant: number;
  /** Convex, counter-clockwise, the first two points on the seam; empty where too little is left to glue. */
  readonly polygon: readonly Vec2[];
}

/** A flap is trimmed more exactly than `checkNet` looks. */
export const TRIM_MM = NOISE_MM / 10;

/**
 * The ring from its seam side on; empty where it has lost the seam or is too small to hold glue. Corners as near to the seam as
 * noise lie on it: left where they are they would give the ring an edge that runs back along it.
 */
export function fromSeam(ring: readonly Vec2[], least: number): Vec2[] {
  const isOnSeam = (p: Vec2): boolean => p[1] <= NOISE_MM;
  let [from, to, width, first] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, -1];
  for (const [i, p] of ring.entries()) {
    if (isOnSeam(p)) {
      from = Math.min(from, p[0]);
      to = Math.max(to, p[0]);
    } else {
      width = Math.max(width, p[1]);
      if (isOnSeam(at(ring, i - 1))) first = i;
    }
  }
  if (first < 0 || to - from < least || width < least) return [];
  const polygon: Vec2[] = [
    [from, 0],
    [to, 0],
  ];
  for (let i = first; i < first + ring.length; i++) {
    const p = at(ring, i);
    if (!isOnSeam(p) && isPositive(distance2(p, at(polygon, -1)))) polygon.push(p);
  }
  return polygon;
}

/** How far a flap reaches from its seam, mm. */
export const flapDepth = (flap: Pick<Flap, 'polygon' | 'base'>): number => {
  const [a, b] = flapEnds(flap);
  const seam = leftOf(a, b);
  return Math.max(...flap.polygon.map((p) => depthIn(seam, p)));
};

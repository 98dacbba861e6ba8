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
  const along = ring.filter(isOnSeam).map(([x]) => x);
  const [from, to] = [Math.min(...along), Math.max(...along)];
  const first = ring.findIndex((p, i) => !isOnSeam(p) && isOnSeam(at(ring, i - 1)));
  if (first < 0 || to - from < least) return [];
  const above = [...ring.slice(first), ...ring.slice(0, first)].filter((p) => !isOnSeam(p));
  const polygon = withoutRepeats([[from, 0], [to, 0], ...above]);
  const width = Math.max(...polygon.map((p) => p[1]));
  return polygon.length < 3 || width < least ? [] : polygon;
}

const withoutRepeats = (ring: readonly Vec2[]): Vec2[] =>
  ring.filter((p, i) => i === 0 || isPositive(distance2(p, at(ring, i - 1))));

/** How far a flap reaches from its seam, mm. */
export const flapDepth = (flap: Pick<Flap, 'polygon' | 'base'>): number => {
  const [a, b] = flapEnds(flap);
  const seam = leftOf(a, b);
  return Math.max(...flap.polygon.map((p) => depthIn(seam, p)));
};

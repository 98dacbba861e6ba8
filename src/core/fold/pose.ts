import type { Vec3 } from '../geometry/vector.ts';

/** A rigid motion: rows of a rotation matrix and a translation; p becomes R p + move. */
export interface Motion {
  readonly rotation: readonly [Vec3, Vec3, Vec3];
  readonly move: Vec3;
}

/**
 * Where every panel and flap of a net is at one moment. A panel's net point (x, y) is the point (x, y, 0) before the
 * motion, printed side up. Frame: the table, z = 0 its top, mm.
 */
export interface Pose {
  readonly pieces: readonly PiecePose[];
}

export interface PiecePose {
  readonly panels: readonly Motion[];
  readonly flaps: readonly Motion[];
}

/** The named stops of the scrubber, as values of t. */
export const foldStops: readonly { readonly id: string; readonly title: string; readonly t: number }[] = [
  { id: 'flat', title: 'Flat', t: 0 },
  { id: 'scored', title: 'Scored', t: 0.15 },
  { id: 'folded', title: 'Folded', t: 0.6 },
  { id: 'on-body', title: 'On the body', t: 1 },
];

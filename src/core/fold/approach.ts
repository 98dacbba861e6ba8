import type { Vec3 } from '../geometry/vector.ts';

/** How a piece comes to its place: from so far out in this direction, straight in. */
export interface Approach {
  /** Of length 1, away from the place. */
  readonly out: Vec3;
  /** mm; from there on nothing is in the way above. */
  readonly distance: number;
  /** Flaps that are held further in than they will lie until the piece is in its place: indices into `piece.flaps`. */
  readonly heldIn: readonly number[];
  /** How much further, radians. */
  readonly holdBy: number;
  /** Flaps that come under a panel that is on before: indices into `piece.flaps`. */
  readonly slips: readonly number[];
  /** Nothing is passed through. */
  readonly isFree: boolean;
}

/** How the pieces of one layer go on. */
export interface WorkPlan {
  /** Indices into `net.pieces`, the first piece to go on first. */
  readonly order: readonly number[];
  /** For each piece, in the order of the net. */
  readonly approaches: readonly Approach[];
}

/** Straight down from above: what is taken while no plan is made. */
export const fromAbove: Approach = { out: [0, 0, 1], distance: 0, heldIn: [], holdBy: 0, slips: [], isFree: true };

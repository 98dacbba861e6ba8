import { shifted } from '../geometry/motion.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Net } from '../net/net.ts';
import type { Solid } from '../solid/solid.ts';
import { fromAbove, type WorkPlan } from './approach.ts';
import { rollOf } from './bend.ts';
import { bendPiece, type PiecePose, placeOf } from './bend-piece.ts';
import { alongPath, ease, facingFront, IN, span, standAt, travelTimes } from './journey.ts';
import { FOLDED, SCORED } from './stops.ts';
import { workOrder } from './work-order.ts';

export type { Motion } from '../geometry/motion.ts';
export { bentAt, type PanelBend } from './bend.ts';
export { everyPoint, type PartPose, type PiecePose, placePoint } from './bend-piece.ts';

/**
 * Where every panel, flap and hem of a net is at one moment. A panel's net point (x, y) is the point (x, y, 0) before the
 * motion, printed side up; a panel that is rolled is bent before it is moved. Frame: the table, z = 0 its top, mm.
 */
export interface Pose {
  readonly pieces: readonly PiecePose[];
}

/** A scored fold springs up by this share of its angle. */
const SPRING = 0.12;
/** A travelling piece passes over the peak by so much, mm. */
const CLEAR = 4;

export interface PosePlace {
  /** Height of the eave plane over the table when the roof rests on its body. */
  readonly rest: number;
  /** Where each piece's origin lies on the table. */
  readonly spots: readonly Vec2[];
  /** How the pieces go on (`planWork`); missing: all from above, in the order of work. */
  readonly plan?: WorkPlan;
}

/**
 * The net at t: flat on the table at 0; scored, its folds and flaps sprung up a little; folded, every piece standing by
 * itself where it lay, its flaps turned before its folds; then one piece after another travels up, across, down and in to its
 * place. At 1 every panel lies on its face of the solid.
 */
export function poseNet(solid: Solid, net: Net, t: number, place: PosePlace): Pose {
  const order = place.plan?.order ?? workOrder(solid, net);
  // High enough to pass over whatever is already on.
  const peak = solid.vertices.reduce((most, v) => Math.max(most, v[2]), Number.NEGATIVE_INFINITY);
  const lift = place.rest + peak + CLEAR;
  const turnOf = new Map(order.map((p, turn) => [p, turn]));
  return {
    pieces: net.pieces.map((piece, p) => {
      const [x, y] = place.spots[p] ?? [0, 0];
      const goal = shifted(placeOf(solid, piece), [0, 0, place.rest]);
      const rolls = piece.panels.map((panel) => rollOf(solid, panel));
      const bend = {
        folds: bendAt(t, SCORED + 0.12, FOLDED),
        flaps: bendAt(t, SCORED, SCORED + 0.2),
      };
      const travel = span(t, ...travelTimes(turnOf.get(p) ?? -1, net.pieces.length));
      const approach = place.plan?.approaches[p] ?? fromAbove;
      const standing = standAt({ piece, rolls }, facingFront(goal), [x, y], ease(span(t, SCORED + 0.12, FOLDED)), bend);
      const root = travel === 0 ? standing.motion : alongPath(standing, goal, travel, { lift, approach });
      const hold = approach.holdBy * ease(span(travel, 0, 0.2)) * (1 - ease(span(travel, IN, 1)));
      const held = piece.flaps.map((_, i) => (approach.heldIn.includes(i) ? hold : 0));
      return bendPiece({ piece, rolls }, root, { ...bend, held });
    }),
  };
}

const bendAt = (t: number, from: number, to: number): number =>
  SPRING * ease(span(t, 0, SCORED)) + (1 - SPRING) * ease(span(t, from, to));

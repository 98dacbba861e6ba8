import {
  compose,
  inverseMotion,
  type Motion,
  move3,
  partialTurn,
  quaternionOf,
  shifted,
  turnAbout,
} from '../geometry/motion.ts';
import { at } from '../geometry/polygon.ts';
import { alignSegments } from '../geometry/rigid2.ts';
import { lerp2, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { type Flap, flapEnds, type Hem, type Net, type Panel, type Piece, type SeamStrip } from '../net/net.ts';
import { faceFrame, flattenFace, frameMotion } from '../solid/face-frame.ts';
import type { Solid } from '../solid/solid.ts';
import { bendOf, bentAt, liftMotion, type PanelBend, type PanelRoll, rollOf } from './bend.ts';
import { underFirstFace } from './pose-strip.ts';
import { FOLDED, SCORED } from './stops.ts';
import { workOrder } from './work-order.ts';

export type { Motion } from '../geometry/motion.ts';
export { bentAt, type PanelBend } from './bend.ts';

/**
 * Where every panel, flap and hem of a net is at one moment. A panel's net point (x, y) is the point (x, y, 0) before the
 * motion, printed side up; a panel that is rolled is bent before it is moved. Frame: the table, z = 0 its top, mm.
 */
export interface Pose {
  readonly pieces: readonly PiecePose[];
}

export interface PiecePose {
  readonly panels: readonly PartPose[];
  readonly flaps: readonly PartPose[];
  /** They are turned with the flaps. */
  readonly hems: readonly PartPose[];
}

export interface PartPose {
  readonly motion: Motion;
  /** How the part is rolled where it lies on its piece; null: it is flat. */
  readonly bend: PanelBend | null;
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
}

/**
 * The net at t: flat on the table at 0; scored, its folds and flaps sprung up a little; folded, every piece standing by
 * itself where it lay, its flaps turned before its folds; then one piece after another travels up, across and down onto the
 * body. At 1 every panel lies on its face of the solid.
 */
export function poseNet(solid: Solid, net: Net, t: number, place: PosePlace): Pose {
  const order = workOrder(solid, net);
  // High enough to pass over whatever is already on.
  const lift = place.rest + Math.max(...solid.vertices.map((v) => v[2])) + CLEAR;
  return {
    pieces: net.pieces.map((piece, p) => {
      const [x, y] = place.spots[p] ?? [0, 0];
      const there = piece.strip ? underFirstFace(solid, piece.strip) : onFace(solid, piece.panels[0] as Panel);
      const goal = shifted(there, [0, 0, place.rest]);
      const rolls = piece.panels.map((panel) => rollOf(solid, panel));
      const bend = {
        folds: bendAt(t, SCORED + 0.12, FOLDED),
        flaps: bendAt(t, SCORED, SCORED + 0.2),
      };
      const standing = standAt({ piece, rolls }, goal, [x, y], ease(span(t, SCORED + 0.12, FOLDED)), bend);
      const travel = span(t, ...travelTimes(order.indexOf(p), net.pieces.length));
      const root = travel === 0 ? standing : alongPath(standing, goal, travel, lift);
      return bendPiece({ piece, rolls }, root, bend);
    }),
  };
}

interface Bend {
  /** Share of the full angle that folds and flaps are turned by, 0 to 1. */
  readonly folds: number;
  readonly flaps: number;
}

const span = (t: number, from: number, to: number): number => Math.min(1, Math.max(0, (t - from) / (to - from)));

/** Slow at both ends. */
const ease = (s: number): number => s * s * (3 - 2 * s);

const bendAt = (t: number, from: number, to: number): number =>
  SPRING * ease(span(t, 0, SCORED)) + (1 - SPRING) * ease(span(t, from, to));

/** When the piece that goes on as number `place` of `count` sets off and when it is on. */
function travelTimes(place: number, count: number): [number, number] {
  const share = count === 1 ? 1 : 0.45;
  const start = count === 1 ? 0 : (place * (1 - share)) / (count - 1);
  return [FOLDED + (1 - FOLDED) * start, FOLDED + (1 - FOLDED) * (start + share)];
}

/** The motion that lays a flat panel on its face of the solid, or on the plane that touches a smooth one in its middle. */
function onFace(solid: Solid, { face, polygon }: Panel): Motion {
  const own = flattenFace(solid, face);
  const toOwn = alignSegments(at(polygon, 0), at(polygon, 1), at(own, 0), at(own, 1));
  return compose(frameMotion(faceFrame(solid, face)), liftMotion(toOwn));
}

/** A piece with the way each of its panels is rolled. */
interface RolledPiece {
  readonly piece: Piece;
  readonly rolls: readonly (PanelRoll | null)[];
}

/** The first panel's motion while the piece rises in its place: turned by `s` of its way, its lowest point on the table. */
function standAt(rolled: RolledPiece, goal: Motion, [x, y]: Vec2, s: number, bend: Bend): Motion {
  const { piece } = rolled;
  const turned = partialTurn(quaternionOf(goal), s);
  const centre: Vec3 = [piece.width / 2, piece.height / 2, 0];
  const points = everyPoint(piece, bendPiece(rolled, turned, bend));
  const middle = ([0, 1] as const).map(
    (i) => (Math.min(...points.map((p) => p[i])) + Math.max(...points.map((p) => p[i]))) / 2,
  ) as [number, number];
  return shifted(turned, [x + centre[0] - middle[0], y + centre[1] - middle[1], -Math.min(...points.map((p) => p[2]))]);
}

/** Up, across and down: the first panel's motion between standing on the table and lying on the roof. Both are turned alike. */
function alongPath(standing: Motion, goal: Motion, travel: number, lift: number): Motion {
  const [from, to] = [standing.move, goal.move];
  const up = ease(span(travel, 0, 0.35));
  const across = ease(span(travel, 0.25, 0.75));
  const down = ease(span(travel, 0.65, 1));
  // A standing piece has its lowest point on the table, so that lifted by this it clears the peak.
  const high = from[2] + lift;
  const z = travel < 0.5 ? from[2] + (high - from[2]) * up : high + (to[2] - high) * down;
  const target: Vec3 = [from[0] + (to[0] - from[0]) * across, from[1] + (to[1] - from[1]) * across, z];
  // The last step is exact: the goal itself, not a sum that comes near it.
  return travel === 1 ? goal : shifted(standing, sub3(target, standing.move));
}

function bendPiece({ piece, rolls }: RolledPiece, root: Motion, bend: Bend): PiecePose {
  if (piece.strip) return bendStrip(piece, root, bend);
  const share = bend.folds;
  const motions: Motion[] = [root];
  for (const fold of piece.folds) {
    const [parent, child] = fold.panels;
    const turn = fold.kind === 'mountain' ? fold.angle : -fold.angle;
    // Both panels may be rolled: out to where the parent's edge has bent to, round the fold, and back from the child's edge.
    const middle = lerp2(...fold.ends, 0.5);
    const out = bentAt(rolls[parent], middle, share);
    const back = inverseMotion(bentAt(rolls[child], middle, share));
    const turned = compose(compose(out, hinge(fold.ends, turn, share)), back);
    motions[child] = compose(motions[parent] as Motion, turned);
  }
  const turnedOver = (flap: Flap | Hem): PartPose => {
    const motion = motions[flap.panel] as Motion;
    const roll = rolls[flap.panel];
    // Where the paper goes straight on, the flap is rolled with its panel.
    if (roll && flap.angle === 0) return { motion, bend: bendOf(roll, share) };
    const [end, start] = flapEnds(flap);
    const turn = flap.kind === 'mountain' ? flap.angle : -flap.angle;
    const turned = compose(bentAt(roll, lerp2(start, end, 0.5), share), hinge([start, end], turn, bend.flaps));
    return { motion: compose(motion, turned), bend: null };
  };
  return {
    panels: motions.map((motion, i) => ({ motion, bend: bendOf(rolls[i], share) })),
    flaps: piece.flaps.map(turnedOver),
    hems: piece.hems.map(turnedOver),
  };
}

/** A seam strip's first half holds still, its second is turned about the line between them. */
function bendStrip({ flaps, strip }: Piece, root: Motion, bend: Bend): PiecePose {
  const [, second] = flaps;
  const turn = second?.kind === 'valley' ? -second.angle : (second?.angle ?? 0);
  const line = (strip as SeamStrip).line;
  return {
    panels: [],
    hems: [],
    flaps: [root, compose(root, hinge(line, turn, bend.flaps))].map((motion) => ({ motion, bend: null })),
  };
}

/** The turn of what lies right of a line drawn from the first end to the second: a mountain fold turns it down. */
const hinge = ([a, b]: readonly [Vec2, Vec2], angle: number, share: number): Motion =>
  turnAbout([...a, 0], [...b, 0], angle * share);

/** A point of a piece laid flat where its panel or flap has been taken. */
export const placePoint = ({ motion, bend }: PartPose, p: Vec2): Vec3 =>
  move3(bend ? compose(motion, bentAt(bend, p, bend.share)) : motion, [...p, 0]);

/** All corners of panels, flaps and hems of a posed piece. */
export function everyPoint(piece: Piece, pose: PiecePose): Vec3[] {
  return [
    ...piece.panels.flatMap(({ polygon }, i) => polygon.map((p) => placePoint(pose.panels[i] as PartPose, p))),
    ...piece.flaps.flatMap(({ polygon }, i) => polygon.map((p) => placePoint(pose.flaps[i] as PartPose, p))),
    ...piece.hems.flatMap(({ polygon }, i) => polygon.map((p) => placePoint(pose.hems[i] as PartPose, p))),
  ];
}

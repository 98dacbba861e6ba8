import {
  alignFrames,
  compose,
  type Motion,
  move3,
  partialTurn,
  quaternionOf,
  shifted,
  turnAbout,
} from '../geometry/motion.ts';
import { at } from '../geometry/polygon.ts';
import { left2, sub2, sub3, unit2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Net, Panel, Piece } from '../net/net.ts';
import { faceFrame, flattenFace } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { FOLDED, SCORED } from './stops.ts';
import { workOrder } from './work-order.ts';

export type { Motion } from '../geometry/motion.ts';

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
      const goal = shifted(onFace(solid, piece.panels[0] as Panel), [0, 0, place.rest]);
      const bend = {
        folds: bendAt(t, SCORED + 0.12, FOLDED),
        flaps: bendAt(t, SCORED, SCORED + 0.2),
      };
      const standing = standAt(piece, goal, [x, y], ease(span(t, SCORED + 0.12, FOLDED)), bend);
      const travel = span(t, ...travelTimes(order.indexOf(p), net.pieces.length));
      const root = travel === 0 ? standing : alongPath(standing, goal, travel, lift);
      return bendPiece(piece, root, bend);
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

/** The motion that lays a flat panel on its face of the solid. */
function onFace(solid: Solid, { face, polygon }: Panel): Motion {
  const frame = faceFrame(solid, face);
  const own = flattenFace(solid, face);
  const x = unit2(sub2(at(polygon, 1), at(polygon, 0)));
  const ownX = unit2(sub2(at(own, 1), at(own, 0)));
  const y = left2(x);
  const ownY = left2(ownX);
  const lifted = ([u, v]: Vec2): Vec3 => [
    frame.x[0] * u + frame.y[0] * v,
    frame.x[1] * u + frame.y[1] * v,
    frame.x[2] * u + frame.y[2] * v,
  ];
  return alignFrames(
    { origin: [...at(polygon, 0), 0], x: [...x, 0], y: [...y, 0] },
    { origin: frame.origin, x: lifted(ownX), y: lifted(ownY) },
  );
}

/** The first panel's motion while the piece rises in its place: turned by `s` of its way, its lowest point on the table. */
function standAt(piece: Piece, goal: Motion, [x, y]: Vec2, s: number, bend: Bend): Motion {
  const turned = partialTurn(quaternionOf(goal), s);
  const centre: Vec3 = [piece.width / 2, piece.height / 2, 0];
  const points = everyPoint(piece, bendPiece(piece, turned, bend));
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

function bendPiece(piece: Piece, root: Motion, bend: Bend): PiecePose {
  const panels: Motion[] = [root];
  for (const {
    ends,
    kind,
    angle,
    panels: [parent, child],
  } of piece.folds) {
    panels[child] = compose(panels[parent] as Motion, hinge(ends, kind === 'mountain' ? angle : -angle, bend.folds));
  }
  return {
    panels,
    flaps: piece.flaps.map(({ panel, polygon, kind, angle }) =>
      compose(
        panels[panel] as Motion,
        // A flap's seam runs against its panel's loop.
        hinge([at(polygon, 1), at(polygon, 0)], kind === 'mountain' ? angle : -angle, bend.flaps),
      ),
    ),
  };
}

/** The turn of what lies right of a line drawn from the first end to the second: a mountain fold turns it down. */
const hinge = ([a, b]: readonly [Vec2, Vec2], angle: number, share: number): Motion =>
  turnAbout([...a, 0], [...b, 0], angle * share);

/** All corners of panels and flaps of a posed piece. */
export function everyPoint(piece: Piece, pose: PiecePose): Vec3[] {
  const lay = (polygon: readonly Vec2[], motion: Motion): Vec3[] => polygon.map(([x, y]) => move3(motion, [x, y, 0]));
  return [
    ...piece.panels.flatMap(({ polygon }, i) => lay(polygon, pose.panels[i] as Motion)),
    ...piece.flaps.flatMap(({ polygon }, i) => lay(polygon, pose.flaps[i] as Motion)),
  ];
}

import { compose, inverseMotion, type Motion, move3, turnAbout } from '../geometry/motion.ts';
import { at } from '../geometry/polygon.ts';
import { alignSegments } from '../geometry/rigid2.ts';
import { add3, lerp2, scale3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { type Flap, flapEnds, type Hem, type Net, type Panel, type Piece, type SeamStrip } from '../net/net.ts';
import { faceFrame, flattenFace, frameMotion, normalAt } from '../solid/face-frame.ts';
import { isFootOnFace } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { bendOf, bentAt, bentPoint, liftMotion, type PanelBend, type PanelRoll, rollOf } from './bend.ts';
import { underFirstFace } from './pose-strip.ts';

/** Where every panel, flap and hem of a piece is at one moment. */
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

/** How far a piece is folded. */
export interface Bend {
  /** Share of the full angle that folds and flaps are turned by, 0 to 1. */
  readonly folds: number;
  readonly flaps: number;
  /** How much further in flaps are held, radians, flap by flap; missing: none. */
  readonly held?: readonly number[];
}

/** A piece with the way each of its panels is rolled. */
export interface RolledPiece {
  readonly piece: Piece;
  readonly rolls: readonly (PanelRoll | null)[];
}

/** The motion of a piece's first panel, or of the first half of a strip, to its place on the solid. */
export const placeOf = (solid: Solid, { panels, strip }: Piece): Motion =>
  strip ? underFirstFace(solid, strip) : onFace(solid, panels[0] as Panel);

/** The motion that lays a flat panel on its face of the solid, or on the plane that touches a smooth one in its middle. */
function onFace(solid: Solid, { face, polygon }: Panel): Motion {
  const own = flattenFace(solid, face);
  const toOwn = alignSegments(at(polygon, 0), at(polygon, 1), at(own, 0), at(own, 1));
  return compose(frameMotion(faceFrame(solid, face)), liftMotion(toOwn));
}

/** A piece folded so far, with its first panel at `root`. */
export function bendPiece({ piece, rolls }: RolledPiece, root: Motion, bend: Bend): PiecePose {
  if (piece.strip) return bendStrip(piece, root, bend);
  const share = bend.folds;
  const motions: Motion[] = [root];
  for (const fold of piece.folds) {
    const [parent, child] = fold.panels;
    const turn = fold.kind === 'mountain' ? fold.angle : -fold.angle;
    let turned = hinge(fold.ends, turn * share);
    // Both panels may be rolled: out to where the parent's edge has bent to, round the fold, and back from the child's edge.
    const middle = lerp2(...fold.ends, 0.5);
    if (rolls[parent]) turned = compose(bentAt(rolls[parent], middle, share), turned);
    if (rolls[child]) turned = compose(turned, inverseMotion(bentAt(rolls[child], middle, share)));
    motions[child] = compose(motions[parent] as Motion, turned);
  }
  const turnedOver = (flap: Flap | Hem, held = 0): PartPose => {
    const motion = motions[flap.panel] as Motion;
    const roll = rolls[flap.panel];
    // Where the paper goes straight on, the flap is rolled with its panel.
    if (roll && flap.angle === 0) return { motion, bend: bendOf(roll, share) };
    const [end, start] = flapEnds(flap);
    const turn = flap.kind === 'mountain' ? flap.angle : -flap.angle;
    const turned = hinge([start, end], turn * bend.flaps + held);
    const bent = roll ? compose(bentAt(roll, lerp2(start, end, 0.5), share), turned) : turned;
    return { motion: compose(motion, bent), bend: null };
  };
  return {
    panels: motions.map((motion, i) => ({ motion, bend: bendOf(rolls[i], share) })),
    flaps: piece.flaps.map((flap, i) => turnedOver(flap, bend.held?.[i])),
    hems: piece.hems.map((hem) => turnedOver(hem)),
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
    flaps: [root, compose(root, hinge(line, turn * bend.flaps))].map((motion) => ({ motion, bend: null })),
  };
}

/** The turn of what lies right of a line drawn from the first end to the second: a mountain fold turns it down. */
const hinge = ([a, b]: readonly [Vec2, Vec2], angle: number): Motion => turnAbout([...a, 0], [...b, 0], angle);

/** A point of a piece laid flat where its panel or flap has been taken. */
export const placePoint = ({ motion, bend }: PartPose, p: Vec2): Vec3 =>
  move3(motion, bend ? bentPoint(bend, p) : [p[0], p[1], 0]);

/** A flap where it is glued, in the frame of the solid. */
export interface FlapAtRest {
  /** On the panel that it is glued to. */
  readonly ring: readonly Vec3[];
  /** The same a little inside that panel, as it comes to lie under it and not on it. */
  readonly sunk: readonly Vec3[];
}

/** The flaps of a piece where they are glued. `held`: how much further in each is held, radians. Without those that are rolled with their panel. */
export function flapsAtRest(solid: Solid, net: Net, p: number, held: readonly number[]): readonly FlapAtRest[] {
  const piece = net.pieces[p] as Piece;
  const rolls = piece.panels.map((panel) => rollOf(solid, panel));
  const { flaps } = bendPiece({ piece, rolls }, placeOf(solid, piece), { folds: 1, flaps: 1, held });
  return piece.flaps.flatMap(({ edge, to, polygon }, i) => {
    const pose = flaps[i] as PartPose;
    if (pose.bend) return [];
    const ring = polygon.map((point) => placePoint(pose, point));
    const normal = normalAt(solid.vertices, solid.faces[to] as Solid['faces'][number], ring[0] as Vec3);
    const under = scale3(normal, isFootOnFace(solid, edge) ? UNDER_MM : -UNDER_MM);
    return [{ ring, sunk: ring.map((point) => add3(point, under)) }];
  });
}

/** A flap is thought to lie so far under the panel it is glued to, mm. */
const UNDER_MM = 0.3;

/** All corners of panels, flaps and hems of a posed piece. */
export function everyPoint(piece: Piece, pose: PiecePose): Vec3[] {
  return [
    ...piece.panels.flatMap(({ polygon }, i) => polygon.map((p) => placePoint(pose.panels[i] as PartPose, p))),
    ...piece.flaps.flatMap(({ polygon }, i) => polygon.map((p) => placePoint(pose.flaps[i] as PartPose, p))),
    ...piece.hems.flatMap(({ polygon }, i) => polygon.map((p) => placePoint(pose.hems[i] as PartPose, p))),
  ];
}

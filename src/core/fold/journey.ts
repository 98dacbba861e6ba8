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
import { boxOf } from '../geometry/polygon.ts';
import { add3, scale3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Approach } from './approach.ts';
import { type Bend, bendPiece, everyPoint, type RolledPiece } from './bend-piece.ts';
import { FOLDED } from './stops.ts';

export const span = (t: number, from: number, to: number): number => Math.min(1, Math.max(0, (t - from) / (to - from)));

/** Slow at both ends. */
export const ease = (s: number): number => s * s * (3 - 2 * s);

/** The next piece sets off when one has come down to this share of its way. */
const HANDED_ON = 0.6;

/** A piece is in its place from this share of its way on; then flaps that were held in spring back. */
export const IN = 0.94;

/** When the piece that goes on as number `place` of `count` sets off and when it is on. */
export function travelTimes(place: number, count: number): [number, number] {
  const share = 1 / (1 + HANDED_ON * (count - 1));
  const start = place * HANDED_ON * share;
  return [FOLDED + (1 - FOLDED) * start, FOLDED + (1 - FOLDED) * (start + share)];
}

/** How far a motion turns what lies on the table about the upright, radians: by where it takes the page's level line. */
const yawOf = ({ rotation: [x, y] }: Motion): number => Math.atan2(y[0], x[0]);

const turnedLevel = (motion: Motion, angle: number): Motion => compose(turnAbout([0, 0, 0], [0, 0, 1], angle), motion);

/** A piece as it goes on, but as if it went on at the front. */
export const facingFront = (goal: Motion): Motion => turnedLevel(goal, -yawOf(goal));

/** A piece that stands on the table. */
interface Standing {
  /** Of its first panel. */
  readonly motion: Motion;
  /** The middle of the room it takes, where its lowest point is; in the frame of the table. */
  readonly middle: Vec3;
}

/** A piece while it rises in its place: turned by `s` of its way, its lowest point on the table. */
export function standAt(rolled: RolledPiece, goal: Motion, [x, y]: Vec2, s: number, bend: Bend): Standing {
  const { piece } = rolled;
  const turned = partialTurn(quaternionOf(goal), s);
  const points = everyPoint(piece, bendPiece(rolled, turned, bend));
  const { minX, minY, maxX, maxY } = boxOf(points);
  const centre = [(minX + maxX) / 2, (minY + maxY) / 2] as const;
  const middle: Vec3 = [x + piece.width / 2, y + piece.height / 2, 0];
  const lowest = points.reduce((least, p) => Math.min(least, p[2]), Number.POSITIVE_INFINITY);
  return { motion: shifted(turned, sub3(middle, [centre[0], centre[1], lowest])), middle };
}

/**
 * Up, across, down and in: the first panel's motion between standing on the table and lying on the roof. In the air the piece is
 * turned to the side of the roof that it goes on.
 */
export function alongPath(
  { motion: standing, middle: from }: Standing,
  goal: Motion,
  travel: number,
  { lift, approach: { out, distance } }: { readonly lift: number; readonly approach: Approach },
): Motion {
  // The last step is exact: the goal itself, not a sum that comes near it.
  if (travel >= IN) return goal;
  const held = move3(inverseMotion(standing), from);
  const end = move3(goal, held);
  const before = add3(end, scale3(out, distance));
  const isStraightDown = Math.hypot(out[0], out[1]) === 0;
  const [up, across] = [ease(span(travel, 0, 0.3)), ease(span(travel, 0.25, HANDED_ON))];
  const down = ease(span(travel, HANDED_ON, isStraightDown ? IN : 0.78));
  const into = isStraightDown ? 0 : ease(span(travel, 0.78, IN));
  const low = isStraightDown ? end[2] : before[2];
  const outside: Vec3 = [
    from[0] + (before[0] - from[0]) * across,
    from[1] + (before[1] - from[1]) * across,
    // A standing piece has its lowest point on the table, so that lifted by this it clears the peak.
    travel < HANDED_ON ? from[2] + lift * up : from[2] + lift + (low - from[2] - lift) * down,
  ];
  const turned = turnedLevel(standing, yawOf(goal) * ease(span(travel, 0.3, HANDED_ON)));
  const target = add3(outside, scale3(sub3(end, before), into));
  return shifted(turned, sub3(target, move3(turned, held)));
}

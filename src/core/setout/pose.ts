import type { Rigid2 } from '../geometry/rigid2.ts';
import { distance2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { isSameAngle } from '../tolerance.ts';

/** How a piece lies on a strip: turned over left to right first where it is mirrored, then turned, then moved. */
export interface Pose {
  readonly isMirrored: boolean;
  readonly cos: number;
  readonly sin: number;
  readonly move: Vec2;
}

export const applyPose = ({ isMirrored, cos, sin, move }: Pose, [px, y]: Vec2): Vec2 => {
  const x = isMirrored ? -px : px;
  return [cos * x - sin * y + move[0], sin * x + cos * y + move[1]];
};

/** A piece placed on a sheet as it is seen from the side that is up; `width` of the sheet, mm. */
export const seenPose = ({ cos, sin, move }: Rigid2, width: number, isMirrored: boolean): Pose =>
  isMirrored ? { isMirrored, cos, sin: 0 - sin, move: [width - move[0], move[1]] } : { isMirrored, cos, sin, move };

export const movePose = (pose: Pose, by: Vec2): Pose => ({
  ...pose,
  move: [pose.move[0] + by[0], pose.move[1] + by[1]],
});

/** The same way up and to the side: turned by whole quarters. */
export const isSquare = ({ cos, sin }: Pose): boolean => isSameAngle(cos * sin, 0);

/** The pose that lays the point p at p2 and the direction from p to q along that from p2 to q2. */
export function poseBetween(isMirrored: boolean, [p, q]: readonly [Vec2, Vec2], [p2, q2]: readonly [Vec2, Vec2]): Pose {
  const seen = ([x, y]: Vec2): Vec2 => [isMirrored ? -x : x, y];
  const [u, v] = [unit2(sub2(seen(q), seen(p))), unit2(sub2(q2, p2))];
  const cos = u[0] * v[0] + u[1] * v[1];
  const sin = u[0] * v[1] - u[1] * v[0];
  const turned = applyPose({ isMirrored, cos, sin, move: [0, 0] }, p);
  return { isMirrored, cos, sin, move: sub2(p2, turned) };
}

/** The line of a piece at an angle that all else is measured from, or that a template is laid by, and the marks of its two ends. */
export interface Base {
  /** mm from the origin of the piece. */
  readonly ends: readonly [Vec2, Vec2];
  /** On the strip: where the edge begins, and in which direction it goes. */
  readonly marks: readonly [Vec2, Vec2];
}

/** Whether two points are the ends of a line worth taking a direction from. */
export const isLonger = (a: readonly [Vec2, Vec2], b: readonly [Vec2, Vec2]): boolean =>
  distance2(...a) > distance2(...b);

import { compose, inverseMotion, type Motion, move3 } from '../geometry/motion.ts';
import { at } from '../geometry/polygon.ts';
import { alignSegments, type Rigid2 } from '../geometry/rigid2.ts';
import type { Vec2, Vec3 } from '../geometry/vector.ts';
import type { Panel } from '../net/net.ts';
import { bendMotion, bendPoint, type RolledSurface } from '../solid/roll.ts';
import type { Solid } from '../solid/solid.ts';

/** How a panel is rolled where it lies on its piece. */
export interface PanelRoll {
  readonly surface: RolledSurface;
  /** From the piece to the panel's own flat frame. */
  readonly toOwn: Motion;
  readonly fromOwn: Motion;
}

/** A panel rolled by a share of its way, 0 to 1. */
export interface PanelBend extends PanelRoll {
  readonly share: number;
}

/** A motion of the plane as one of space. */
export const liftMotion = ({ cos, sin, move: [x, y] }: Rigid2): Motion => ({
  rotation: [
    [cos, -sin, 0],
    [sin, cos, 0],
    [0, 0, 1],
  ],
  move: [x, y, 0],
});

export function rollOf(solid: Solid, { face, polygon }: Panel): PanelRoll | null {
  const roll = solid.faces[face]?.roll;
  if (!roll) return null;
  const toOwn = liftMotion(alignSegments(at(polygon, 0), at(polygon, 1), at(roll.flat, 0), at(roll.flat, 1)));
  return { surface: roll.surface, toOwn, fromOwn: inverseMotion(toOwn) };
}

export const bendOf = (roll: PanelRoll | null | undefined, share: number): PanelBend | null =>
  roll ? { ...roll, share } : null;

/** The motion that carries the paper round a point of the piece laid flat to where rolling takes it. */
export function bentAt(roll: PanelRoll, p: Vec2, share: number): Motion {
  const [u, v] = move3(roll.toOwn, [...p, 0]);
  return compose(roll.fromOwn, compose(bendMotion(roll.surface, [u, v], share), roll.toOwn));
}

/** Where a point of the piece laid flat is once its panel is rolled, in the frame of the piece. */
export function bentPoint({ surface, toOwn, fromOwn, share }: PanelBend, [x, y]: Vec2): Vec3 {
  const [u, v] = move3(toOwn, [x, y, 0]);
  return move3(fromOwn, bendPoint(surface, [u, v], share));
}

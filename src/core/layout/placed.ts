import { apply2, type Rigid2 } from '../geometry/rigid2.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { isSameAngle } from '../tolerance.ts';
import type { PieceToLay, Placement } from './layout.ts';

/** The motion that a placement stands for. */
export const placementMotion = ({ x, y, rotation }: Pick<Placement, 'x' | 'y' | 'rotation'>): Rigid2 => ({
  // Quarter and half turns are meant exactly; cos(pi / 2) is not 0 in floating point.
  cos: cleaned(Math.cos(rotation)),
  sin: cleaned(Math.sin(rotation)),
  move: [x, y],
});

const cleaned = (value: number): number => (isSameAngle(value, Math.round(value)) ? Math.round(value) : value);

/** A piece's outline where it lies on its sheet. */
export function laidRing(
  { outline }: Pick<PieceToLay, 'outline'>,
  placement: Pick<Placement, 'x' | 'y' | 'rotation'>,
): readonly Vec2[] {
  const motion = placementMotion(placement);
  return outline.map((p) => apply2(motion, p));
}

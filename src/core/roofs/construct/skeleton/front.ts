import type { Vec2 } from '../../../geometry/vector.ts';

/** One sloping plane of the roof: an eave edge in one stage of its profile. Its front moves inward as the level rises. */
export interface Plane {
  /** Index of the eave edge in the input, and of the stage in its profile. */
  readonly edge: number;
  readonly stage: number;
  /** Unit vector along the eave, outline to the left; and the unit normal to its left, pointing in. */
  readonly along: Vec2;
  readonly inward: Vec2;
  /** The front is the line `inward · p = start + speed * (z - level)`. */
  readonly start: number;
  readonly level: number;
  /** Run per rise: the cotangent of the pitch; 0 for an upright gable. */
  readonly speed: number;
}

export const frontAt = (plane: Plane, z: number): number => plane.start + plane.speed * (z - plane.level);

/** A corner of the front, travelling from its birth up the hip or valley between two planes. */
export interface Corner {
  /** Index of the node where it was born. */
  readonly node: number;
  readonly at: Vec2;
  readonly level: number;
  /** Plan velocity per rise. */
  readonly velocity: Vec2;
  readonly isReflex: boolean;
  into: Side;
  out: Side;
  isAlive: boolean;
}

/** A piece of a plane's front between two corners. */
export interface Side {
  readonly plane: Plane;
  readonly from: Corner;
  readonly to: Corner;
  isAlive: boolean;
}

export const cornerAt = ({ at, level, velocity }: Corner, z: number): Vec2 => [
  at[0] + velocity[0] * (z - level),
  at[1] + velocity[1] * (z - level),
];

/** How two planes' fronts stand to each other, by the directions along them. */
export type Meeting = 'turned' | 'in-line' | 'opposed';

/** `parallel`: sine below which two directions count as parallel. */
export function meetingOf(into: Plane, out: Plane, parallel: number): Meeting {
  const [a, b] = [into.along, out.along];
  if (Math.abs(a[0] * b[1] - a[1] * b[0]) > parallel) return 'turned';
  return a[0] * b[0] + a[1] * b[1] > 0 ? 'in-line' : 'opposed';
}

/** Velocity of the corner between two fronts: it stays on both lines. In line, it goes straight in with them. */
export function velocityBetween(into: Plane, out: Plane, parallel: number): Vec2 {
  const [m, n] = [into.inward, out.inward];
  const turn = m[0] * n[1] - m[1] * n[0];
  if (meetingOf(into, out, parallel) !== 'turned') return [n[0] * out.speed, n[1] * out.speed];
  return [(into.speed * n[1] - out.speed * m[1]) / turn, (out.speed * m[0] - into.speed * n[0]) / turn];
}

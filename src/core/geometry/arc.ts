import { ROLL_MM } from '../tolerance.ts';

/** Steps in which a curve is sampled so that the chords keep within a hundredth of a millimetre of it. */
export const stepsFor = (radius: number, angle: number): number =>
  Math.max(4, Math.ceil(angle / (2 * Math.acos(Math.max(0.5, 1 - ROLL_MM / radius)))));

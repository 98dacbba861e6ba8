import { ROLL_MM } from '../tolerance.ts';

/** Steps in which a curve is sampled so that the chords keep within a hundredth of a millimetre of it. */
export const stepsFor = (radius: number, angle: number, near = ROLL_MM): number =>
  Math.max(4, Math.ceil(angle / (2 * Math.acos(Math.max(0.5, 1 - near / radius)))));

/** The same for a curve of a roof, so that it may grow by a tenth: a layer over the roof then keeps its samples. */
export const roofSteps = (radius: number, angle: number): number => stepsFor(radius, angle, 0.9 * ROLL_MM);

/**
 * The only place with comparison constants. Inside the program lengths are mm and angles radians.
 *
 * Paper thickness, play and clearance are parameters a maker sets; they never live here.
 */

/**
 * One millionth of a millimetre: two computed points that are meant to be one.
 * At 1,000 mm a double steps by about 1e-13 mm, so this lies far above noise and far below paper.
 */
export const NOISE_MM = 1e-6;

/** A thousandth of that: an edge between points as near as this has no direction to speak of. */
export const HAIR_MM = 1e-9;

/** One thousand-millionth of a radian: two directions that are meant to be parallel, two planes meant to be one. */
export const NOISE_RAD = 1e-9;

/** One millionth of a square millimetre: an overlap this small is noise, not paper. */
export const NOISE_MM2 = 1e-6;

/** A tenth of the noise: pieces on a sheet that reach no further into each other touch. Leaves room for the sums of a check. */
export const TOUCH_MM = 1e-7;

/** A tenth of a micrometre: corners of different parts that are meant to be one, though each was worked out by itself. */
export const SNAP_MM = 1e-4;

/** A hundredth of a millimetre: where a curve is sampled, its chords keep this near to it. */
export const ROLL_MM = 0.01;

/** A tenth of a millimetre: the smallest thing that scissors, a knife or a printer can show. */
export const CUT_MM = 0.1;

export const isSameLength = (a: number, b: number): boolean => Math.abs(a - b) <= NOISE_MM;

/** a is at most b, up to noise. */
export const isAtMost = (a: number, b: number): boolean => a <= b + NOISE_MM;

/** Above zero by more than noise. */
export const isPositive = (length: number): boolean => length > NOISE_MM;

export const isSameAngle = (a: number, b: number): boolean => Math.abs(a - b) <= NOISE_RAD;

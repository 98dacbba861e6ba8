/** How often a law is tried: `npm run test:deep` multiplies every count. */
const multiplier = Number(process.env['SPIREWRIGHT_RUNS'] ?? '1');

/** `{ numRuns: runs(1000) }`: pass every explicit count through here, so that the deep run deepens it too. */
export const runs = (count: number): number => Math.max(1, Math.round(count * multiplier));

/** Panels of a roof up to which a law is tried in full. */
const FEW = 12;

/** Tries that roofs of any number of panels get: in 20 times, 200 of every law. */
const LEAST = multiplier > 1 ? 10 : 2;

/**
 * As many tries of a law as roofs of so many panels allow: proving a net compares its parts with each other, so that its time
 * grows with the square of their number. Every kind is tried `LEAST` times at least; where not deep, no more than `count`.
 */
export const runsOver = (panels: number, count: number): number => {
  const least = multiplier > 1 ? LEAST : Math.min(LEAST, count);
  return runs(Math.max(least, panels <= FEW ? count : count * (FEW / panels) ** 2));
};

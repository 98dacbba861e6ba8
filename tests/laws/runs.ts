/** How often a law is tried: `npm run test:deep` multiplies every count. */
const multiplier = Number(process.env['SPIREWRIGHT_RUNS'] ?? '1');

/** `{ numRuns: runs(1000) }`: pass every explicit count through here, so that the deep run deepens it too. */
export const runs = (count: number): number => Math.max(1, Math.round(count * multiplier));

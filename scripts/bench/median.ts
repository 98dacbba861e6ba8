export const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
};

/**
 * Time of one call of each piece of work, ms: the median of many runs, taken in turn so that a slow moment of the
 * machine meets all of them alike. A run repeats short work until it takes about `least` ms. `trials`: calls before the
 * first run, for the compiler to warm up and to see how long one takes.
 */
export function timeInTurn(work: readonly (() => void)[], rounds = 61, least = 2, trials = 20): readonly number[] {
  const repeats = work.map((one) => {
    for (let i = 0; i < trials; i++) one();
    const once = timed(one, trials) / trials;
    return Math.max(1, Math.ceil(least / once));
  });
  const times = work.map((): number[] => []);
  for (let round = 0; round < rounds; round++)
    work.forEach((one, index) => {
      const count = repeats[index] ?? 1;
      times[index]?.push(timed(one, count) / count);
    });
  return times.map(median);
}

const timed = (work: () => void, count: number): number => {
  const start = performance.now();
  for (let i = 0; i < count; i++) work();
  return performance.now() - start;
};

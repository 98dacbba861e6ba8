import { costOf, isCheaper } from './compare.ts';
import type { LayoutEffort } from './effort.ts';
import { type LayoutJob, readyLayout } from './job.ts';
import type { Layout } from './layout.ts';
import { nestSheets } from './nest/nest.ts';
import { nestTask } from './nest-problem.ts';
import { quickLayout } from './quick-layout.ts';
import { searchStrips } from './strips/strip-layout.ts';

/** The best layout so far, complete and valid. */
export interface LayoutStep {
  readonly layout: Layout;
  /** Whether it is better than the one before it. */
  readonly isBetter: boolean;
}

/**
 * Lays the pieces of a job and goes on to better layouts; what is fixed stays. The first step comes at once, every step is a
 * complete valid layout, none worse than the one before. The same job and rounds give the same layouts to the last digit.
 */
export function* searchLayout(given: LayoutJob, effort: LayoutEffort): Generator<LayoutStep, void> {
  const job = readyLayout(given);
  if (job.rules.cuts === 'strips') {
    yield* searchStrips(job, effort);
    return;
  }
  let best = quickLayout(job);
  yield { layout: best, isBetter: true };
  const { rounds, share = (step: number) => step / Math.max(1, rounds) } = effort;
  // Rows know upright rectangles only: what they leave out may have a place between slopes.
  if (rounds <= 0 && best.leftOut.length === 0) return;
  let least = costOf(job, best);
  let steps = 0;
  const { problem, read } = nestTask(job);
  for (const step of nestSheets(problem, { rounds: Number.POSITIVE_INFINITY, seed: job.seed, share })) {
    let isBetter = false;
    if (step.isBetter) {
      const layout = read(step.layout);
      const cost = costOf(job, layout);
      isBetter = isCheaper(cost, least);
      if (isBetter) [best, least] = [layout, cost];
    }
    yield { layout: best, isBetter };
    steps++;
    if (steps >= rounds || share(steps) >= 1) return;
  }
}

/** Rounds that a few pieces of some corners are worth, and how fast that falls with all their corners. */
const MOST_ROUNDS = 40;
const ROUNDS_BY_CORNERS = 1e6;

/** As many rounds as take about a second: the work of one grows with the square of the corners. */
export function usualEffort({ pieces }: Pick<LayoutJob, 'pieces'>): LayoutEffort {
  const corners = pieces.reduce((sum, { outline }) => sum + outline.length, 0);
  return { rounds: Math.max(1, Math.min(MOST_ROUNDS, Math.round(ROUNDS_BY_CORNERS / corners ** 2))) };
}

/** The best layout that a search comes to. */
export function bestLayout(job: LayoutJob, effort: LayoutEffort): Layout {
  let best: Layout = { sheets: [], leftOut: [] };
  for (const { layout } of searchLayout(job, effort)) best = layout;
  return best;
}

import { costOf, isCheaper } from './compare.ts';
import { type LayoutJob, readyLayout } from './job.ts';
import type { Layout } from './layout.ts';
import { nestSheets } from './nest/nest.ts';
import { nestTask } from './nest-problem.ts';
import { quickLayout } from './quick-layout.ts';

/** The best layout so far, complete and valid. */
export interface LayoutStep {
  readonly layout: Layout;
  /** Whether it is better than the one before it. */
  readonly isBetter: boolean;
}

export interface LayoutEffort {
  /** Steps of search after the first layout. */
  readonly rounds: number;
  /** Share of the work that is done, 0 to 1, by what the caller counts, such as a clock; left out: steps over rounds. */
  readonly share?: (step: number) => number;
}

/**
 * Lays the pieces of a job and goes on to better layouts; what is fixed stays. The first step comes at once, every step is a
 * complete valid layout, none worse than the one before. The same job and rounds give the same layouts to the last digit.
 */
export function* searchLayout(given: LayoutJob, effort: LayoutEffort): Generator<LayoutStep, void> {
  const job = readyLayout(given);
  let best = quickLayout(job);
  yield { layout: best, isBetter: true };
  if (effort.rounds <= 0) return;
  let least = costOf(job, best);
  const { problem, read } = nestTask(job);
  for (const step of nestSheets(problem, { ...effort, seed: job.seed })) {
    let isBetter = false;
    if (step.isBetter) {
      const layout = read(step.layout);
      const cost = costOf(job, layout);
      isBetter = isCheaper(cost, least);
      if (isBetter) [best, least] = [layout, cost];
    }
    yield { layout: best, isBetter };
  }
}

/** The best layout that a search comes to. */
export function bestLayout(job: LayoutJob, effort: LayoutEffort): Layout {
  let best: Layout = { sheets: [], leftOut: [] };
  for (const { layout } of searchLayout(job, effort)) best = layout;
  return best;
}

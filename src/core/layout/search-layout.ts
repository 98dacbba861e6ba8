import { type Choice, cheaperSheets, choicesOf, jobOfChoice, priceOf, sheetsOf, withSheets } from './cheapest.ts';
import { costOf, isCheaper } from './compare.ts';
import type { LayoutEffort } from './effort.ts';
import { type LayoutJob, readyLayout } from './job.ts';
import type { Layout } from './layout.ts';
import { nestSheets } from './nest/nest.ts';
import { nestTask } from './nest-problem.ts';
import { quickLayout } from './quick-layout.ts';
import { STARTS, searchStrips } from './strips/strip-layout.ts';

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
  yield* job.rules.cuts === 'strips' ? searchInStrips(job, effort) : searchFree(job, effort);
}

function* searchFree(job: LayoutJob, effort: LayoutEffort): Generator<LayoutStep, void> {
  const first = quickLayout(job);
  yield { layout: first, isBetter: true };
  const { rounds, share = (step: number) => step / Math.max(1, rounds) } = effort;
  if (rounds <= 0 && !mayBeMissed(job, first)) return;
  const { owned, ...cheapest } = yield* onCheaperSheets(job, first, laidOnce, effort);
  if (share(0) >= 1) return;
  let { best, least } = cheapest;
  let steps = 0;
  const { problem, read } = nestTask(owned);
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

function* searchInStrips(job: LayoutJob, effort: LayoutEffort): Generator<LayoutStep, void> {
  let first: Layout = { sheets: [], leftOut: [] };
  for (const { layout } of searchStrips(job, { rounds: 0 })) first = layout;
  yield { layout: first, isBetter: true };
  const { owned, ...cheapest } = yield* onCheaperSheets(job, first, laidInStrips, effort);
  let { best, least } = cheapest;
  for (const { layout, isBetter: isChanged } of searchStrips(owned, effort)) {
    const cost = isChanged ? costOf(job, layout) : least;
    const isBetter = isCheaper(cost, least);
    if (isBetter) [best, least] = [layout, cost];
    yield { layout: best, isBetter };
  }
}

interface Cheapest {
  readonly best: Layout;
  /** What it costs. */
  readonly least: readonly number[];
  /** The job with no more new sheets than it takes of papers that can stand in for each other. */
  readonly owned: LayoutJob;
}

/** Goes on from a first layout to sheets that cost less together, where the least price is asked for. */
function* onCheaperSheets(
  job: LayoutJob,
  first: Layout,
  laid: (job: LayoutJob) => Layout | null,
  { rounds, share = () => 0 }: LayoutEffort,
): Generator<LayoutStep, Cheapest> {
  let best = first;
  let least = costOf(job, best);
  let owned = job;
  for (const choice of rounds > 0 ? choicesOf(job) : []) {
    for (const step of cheaperLayouts(job, choice, best, laid)) {
      const isBetter = step !== null && isCheaper(costOf(job, step), least);
      if (isBetter) {
        [best, least] = [step, costOf(job, step)];
        owned = withSheets(owned, choice, sheetsOf(job, best));
      }
      yield { layout: best, isBetter };
      if (share(0) >= 1) return { best, least, owned };
    }
  }
  return { best, least, owned };
}

/**
 * Layouts with sheets of one choice that cost less, the cheapest that is found last; null for each try in vain. The counts that have
 * room by area are tried from the cheapest on, and the first that holds all pieces ends it.
 */
function* cheaperLayouts(
  job: LayoutJob,
  choice: Choice,
  first: Layout,
  laid: (job: LayoutJob) => Layout | null,
): Generator<Layout | null, void> {
  if (first.leftOut.some((i) => choice.pieces.includes(i))) return;
  const part = jobOfChoice(job, choice);
  const others = first.sheets.filter(({ stock }) => !choice.stock.includes(stock));
  for (const counts of cheaperSheets(job, choice, priceOf(job, choice, first))) {
    const found = laid(withSheets(part, choice, counts));
    if (found === null) {
      yield null;
      continue;
    }
    const sheets = [...others, ...found.sheets].sort((a, b) => a.stock - b.stock || a.index - b.index);
    yield { ...first, sheets };
    return;
  }
}

/** A layout of all pieces of a job, as it is found without a search; null where none is. */
function laidOnce(job: LayoutJob): Layout | null {
  const quick = quickLayout(job);
  if (quick.leftOut.length === 0) return quick;
  const { problem, read } = nestTask(job);
  for (const { layout } of nestSheets(problem, { seed: job.seed, rounds: 0 }))
    if (layout.leftOut.length === 0) return read(layout);
  return null;
}

/** The same in strips. */
function laidInStrips(job: LayoutJob): Layout | null {
  for (const { layout } of searchStrips(job, { rounds: STARTS })) if (layout.leftOut.length === 0) return layout;
  return null;
}

/** Corners of pieces that a first search takes no more than a moment for. */
const FEW_CORNERS = 300;

/** Whether pieces may have a place that the first layout does not find: it knows upright rectangles only. */
const mayBeMissed = (job: LayoutJob, { leftOut }: Layout): boolean =>
  leftOut.length > 0 &&
  (job.fixed.length > 0 || job.stock.some(({ outline }) => outline !== undefined)) &&
  cornersOf(job) < FEW_CORNERS;

const cornersOf = ({ pieces }: Pick<LayoutJob, 'pieces'>): number =>
  pieces.reduce((sum, { outline }) => sum + outline.length, 0);

/** Rounds that a few pieces of some corners are worth, and how fast that falls with all their corners. */
const MOST_ROUNDS = 40;
const ROUNDS_BY_CORNERS = 1e6;

/** As many rounds as take about a second: the work of one grows with the square of the corners. */
export const usualEffort = (job: Pick<LayoutJob, 'pieces'>): LayoutEffort => ({
  rounds: Math.max(1, Math.min(MOST_ROUNDS, Math.round(ROUNDS_BY_CORNERS / cornersOf(job) ** 2))),
});

/** The best layout that a search comes to. */
export function bestLayout(job: LayoutJob, effort: LayoutEffort): Layout {
  let best: Layout = { sheets: [], leftOut: [] };
  for (const { layout } of searchLayout(job, effort)) best = layout;
  return best;
}

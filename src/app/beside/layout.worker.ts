import type { LayoutJob } from '../../core/layout/job.ts';
import type { Layout } from '../../core/layout/layout.ts';
import { searchLayout } from '../../core/layout/search-layout.ts';

/** What the worker is asked: so many rounds, which any machine answers alike, but no longer than so many seconds. */
export interface LayoutTask {
  readonly job: LayoutJob;
  readonly rounds: number;
  readonly seconds: number;
}

/** Every message is a whole layout, the best so far. */
export interface LayoutNews {
  readonly layout: Layout;
  readonly isBetter: boolean;
  /** Share of the work that is done, 0 to 1. */
  readonly share: number;
  readonly isDone: boolean;
}

/** Messages that say nothing new but how far the work is come no more often, ms. */
const PAUSE = 200;

/** Looks for better layouts beside the page, so that the page stays at hand meanwhile. */
addEventListener('message', ({ data: { job, rounds, seconds } }: MessageEvent<LayoutTask>) => {
  const start = performance.now();
  const tell = (news: LayoutNews): void => postMessage(news);
  const elapsed = (): number => (performance.now() - start) / 1000;
  const shareOf = (count: number): number => Math.max(count / rounds, elapsed() / seconds);
  let layout: Layout | null = null;
  let step = 0;
  let told = Number.NEGATIVE_INFINITY;
  for (const next of searchLayout(job, { rounds, share: shareOf })) {
    layout = next.layout;
    const isDue = performance.now() - told >= PAUSE;
    if (next.isBetter || isDue) {
      told = performance.now();
      tell({ ...next, share: Math.min(1, shareOf(step)), isDone: false });
    }
    step += 1;
  }
  if (layout !== null) tell({ layout, isBetter: false, share: 1, isDone: true });
});

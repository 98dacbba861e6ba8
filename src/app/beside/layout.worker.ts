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

/** Messages come no more often, so that the page is not busy with them, ms. */
const PAUSE = 250;

/** Looks for better layouts beside the page, so that the page stays at hand meanwhile. */
addEventListener('message', ({ data: { job, rounds, seconds } }: MessageEvent<LayoutTask>) => {
  const start = performance.now();
  const tell = (news: LayoutNews): void => postMessage(news);
  const elapsed = (): number => (performance.now() - start) / 1000;
  const shareOf = (count: number): number => Math.max(count / rounds, elapsed() / seconds);
  let layout: Layout | null = null;
  let [step, told, isBetter] = [0, Number.NEGATIVE_INFINITY, false];
  for (const next of searchLayout(job, { rounds, share: shareOf })) {
    layout = next.layout;
    isBetter ||= next.isBetter;
    if (performance.now() - told >= PAUSE) {
      tell({ layout, isBetter, share: Math.min(1, shareOf(step)), isDone: false });
      [told, isBetter] = [performance.now(), false];
    }
    step += 1;
  }
  if (layout !== null) tell({ layout, isBetter, share: 1, isDone: true });
});

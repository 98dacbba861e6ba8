import { bench } from './bench.ts';

let running = 0;

const prefersStill = (): boolean => window.matchMedia('(prefers-reduced-motion: reduce)').matches;

/** Moves the fold to `t` at a hand's pace, at once where motion is not wanted; null only stops a journey. */
export const travelTo = (target: number | null): void => {
  cancelAnimationFrame(running);
  if (target === null) return;
  const from = bench.store.getState().t;
  if (prefersStill() || from === target) {
    bench.store.setState({ t: target });
    return;
  }
  // From flat to on the body in about three seconds; short ways never under half a second.
  const duration = Math.max(500, Math.abs(target - from) * 3000);
  let start: number | null = null;
  const frame = (now: number): void => {
    start ??= now;
    const share = Math.min(1, (now - start) / duration);
    const eased = share * share * (3 - 2 * share);
    bench.store.setState({ t: share === 1 ? target : from + (target - from) * eased });
    if (share < 1) running = requestAnimationFrame(frame);
  };
  running = requestAnimationFrame(frame);
};

import type { Issue } from '../core/issue.ts';
import type { Production } from '../core/pipeline.ts';
import { bench, openText, readNow } from './bench.ts';
import type { Place } from './state/bench-store.ts';
import type { JsonObject } from './state/file-path.ts';

/**
 * The one handle on the bench for browser tests and for a look from the console; the page itself never uses it.
 *
 *     spirewright.open(text)    opens a project file from its text; resolves to true when it reads well
 *     spirewright.setT(0.6)     moves the fold at once, without travelling; 0 flat to 1 on the body
 *     spirewright.getState()    what the bench holds and shows now; plain data
 */
interface BenchHandle {
  readonly getState: () => {
    readonly file: JsonObject;
    readonly selected: number;
    readonly place: Place;
    readonly t: number;
    /** What is on screen: the last production that worked. */
    readonly production: Production | null;
    readonly isCurrent: boolean;
    readonly issues: readonly Issue[];
  };
  readonly open: (text: string) => Promise<boolean>;
  readonly setT: (t: number) => void;
}

declare global {
  interface Window {
    spirewright?: BenchHandle;
  }
}

export const publishHandle = (): void => {
  window.spirewright = {
    getState: () => {
      const { file, selected, place, t } = bench.store.getState();
      const { shown, isCurrent, issues } = readNow();
      return { file, selected, place, t, production: shown, isCurrent, issues };
    },
    open: (text) => openText(text),
    setT: (t) => bench.store.setState({ t: Math.max(0, Math.min(1, t)) }),
  };
};

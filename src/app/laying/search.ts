import { useEffect } from 'react';
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import { layoutJob } from '../../core/lay-project.ts';
import { usualEffort } from '../../core/layout/search-layout.ts';
import { type Production, withLayout } from '../../core/pipeline.ts';

import { baseNow, bench, readAhead, readNow, setBetter, useBase } from '../bench.ts';
import type { LayoutNews, LayoutTask } from '../beside/layout.worker.ts';
import { laying } from './laying-store.ts';
import { keptWhereSame } from './lying.ts';
import { keepLocked, positionsOf, withPositions } from './positions.ts';
import { piecesOf } from './use-laid.ts';

/** How the search for a better layout stands. */
export interface SearchState {
  /** `cut-short`: it came to a layout that it could not go on from. */
  readonly phase: 'still' | 'searching' | 'found' | 'cut-short';
  /** Asked for by the maker; otherwise it goes on by itself after a change. */
  readonly isLong: boolean;
  /** 0 to 1. */
  readonly share: number;
}

const still: SearchState = { phase: 'still', isLong: false, share: 0 };
const search = createStore<SearchState>()(() => still);

export const useSearch = (): SearchState => useStore(search);

/** ms that a file has to stand still before it is laid anew. */
const WAIT = 350;
/** How long a search takes that the maker asks for, s; and more rounds than that allows. */
export const LONG = 30;
/** Seconds after which a search that goes on by itself ends where there is very much to lay. */
const SHORT = 20;
const MANY_ROUNDS = 1e9;

let worker: Worker | null = null;
/** The search that is due once the file has stood still. */
let later: ReturnType<typeof setTimeout> | undefined;

const end = (): void => {
  worker?.terminate();
  worker = null;
};

/** Leaves the search; what it has found so far stays. Under a hand it is written down at once, before the hand moves a piece. */
const leave = (isUnderHand: boolean): void => {
  const { isLong, phase } = search.getState();
  end();
  if (phase !== 'searching') return;
  search.setState({ phase: 'found' });
  if (isLong) void keepFound(isUnderHand);
};

export const stopSearch = (): void => leave(false);

const start = (
  base: Production,
  { rounds, seconds }: Partial<LayoutTask> & Pick<LayoutTask, 'seconds'>,
  isLong: boolean,
): void => {
  clearTimeout(later);
  end();
  const made = layoutJob(base.project, base.roofs);
  const laid = made.job.fixed.reduce((sum, { placements }) => sum + placements.length, 0);
  // Where every piece has its place there is nothing to look for.
  if (laid >= made.job.pieces.length) {
    search.setState(still);
    return;
  }
  search.setState({ phase: 'searching', isLong, share: 0 });
  const own = new Worker(new URL('../beside/layout.worker.ts', import.meta.url), { type: 'module' });
  worker = own;
  own.onmessage = ({ data }: MessageEvent<LayoutNews>) => {
    if (worker !== own) return;
    if (data.isBetter) {
      const sheets = keptWhereSame(readNow().shown?.sheets ?? [], data.layout.sheets);
      setBetter(base, withLayout(base, made, { ...data.layout, sheets }));
    }
    search.setState({ share: data.share });
    if (data.isDone) stopSearch();
  };
  own.onerror = (event) => {
    if (worker !== own) return;
    // What it has found so far is whole and stays.
    event.preventDefault();
    stopSearch();
    search.setState({ phase: 'cut-short' });
  };
  const usual = usualEffort(made.job).rounds;
  own.postMessage({ job: made.job, rounds: rounds ?? usual, seconds } satisfies LayoutTask);
};

/**
 * What a long search comes to is written down: by rounds alone nothing would come to it again. First it is read, then it is shown,
 * each in its turn, so that a hand or a key is answered in between.
 */
const keepFound = async (isAtOnce: boolean): Promise<void> => {
  const { shown } = readNow();
  if (shown === null) return;
  const positions = positionsOf(shown.project, piecesOf(shown), shown.sheets);
  const { file } = bench.store.getState();
  const kept = withPositions(file, positions);
  if (!isAtOnce) {
    await nextTurn();
    readAhead(kept);
    await nextTurn();
  }
  // What was changed in between stands: it was not what this was found for.
  bench.edit((now) => (now === file ? kept : now), 'lay');
  bench.endGesture();
};

/** Lets the page do what waits. */
const nextTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/** Lays everything anew that is not locked, and takes its time over it. */
export const searchLong = (): void => {
  laying.setState({ inHand: null, loose: [], moving: null, from: null, caught: [] });
  bench.endGesture();
  bench.edit(keepLocked, 'lay');
  const { shown } = baseNow();
  if (shown !== null) start(shown, { rounds: MANY_ROUNDS, seconds: LONG }, true);
};

/** After every change a better layout is looked for, as the command line would find it. A hand on the pieces ends that. */
export const useLayoutSearch = (): void => {
  const base = useBase();
  const isHeld = useStore(laying, ({ inHand }) => inHand !== null);
  useEffect(() => {
    if (base === null || isHeld) return;
    if (search.getState().isLong && search.getState().phase === 'searching') return;
    later = setTimeout(() => start(base, { seconds: SHORT }, false), WAIT);
    return () => clearTimeout(later);
  }, [base, isHeld]);
  useEffect(() => {
    if (isHeld) leave(true);
  }, [isHeld]);
  useEffect(() => end, []);
};

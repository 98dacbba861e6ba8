import type { TemporalState } from 'zundo';
import { temporal } from 'zundo';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Issue, Place as RoofPlace } from '../../core/issue.ts';
import { type FilePath, formatPath, getAt, type Json, type JsonObject, setAt } from './file-path.ts';
import type { Resolve } from './reading.ts';

export const places = ['body', 'roof', 'paper', 'set-out', 'build'] as const;
export type Place = (typeof places)[number];

/** Text that the file cannot take: it stays in its field with the reason, and the roof stays as it was. */
export interface Draft {
  readonly text: string;
  readonly issues: readonly Issue[];
}

export interface BenchState {
  /** The project file as typed. */
  readonly file: JsonObject;
  /** The file as it was last opened or saved; another one on the table is unsaved work. */
  readonly kept: JsonObject;
  /** Index of the roof that is worked on. */
  readonly selected: number;
  /** By path, as `roofs[0].shape.rise`. */
  readonly drafts: Readonly<Record<string, Draft>>;
  readonly place: Place;
  /** What lies on the table in Paper: the net with its measures, the roof as it folds, or the sheets with the pieces laid on them. */
  readonly paperView: 'net' | 'roof' | 'sheets';
  /** What lies on the table in Body and in Roof: the body and its roof standing, or their plan. */
  readonly bodyView: 'standing' | 'plan';
  readonly roofView: 'standing' | 'plan';
  /** 0 flat to 1 on the body. */
  readonly t: number;
  /** What is lit on the net and on the roof, and by which line it was asked for; null: nothing. */
  readonly lit: Lit | null;
  /** The edge that the maker has pointed at. */
  readonly edgeAtHand: EdgeAtHand | null;
  /** A sentence for the maker after opening or dropping a file; null: nothing to say. */
  readonly notice: { readonly title: string; readonly issues: readonly Issue[] } | null;
}

export interface Lit {
  /** Names the line that asked, so that it can be told from others. */
  readonly by: string;
  /** Index of the roof. */
  readonly roof: number;
  readonly place: RoofPlace;
}

export interface EdgeAtHand {
  readonly roof: number;
  readonly layer: number;
  /** Id of the edge in the layer's solid. */
  readonly edge: string;
}

interface Kept {
  readonly file: JsonObject;
  readonly selected: number;
}

export type BenchStore = Omit<StoreApi<BenchState>, never> & {
  readonly temporal: StoreApi<TemporalState<Kept>>;
};

export interface Bench {
  readonly store: BenchStore;
  /** Writes one value as typed. Refused text becomes a draft; `undefined` removes the key. True when taken. */
  readonly setField: (path: FilePath, value: Json | undefined, gesture?: string) => boolean;
  /** A change of any size, one undo step; edits with the same gesture in a row share one. */
  readonly edit: (change: (file: JsonObject) => JsonObject, gesture?: string) => void;
  /** Takes an edit in progress back, as if it had never been begun. */
  readonly forget: (gesture: string) => void;
  /** The next edit starts an undo step of its own. */
  readonly endGesture: () => void;
  readonly dropDraft: (path: FilePath) => void;
  readonly replace: (file: JsonObject) => void;
  readonly select: (index: number) => void;
  /** What is on the table has been saved. */
  readonly markSaved: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
}

const without = (drafts: BenchState['drafts'], key: string): BenchState['drafts'] =>
  key in drafts ? Object.fromEntries(Object.entries(drafts).filter(([name]) => name !== key)) : drafts;

const roofCount = (file: JsonObject): number => {
  const roofs = getAt(file, ['roofs']);
  return Array.isArray(roofs) ? roofs.length : 0;
};

/** The state of the bench without React; `resolve` decides what the file takes. */
export const createBench = (first: JsonObject, resolve: Resolve): Bench => {
  const store: BenchStore = createStore<BenchState>()(
    temporal(
      (): BenchState => ({
        file: first,
        kept: first,
        selected: 0,
        drafts: {},
        place: 'body',
        paperView: 'net',
        bodyView: 'standing',
        roofView: 'standing',
        t: 1,
        lit: null,
        edgeAtHand: null,
        notice: null,
      }),
      {
        partialize: (state): Kept => ({ file: state.file, selected: state.selected }),
        equality: (past, current) => past.file === current.file,
        limit: 200,
      },
    ),
  );
  let openGesture: string | null = null;

  const keep = (partial: Partial<BenchState>, gesture?: string): void => {
    const sameGesture = gesture !== undefined && gesture === openGesture;
    if (sameGesture) store.temporal.getState().pause();
    store.setState(partial);
    if (sameGesture) store.temporal.getState().resume();
    openGesture = gesture ?? null;
  };

  const clamp = (index: number): number => Math.max(0, Math.min(index, roofCount(store.getState().file) - 1));

  const travel = (steps: 'undo' | 'redo'): void => {
    openGesture = null;
    store.temporal.getState()[steps]();
    store.setState({ drafts: {}, selected: clamp(store.getState().selected) });
  };

  return {
    store,
    setField: (path, value, gesture) => {
      const { file, drafts } = store.getState();
      const key = formatPath(path);
      if (getAt(file, path) === value) {
        store.setState({ drafts: without(drafts, key) });
        return true;
      }
      const candidate = setAt(file, path, value) as JsonObject;
      const resolved = resolve(candidate);
      if (!resolved.ok && resolve(file).ok) {
        const errors = resolved.issues.filter((issue) => issue.level === 'error');
        const here = errors.filter((issue) => issue.path === key);
        const draft: Draft = { text: String(value ?? ''), issues: here.length > 0 ? here : errors };
        store.setState({ drafts: { ...drafts, [key]: draft } });
        return false;
      }
      keep({ file: candidate, drafts: without(drafts, key) }, gesture);
      return true;
    },
    edit: (change, gesture) => {
      const { file } = store.getState();
      const next = change(file);
      if (next !== file) keep({ file: next }, gesture);
      store.setState({ selected: clamp(store.getState().selected) });
    },
    forget: (gesture) => {
      const { pastStates, pause, resume } = store.temporal.getState();
      const before = pastStates.at(-1);
      if (gesture !== openGesture || before === undefined) return;
      pause();
      store.setState(before);
      resume();
      store.temporal.setState({ pastStates: pastStates.slice(0, -1) });
      openGesture = null;
    },
    endGesture: () => {
      openGesture = null;
    },
    dropDraft: (path) => {
      store.setState({ drafts: without(store.getState().drafts, formatPath(path)) });
    },
    replace: (file) => keep({ file, kept: file, selected: 0, drafts: {}, notice: null, lit: null, edgeAtHand: null }),
    select: (index) => store.setState({ selected: clamp(index), lit: null, edgeAtHand: null }),
    markSaved: () => store.setState({ kept: store.getState().file }),
    undo: () => travel('undo'),
    redo: () => travel('redo'),
  };
};

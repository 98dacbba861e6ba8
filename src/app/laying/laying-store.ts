import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { LaidSheet, PieceKey } from '../../core/layout/layout.ts';
import type { Spot } from './lying.ts';
import type { Caught } from './snap.ts';

/** Where the table is on the page while the camera looks straight down: table point p is at (left + x scale, top - y scale). */
export interface TableView {
  /** Pixels per mm. */
  readonly scale: number;
  readonly left: number;
  readonly top: number;
  /** Lower left corner of each sheet, table mm. */
  readonly corners: readonly Vec2[];
}

/** A piece that is not yet where the file says: under a hand, or left where it cannot lie. */
export interface Loose {
  readonly key: PieceKey;
  readonly spot: Spot;
}

export interface LayingState {
  /** The piece that is taken up: what is said and shown is about it. */
  readonly inHand: PieceKey | null;
  readonly loose: readonly Loose[];
  /** The layout that the loose pieces were taken from; under another one they are where that says. */
  readonly from: readonly LaidSheet[] | null;
  /** The sheets with the loose pieces where they are held, for those that draw them; null: nothing is loose. */
  readonly moving: readonly LaidSheet[] | null;
  /** What the piece under the hand has been drawn to. */
  readonly caught: readonly Caught[];
  /** Null while the table is not looked at from straight above. */
  readonly view: TableView | null;
  /** The maker has turned the table, slid it or come nearer. */
  readonly isLookedRound: boolean;
  /** Goes up by one whenever all sheets are to be looked at from straight above again. */
  readonly look: number;
  /** The offcut that is drawn, index of its stock; null: the sheets lie on the table. */
  readonly offcut: number | null;
  /** There is no table in 3D: the sheets are drawn flat. */
  readonly isFlat: boolean;
}

export const laying = createStore<LayingState>()(() => ({
  inHand: null,
  loose: [],
  from: null,
  moving: null,
  caught: [],
  view: null,
  isLookedRound: false,
  look: 0,
  offcut: null,
  isFlat: false,
}));

/** Looks at all sheets from straight above. */
export const lookAtAll = (): void => laying.setState(({ look }) => ({ look: look + 1 }));

export const useLaying = <T>(pick: (state: LayingState) => T): T => useStore(laying, pick);

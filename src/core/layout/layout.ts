import type { Vec2 } from '../geometry/vector.ts';

/** A point on a sheet: mm, origin at its lower left corner, y up. */
export type SheetPoint = Vec2;

/** One piece of one copy of a roof. */
export interface PieceKey {
  /** Index into the project's roofs. */
  readonly roof: number;
  /** Index into the roof's layers. */
  readonly layer: number;
  /** Index into the net's pieces. */
  readonly piece: number;
  /** From 0 to copies - 1. */
  readonly copy: number;
}

/** A piece on a sheet: net point p lies at R(rotation) p + (x, y), rotation counter-clockwise, radians. */
export interface Placement extends PieceKey {
  readonly x: number;
  readonly y: number;
  readonly rotation: number;
  /** Put there by hand: the engine lays all others round it. */
  readonly locked?: true;
}

export interface LaidSheet {
  /** Index into the project's stock. */
  readonly stock: number;
  /** From 0 for each stock. */
  readonly index: number;
  readonly width: number;
  readonly height: number;
  /** Of an offcut: its corners counter-clockwise, mm. */
  readonly outline?: readonly SheetPoint[];
  /** Share of the sheet's area under pieces, 0 to 1. */
  readonly used: number;
  readonly placements: readonly Placement[];
}

/** A piece to be laid: its outline with the lower left corner of its box at the origin. */
export interface PieceToLay extends PieceKey {
  readonly id: string;
  /** Of its outline. */
  readonly fingerprint: string;
  readonly title: string;
  /** Where its layer stands in the project file. */
  readonly path: string;
  readonly outline: readonly Vec2[];
  readonly width: number;
  readonly height: number;
  /** Indices into the project's stock, in order of preference. */
  readonly stock: readonly number[];
}

/** Where every piece lies that has a place. */
export interface Layout {
  /** By stock, then by index. */
  readonly sheets: readonly LaidSheet[];
  /** Indices of pieces that found no place, in order. */
  readonly leftOut: readonly number[];
}

/** One piece for one placement, and for every piece the same text as for its placement. */
export const keyOf = ({ roof, layer, piece, copy }: PieceKey): string => `${roof}/${layer}/${piece}/${copy}`;

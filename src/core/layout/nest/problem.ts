import type { Vec2 } from '../../geometry/vector.ts';

/** A simple ring, counter-clockwise, mm. Not closed: the first point is not repeated. */
export type Ring = readonly Vec2[];

/** Turns that a piece may lie at, radians counter-clockwise; `any`: every angle. */
export type Turns = readonly number[] | 'any';

/** A kind of sheet that a piece may go on, and how it may be turned there. */
export interface NestChoice {
  /** Index into the problem's sheets. */
  readonly kind: number;
  readonly turns: Turns;
}

export interface NestPiece {
  /** In any frame. */
  readonly outline: Ring;
  /** In order of preference. */
  readonly choices: readonly NestChoice[];
}

/** A kind of sheet. */
export interface NestSheet {
  /** What can be used, margin already off: simple polygons apart from each other, hollow ones too. */
  readonly parts: readonly Ring[];
  /** Sheets owned; null: as many as needed. */
  readonly count: number | null;
  /** Least distance of two pieces, mm; the sheet's own edge may be touched. */
  readonly gap: number;
  /** Rings that lie there already and stay, for sheet 0, 1, 2 … of this kind. */
  readonly taken: readonly (readonly Ring[])[];
}

export interface NestProblem {
  readonly pieces: readonly NestPiece[];
  readonly sheets: readonly NestSheet[];
}

/** A point p of the piece's outline lies at R(rotation) p + (x, y) in the frame of the sheet's parts. */
export interface NestPlacement {
  /** Index into the problem's pieces. */
  readonly piece: number;
  /** Index into the problem's sheets. */
  readonly kind: number;
  /** From 0 for each kind; below its count. */
  readonly sheet: number;
  readonly x: number;
  readonly y: number;
  readonly rotation: number;
}

export interface NestLayout {
  /** In the order of the pieces. */
  readonly placements: readonly NestPlacement[];
  /** Indices of pieces that found no place. */
  readonly leftOut: readonly number[];
  /** Less is better; comparable between layouts of one problem only. */
  readonly cost: number;
}

/** One bounded bit of work, a few milliseconds. */
export interface NestStep {
  /** Best so far: complete and valid. */
  readonly layout: NestLayout;
  /** Whether it is better than at the step before. */
  readonly isBetter: boolean;
}

export interface NestOptions {
  readonly seed: number;
  /** Steps of search after the first layout. */
  readonly rounds: number;
  /** Share of the work that is done, 0 to 1, by whatever the caller counts; left out: steps over rounds. */
  readonly share?: (step: number) => number;
}

import type { Units } from '../units/units.ts';
import { unitLength } from '../units/units.ts';

/** Bounds of a length, mm, included. */
export interface LengthLimits {
  readonly min: number;
  readonly max: number;
}

/** Bounds of every length outside `shape`, whose bounds come from the kind. */
export const lengthLimits: Readonly<
  Record<
    | 'stockSize'
    | 'thickness'
    | 'stockMargin'
    | 'offcutCorner'
    | 'pictureWidth'
    | 'printRepeat'
    | 'position'
    | 'bar'
    | 'gap'
    | 'bodySide'
    | 'corner'
    | 'diagonal'
    | 'bodyHeight'
    | 'overhang'
    | 'neighbourGap'
    | 'fascia'
    | 'flapWidth'
    | 'hem'
    | 'play'
    | 'seatHeight'
    | 'walls'
    | 'clearance'
    | 'leastFlap'
    | 'pageMargin'
    | 'pageOverlap',
    LengthLimits
  >
> = {
  stockSize: { min: 10, max: 10_000 },
  thickness: { min: 0, max: 25 },
  stockMargin: { min: 0, max: 100 },
  offcutCorner: { min: -10_000, max: 10_000 },
  pictureWidth: { min: 1, max: 10_000 },
  printRepeat: { min: 0.5, max: 1000 },
  position: { min: -20_000, max: 20_000 },
  bar: { min: 90, max: 110 },
  gap: { min: 0, max: 50 },
  bodySide: { min: 1, max: 2000 },
  corner: { min: -4000, max: 4000 },
  diagonal: { min: 1, max: 4000 },
  bodyHeight: { min: 0, max: 2000 },
  overhang: { min: 0, max: 500 },
  neighbourGap: { min: 0, max: 2000 },
  fascia: { min: 0.5, max: 500 },
  flapWidth: { min: 1, max: 50 },
  hem: { min: 0.5, max: 50 },
  play: { min: 0, max: 10 },
  seatHeight: { min: 1, max: 200 },
  walls: { min: 0.1, max: 100 },
  clearance: { min: 0, max: 10 },
  leastFlap: { min: 0, max: 50 },
  pageMargin: { min: 0, max: 50 },
  pageOverlap: { min: 0, max: 50 },
};

export interface CountLimits {
  readonly min: number;
  readonly max: number;
}

export const countLimits: Readonly<
  Record<'seed' | 'count' | 'copies' | 'bodySides' | 'corners' | 'courts' | 'pack' | 'place', CountLimits>
> = {
  seed: { min: 0, max: 2 ** 32 - 1 },
  count: { min: 0, max: 9999 },
  copies: { min: 1, max: 999 },
  bodySides: { min: 3, max: 24 },
  corners: { min: 3, max: 64 },
  courts: { min: 1, max: 8 },
  pack: { min: 1, max: 9999 },
  place: { min: 0, max: 9999 },
};

/** What a file that says nothing means; lengths in mm. */
export const defaults: {
  readonly flapWidth: Readonly<Record<Units, number>>;
  readonly clearance: number;
  readonly leastFlap: number;
  readonly play: number;
  readonly seatHeight: number;
  readonly pageMargin: number;
  readonly pageOverlap: number;
  readonly seed: number;
  readonly pageSize: Readonly<Record<Units, string>>;
} = {
  flapWidth: { in: unitLength('in') / 4, mm: 6 },
  clearance: 0.5,
  leastFlap: 2,
  play: 0.3,
  seatHeight: 8,
  pageMargin: 6,
  pageOverlap: 10,
  seed: 1,
  pageSize: { in: 'Letter', mm: 'A4' },
};

/** Paper thinner than this counts as having no thickness unless its layer says otherwise, mm. */
export const LEAST_THICKNESS_THAT_COUNTS = 0.4;

import { NOISE_MM } from '../tolerance.ts';

/** What a project's lengths are shown in. */
export type Units = 'in' | 'mm';

/** The smallest mark of the ruler a maker sets out with. */
export type Ruler = '1/8in' | '1/16in' | '1/32in' | '1mm' | '0.5mm';

/**
 * Exact since 1 July 1959: the yard is 0.9144 m (US National Bureau of Standards, addendum to Circular 572).
 * The only place in the product where this number is written.
 */
export const MM_PER_INCH = 25.4;

interface RulerMarks {
  readonly units: Units;
  /** Marks to one inch or one millimetre. */
  readonly perUnit: number;
}

const marksOf: Readonly<Record<Ruler, RulerMarks>> = {
  '1/8in': { units: 'in', perUnit: 8 },
  '1/16in': { units: 'in', perUnit: 16 },
  '1/32in': { units: 'in', perUnit: 32 },
  '1mm': { units: 'mm', perUnit: 1 },
  '0.5mm': { units: 'mm', perUnit: 2 },
};

export const rulers: readonly Ruler[] = Object.keys(marksOf) as Ruler[];

/** The ruler a project gets when it names none. */
export const defaultRuler: Readonly<Record<Units, Ruler>> = { in: '1/16in', mm: '1mm' };

export const rulerUnits = (ruler: Ruler): Units => marksOf[ruler].units;

/** Marks to one inch or one millimetre, whichever the ruler has. */
export const marksPerUnit = (ruler: Ruler): number => marksOf[ruler].perUnit;

/** mm in one inch or one millimetre. */
export const unitLength = (units: Units): number => (units === 'in' ? MM_PER_INCH : 1);

/** Distance of two neighbouring marks, mm. */
export const rulerStep = (ruler: Ruler): number => unitLength(rulerUnits(ruler)) / marksPerUnit(ruler);

export interface RulerMark {
  /** Position of the nearest mark, mm. */
  readonly mark: number;
  /** Mark less the length asked for, mm. */
  readonly error: number;
  /** Which mark it is, counted from 0. */
  readonly count: number;
}

/**
 * The nearest mark; exactly between two, the larger one (the carpenters' rule, NAVEDTRA 14044 fig. 2-17: a remainder
 * of .5 or more adds one). A computed length within `NOISE_MM` below the middle is taken to lie on it. Lengths under
 * zero are rounded by their size, so that a mirrored roof gets mirrored marks.
 */
export function roundToRuler(mm: number, ruler: Ruler): RulerMark {
  const size = Math.floor((Math.abs(mm) + NOISE_MM) / rulerStep(ruler) + 0.5);
  const count = mm < 0 && size > 0 ? -size : size;
  const mark = (count / marksPerUnit(ruler)) * unitLength(rulerUnits(ruler));
  return { mark, error: mark - mm, count };
}

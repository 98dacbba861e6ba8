import { MM_PER_INCH, type Units } from '../../core/units/units.ts';

/** One engraved line of the steel rule. `at`: mm from the zero end; `length`: share of the longest tick. */
export interface Tick {
  readonly at: number;
  readonly length: number;
}

export interface Figure {
  readonly at: number;
  readonly text: string;
}

export interface RuleScale {
  readonly length: number;
  readonly ticks: readonly Tick[];
  readonly figures: readonly Figure[];
}

/** Common lengths of steel rules. */
const inchRules = [6, 12, 18, 24, 36, 48, 72];
const metricRules = [150, 300, 500, 600, 1000, 1500, 2000];

const sixteenths = [1, 0.4, 0.54, 0.4, 0.68, 0.4, 0.54, 0.4, 0.82, 0.4, 0.54, 0.4, 0.68, 0.4, 0.54, 0.4];

const smallestOver = (sizes: readonly number[], least: number): number =>
  sizes.find((size) => size >= least) ?? Math.ceil(least / 100) * 100;

/**
 * Marks of a rule at least `reach` mm long: every 1/16 in with a figure each inch, or every mm with figures in mm.
 * `figureWidth`: room one figure needs, mm; figures that would touch are thinned out in steps of 1, 2, 5.
 */
export const engraveRule = (units: Units, reach: number, figureWidth: number): RuleScale => {
  const unit = units === 'in' ? MM_PER_INCH : 10;
  const parts = units === 'in' ? 16 : 10;
  const size = units === 'in' ? smallestOver(inchRules, reach / unit) : smallestOver(metricRules, reach) / unit;
  const step = [1, 2, 5, 10, 20].find((n) => n * unit >= figureWidth) ?? 50;
  const ticks: Tick[] = [];
  for (let i = 0; i <= size * parts; i += 1) {
    const rest = i % parts;
    const length = units === 'in' ? (sixteenths[rest] ?? 0.4) : rest === 0 ? 1 : rest === 5 ? 0.72 : 0.46;
    ticks.push({ at: (i / parts) * unit, length });
  }
  const figures: Figure[] = [];
  for (let n = step; n < size; n += step) {
    figures.push({ at: n * unit, text: String(units === 'in' ? n : n * 10) });
  }
  return { length: size * unit, ticks, figures };
};

import { MM_PER_INCH } from '../../core/units/units.ts';
import { type Drawing, joinDrawings, labelAt, line } from './drawing.ts';
import type { Block } from './legend.ts';

interface Bar {
  readonly unit: number;
  readonly suffix: string;
  /** Units long; steps between ticks in units, from the longest tick to the shortest. */
  readonly length: number;
  readonly steps: readonly number[];
}

/** Longest first: a page too narrow for one takes the next. */
const pairs: readonly (readonly [Bar, Bar])[] = [
  [
    { unit: 1, suffix: 'mm', length: 100, steps: [50, 10, 5] },
    { unit: MM_PER_INCH, suffix: 'in', length: 4, steps: [1, 0.5, 0.25] },
  ],
  [
    { unit: 1, suffix: 'mm', length: 50, steps: [10, 10, 5] },
    { unit: MM_PER_INCH, suffix: 'in', length: 2, steps: [1, 0.5, 0.25] },
  ],
  [
    { unit: 1, suffix: 'mm', length: 20, steps: [10, 10, 5] },
    { unit: MM_PER_INCH, suffix: 'in', length: 1, steps: [1, 0.5, 0.25] },
  ],
];

const TICKS = [2.6, 1.9, 1.2] as const;
const NUMBER_SIZE = 2.1;
const BAR_HEIGHT = 6.6;
/** Half of `100 mm` stands out over the end of its bar. */
const OVERHANG = 4;

/** Two bars of known length, 100 mm and 4 in where there is room, to be measured on the print. */
export const drawCheckBars = (room: number): Block => {
  const pair =
    pairs.find((bars) => Math.max(...bars.map((bar) => bar.length * bar.unit)) + OVERHANG <= room) ?? pairs[2];
  const drawings = (pair ?? []).map((bar, i) => drawBar(bar, -TICKS[0] - 0.2 - i * BAR_HEIGHT));
  const width = Math.max(...(pair ?? []).map((bar) => bar.length * bar.unit)) + OVERHANG;
  return { width, height: 2 * BAR_HEIGHT, drawing: joinDrawings(...drawings) };
};

const drawBar = (bar: Bar, y: number): Drawing => {
  const [numbered = 1, , finest = 1] = bar.steps;
  const count = Math.round(bar.length / finest);
  const ticks = Array.from({ length: count + 1 }, (_, i) => {
    const value = i * finest;
    const rank = bar.steps.findIndex((step) => Number.isInteger(value / step));
    const isEnd = i === 0 || i === count;
    return line('rule', [value * bar.unit, y], [value * bar.unit, y + TICKS[isEnd ? 0 : (rank as 0 | 1 | 2)]]);
  });
  const numbers = Array.from({ length: Math.round(bar.length / numbered) + 1 }, (_, i) => {
    const value = i * numbered;
    const text = value === bar.length ? `${value} ${bar.suffix}` : String(value);
    const align = i === 0 ? 'start' : 'middle';
    return labelAt(text, [value * bar.unit, y - 2.3], NUMBER_SIZE, { align });
  });
  return { strokes: [line('rule', [0, y], [bar.length * bar.unit, y]), ...ticks], labels: numbers };
};

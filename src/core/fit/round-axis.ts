import { isAtMost, isSameLength, SNAP_MM } from '../tolerance.ts';
import { type Ruler, roundToRuler, rulerStep } from '../units/units.ts';

/**
 * Where the points of a piece lie along one direction, each distinct place a line: a column or a row. Distances count from an
 * origin: the middle of a piece that is the same on both sides of it, else its lower end.
 */
export interface RuledAxis {
  readonly isSymmetric: boolean;
  /** True distances of the lines from the origin, mm; on a symmetric axis those of either side, 0 or more. */
  readonly lines: readonly number[];
  /** The marks of the lines, in steps of the ruler; all whole, or on a symmetric axis without a point in the middle all half. */
  readonly counts: number[];
  readonly step: number;
}

/** A place on an axis: its line and the side of the origin, +1 or -1. */
export interface AxisPlace {
  readonly line: number;
  readonly side: 1 | -1;
}

/** Groups places into lines and rounds them to the ruler. `offsets` are true distances from the origin, mm. */
export function ruleAxis(
  offsets: readonly number[],
  isSymmetric: boolean,
  ruler: Ruler,
): { readonly axis: RuledAxis; readonly places: readonly AxisPlace[] } {
  const sizes = isSymmetric ? offsets.map(Math.abs) : offsets;
  const order = sizes.map((_, i) => i).sort((a, b) => (sizes[a] as number) - (sizes[b] as number));
  const lines: number[] = [];
  const lineOf: number[] = [];
  for (const i of order) {
    const size = sizes[i] as number;
    const last = lines.at(-1);
    if (last === undefined || size - last > SNAP_MM) lines.push(size);
    lineOf[i] = lines.length - 1;
  }
  const places = offsets.map(
    (offset, i): AxisPlace => ({ line: lineOf[i] as number, side: isSymmetric && offset < 0 ? -1 : 1 }),
  );
  const whole = lines.map((mm) => roundToRuler(mm, ruler).count);
  const step = rulerStep(ruler);
  const counts = isSymmetric && takesHalves(lines, whole, step) ? halves(lines, step) : whole;
  return { axis: { isSymmetric, lines, counts, step }, places };
}

const halves = (lines: readonly number[], step: number): number[] => lines.map((mm) => Math.floor(mm / step) + 0.5);

/** Whether marks half a step off the middle come nearer to the true places than whole ones; never with a point in the middle. */
function takesHalves(lines: readonly number[], whole: readonly number[], step: number): boolean {
  if ((lines[0] ?? 0) <= SNAP_MM) return false;
  const off = (counts: readonly number[]): number =>
    counts.reduce((sum, count, i) => sum + (count * step - (lines[i] as number)) ** 2, 0);
  const [byHalves, byWhole] = [off(halves(lines, step)), off(whole)];
  return !isSameLength(byHalves, byWhole) && byHalves < byWhole;
}

/** Mark less true place of a line, mm. */
export const axisError = ({ lines, counts, step }: RuledAxis, line: number): number =>
  (counts[line] as number) * step - (lines[line] as number);

/** Whether a line may go to another mark: no further than one step off, never over another line or the middle. */
export function mayMove(axis: RuledAxis, line: number, by: 1 | -1): boolean {
  const { lines, counts, step, isSymmetric } = axis;
  const count = (counts[line] as number) + by;
  if (!isAtMost(Math.abs(count * step - (lines[line] as number)), step)) return false;
  // All else is measured from the origin.
  if (Math.abs(lines[line] as number) <= SNAP_MM || (isSymmetric && count <= 0)) return false;
  const [before, after] = [counts[line - 1], counts[line + 1]];
  return (before === undefined || before < count) && (after === undefined || count < after);
}

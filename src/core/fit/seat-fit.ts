import { at } from '../geometry/polygon.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import { NOISE_MM } from '../tolerance.ts';
import { type Ruler, roundToRuler } from '../units/units.ts';

/** How loosely a collar sits against the walls of its body, mm on each side. */
export interface SeatFit {
  readonly play: number;
  /** What is left where the marks of the ruler take or give most; under 0 the collar jams. */
  readonly marked: { readonly min: number; readonly max: number };
}

/**
 * The play of a collar whose sides are marked with a ruler: what a side comes out longer or shorter than meant is shared by both
 * of its ends. `plan`: the collar where it touches the walls. A round one is marked by its paper's length.
 */
export function seatFit(
  {
    fits,
    plan,
    isRound,
  }: { readonly fits: 'inside' | 'outside'; readonly plan: readonly Vec2[]; readonly isRound: boolean },
  play: number,
  ruler: Ruler,
): SeatFit {
  const sides = plan.map((p, i) => distance2(p, at(plan, i + 1)));
  const whole = sides.reduce((sum, side) => sum + side, 0);
  const offs = isRound
    ? [(roundToRuler(whole, ruler).mark - whole) / (2 * Math.PI)]
    : sides.map((side) => (roundToRuler(side, ruler).mark - side) / 2);
  const left = offs.map((off) => (fits === 'inside' ? play - off : play + off));
  return { play, marked: { min: Math.min(...left), max: Math.max(...left) } };
}

/** A collar that its ruler's marks make too wide or too narrow for the walls. */
export const seatJams = ({ play, marked }: SeatFit, ruler: Ruler): readonly Issue[] =>
  marked.min >= -NOISE_MM
    ? []
    : [
        {
          level: 'warning',
          code: 'seat-jams',
          path: 'seat.play',
          numbers: { play, by: -marked.min },
          message: `Set out in marks of ${ruler} the collar jams by {by} on a side; {play} of play were meant.`,
          remedy: 'Take a finer ruler, more play, or cut the collar by its true measures.',
        },
      ];

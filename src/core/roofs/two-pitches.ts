import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Band } from './construct/raise-roof.ts';
import type { LengthParam, PitchParam } from './definition.ts';
import { checkLevel, MOST_SHARE, pitchParam, riseParam } from './height.ts';

const DEGREE = Math.PI / 180;

/** A lower and an upper pitch, shared by the kinds whose slopes break once on the way up. */
export const twoPitchParams: readonly [
  LengthParam & { readonly key: 'rise'; readonly oneOf: 'height' },
  PitchParam & { readonly key: 'upperPitch' },
  LengthParam & { readonly key: 'breakRise' },
  PitchParam & { readonly key: 'lowerPitch' },
] = [
  { ...riseParam, oneOf: 'height' },
  {
    key: 'upperPitch',
    label: 'Upper pitch',
    help: 'From the break up; the rise then follows.',
    quantity: 'pitch',
    min: DEGREE,
    max: 88 * DEGREE,
    oneOf: 'height',
  },
  {
    key: 'breakRise',
    label: 'Break rise',
    help: 'From the eave to where the pitch changes.',
    quantity: 'length',
    min: 1,
    max: 2000,
    default: 25,
  },
  pitchParam('lowerPitch', 'Lower pitch', 'From the eave to the break.', 65),
];

/** Both bands of a slope, from the rise at the end of its run or from the upper pitch. */
export function breakSlope(
  {
    rise,
    upperPitch = 0,
    breakRise = 0,
    lowerPitch = 0,
  }: {
    readonly rise?: number;
    readonly upperPitch?: number;
    readonly breakRise?: number;
    readonly lowerPitch?: number;
  },
  run: number,
): Result<readonly Band[]> {
  const tooHigh = rise === undefined ? [] : checkLevel(breakRise, rise, 'breakRise');
  if (tooHigh.length > 0) return fail(...tooHigh);
  const left = run - breakRise / Math.tan(lowerPitch);
  if (left < (1 - MOST_SHARE) * run) return fail(breakTooFarIn(breakRise, MOST_SHARE * run * Math.tan(lowerPitch)));
  return succeed([
    { level: 0, pitch: lowerPitch },
    { level: breakRise, pitch: rise === undefined ? upperPitch : Math.atan2(rise - breakRise, left) },
  ]);
}

const breakTooFarIn = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'break-too-far-in',
  path: 'shape.breakRise',
  numbers: { found, most },
  message: 'At the lower pitch the slopes meet before they are {found} high.',
  remedy: 'Keep the break at {most} or under, or make the lower pitch steeper.',
});

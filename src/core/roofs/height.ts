import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { LengthParam, PitchParam } from './definition.ts';

const DEGREE = Math.PI / 180;

/** The three ways to say how high a roof is; exactly one is given. Shared by every kind with one height. */
export const heightParams: readonly [
  LengthParam & { readonly key: 'rise' },
  PitchParam & { readonly key: 'pitch' },
  LengthParam & { readonly key: 'slant' },
] = [
  {
    key: 'rise',
    label: 'Rise',
    help: 'From the eave straight up to the highest point.',
    quantity: 'length',
    min: 1,
    max: 2000,
    oneOf: 'height',
  },
  {
    key: 'pitch',
    label: 'Pitch',
    help: 'How steep the front panel is: an angle from the level, or rise over run as 8/12.',
    quantity: 'pitch',
    min: DEGREE,
    max: 88 * DEGREE,
    oneOf: 'height',
  },
  {
    key: 'slant',
    label: 'Slant',
    help: 'Up the middle of the front panel, from the eave to the highest point.',
    quantity: 'length',
    min: 1,
    max: 2500,
    oneOf: 'height',
  },
];

/** Rise from whichever of the three is given; run is the level distance from the eave to under the highest point, mm. */
export function riseFrom(
  given: { readonly rise?: number; readonly pitch?: number; readonly slant?: number },
  run: number,
): Result<number> {
  if (given.rise !== undefined) return succeed(given.rise);
  if (given.pitch !== undefined) return succeed(run * Math.tan(given.pitch));
  const slant = given.slant ?? 0;
  // A slant no longer than the run would lie flat or not reach the middle at all.
  if (slant <= run) return fail(slantTooShort(slant, run));
  return succeed(Math.sqrt((slant - run) * (slant + run)));
}

function slantTooShort(slant: number, run: number): Issue {
  return {
    level: 'error',
    code: 'slant-too-short',
    path: 'shape.slant',
    numbers: { found: slant, least: run },
    message: 'A slant of {found} does not reach the top: the level run from the eave to under it is already {least}.',
    remedy: 'Make the slant longer than {least}, or give the rise or the pitch instead.',
  };
}

import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { LengthParam, PitchParam } from './definition.ts';

const DEGREE = Math.PI / 180;

/** Bounds of every pitch, radians. */
export const steepness: { readonly min: number; readonly max: number } = { min: DEGREE, max: 88 * DEGREE };

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
    ...steepness,
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

/** The rise where it is the only way to say how high a roof is. */
export const riseParam: LengthParam & { readonly key: 'rise' } = {
  key: 'rise',
  label: 'Rise',
  help: 'From the eave straight up to the highest point.',
  quantity: 'length',
  min: 1,
  max: 2000,
};

/** A pitch of its own beside the rise. */
export const pitchParam = <Key extends string>(
  key: Key,
  label: string,
  help: string,
  degrees: number,
): PitchParam & { readonly key: Key } => ({
  key,
  label,
  help,
  quantity: 'pitch',
  ...steepness,
  default: degrees * DEGREE,
});

/** Highest that a lower part may reach, as a share of the rise: above it too little would be left to cut. */
export const MOST_SHARE = 0.95;

/** A level that has to stay under the peak, as that of a break or of a gable's top. */
export function checkLevel(found: number, rise: number, key: string): readonly Issue[] {
  const most = MOST_SHARE * rise;
  if (found <= most) return [];
  return [
    {
      level: 'error',
      code: 'level-too-high',
      path: `shape.${key}`,
      numbers: { found, rise, most },
      message: 'A level of {found} leaves too little of a rise of {rise} above it.',
      remedy: 'Keep it at {most} or under, or make the roof higher.',
    },
  ];
}

/** Rise from whichever of the three is given; run is the level distance from the eave to under the highest point, mm. */
export function riseFrom(
  given: { readonly rise?: number; readonly pitch?: number; readonly slant?: number },
  run: number,
): Result<number> {
  if (given.rise !== undefined) return succeed(given.rise);
  if (given.pitch !== undefined) return succeed(run * Math.tan(given.pitch));
  const slant = given.slant ?? 0;
  // Nearer to the run than the flattest pitch would make it, the slant says next to nothing about the rise.
  const least = run / Math.cos(steepness.min);
  if (slant < least) return fail(slantTooShort(slant, run, least));
  return succeed(Math.sqrt((slant - run) * (slant + run)));
}

function slantTooShort(slant: number, run: number, least: number): Issue {
  return {
    level: 'error',
    code: 'slant-too-short',
    path: 'shape.slant',
    numbers: { found: slant, run, least },
    message: 'A slant of {found} does not rise to the top: the level run from the eave to under it is {run}.',
    remedy: 'Make the slant longer than {least}, or give the rise or the pitch instead.',
  };
}

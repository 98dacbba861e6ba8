import type { Issue } from '../issue.ts';
import type { LengthParam, PitchParam } from './definition.ts';
import { checkLevel, MOST_SHARE, pitchParam } from './height.ts';

/** The lowest part of a roof, flatter than what stands on it. */
export const flareParams: readonly [
  LengthParam & { readonly key: 'flareRise' },
  PitchParam & { readonly key: 'flarePitch' },
] = [
  {
    key: 'flareRise',
    label: 'Flare rise',
    help: 'From the eave to where the steep part begins.',
    quantity: 'length',
    min: 1,
    max: 2000,
    default: 6,
  },
  pitchParam('flarePitch', 'Flare pitch', 'How steep the eave is; the pitch above follows.', 28),
];

export interface Flare {
  readonly rise: number;
  readonly flareRise: number;
  readonly flarePitch: number;
  /** Level run from the eave to under the peak, mm. */
  readonly run: number;
}

/** A straight flare has to end under the peak and short of the middle. */
export function checkFlare({ rise, flareRise, flarePitch, run }: Flare): readonly Issue[] {
  const tooHigh = checkLevel(flareRise, rise, 'flareRise');
  if (tooHigh.length > 0) return tooHigh;
  const most = MOST_SHARE * run * Math.tan(flarePitch);
  return flareRise > most ? [flareTooWide(flareRise, most)] : [];
}

const flareTooWide = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'flare-too-wide',
  path: 'shape.flareRise',
  numbers: { found, most },
  message: 'At the pitch of the flare the sides meet before they are {found} high.',
  remedy: 'Keep the flare at {most} or under, or make it steeper.',
});

import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Band } from './construct/raise-roof.ts';
import type { CountParam, LengthParam, PitchParam } from './definition.ts';
import { checkFlare, flareParams } from './flare.ts';

/** A flare at the eave, straight or curved. */
export const curvedFlareParams: readonly [
  LengthParam & { readonly key: 'flareRise' },
  PitchParam & { readonly key: 'flarePitch' },
  CountParam & { readonly key: 'flareSteps' },
] = [
  ...flareParams,
  {
    key: 'flareSteps',
    label: 'Flare steps',
    help: '1: the flare is one straight facet. More: a curve that ends in the pitch above, folded in so many facets.',
    quantity: 'count',
    min: 1,
    max: 12,
    default: 1,
  },
];

export interface CurvedFlare {
  readonly rise?: number;
  readonly flareRise?: number;
  readonly flarePitch?: number;
  readonly flareSteps?: number;
}

/**
 * The bands of a slope that flares at the eave and reaches the rise at the end of its run, with how far its facets leave the
 * curve, mm. On the curve the run per rise changes evenly with the level, from that of the eave to that of the slope above (a
 * parabola on its side); its facets are chords between points on it.
 */
export function flareSlope(
  flare: CurvedFlare,
  run: number,
): Result<{ readonly bands: readonly Band[]; readonly off: number }> {
  const { rise = 0, flareRise = 0, flarePitch = 0, flareSteps = 1 } = flare;
  const perRise = 1 / Math.tan(flarePitch);
  // A curve ends as steep as the slope above, so that it takes about half the run of a straight facet.
  const share = flareSteps === 1 ? 1 : 0.5;
  const wrong = checkFlare({ rise, flareRise, flarePitch, run: run / share });
  if (wrong.length > 0) return fail(...wrong);
  const above = (run - share * flareRise * perRise) / (rise - share * flareRise);
  const top: Band = { level: flareRise, pitch: Math.atan2(1, above) };
  if (flareSteps === 1) return succeed({ bands: [{ level: 0, pitch: flarePitch }, top], off: 0 });
  const change = (above - perRise) / flareRise;
  const step = flareRise / flareSteps;
  const facets = Array.from({ length: flareSteps }, (_, i): Band => {
    const level = i * step;
    return { level, pitch: Math.atan2(1, perRise + change * (level + step / 2)) };
  });
  // A chord leaves a parabola most at its middle: there the run is off by the second derivative times step²/8.
  const off = Math.max(...facets.map(({ pitch }) => ((Math.abs(change) * step ** 2) / 8) * Math.sin(pitch)));
  return succeed({ bands: [...facets, top], off });
}

/** Says how near folded facets come to the curve that they stand for. */
export const curveNote = (off: number, { flareSteps = 1 }: CurvedFlare): readonly Issue[] =>
  flareSteps === 1
    ? []
    : [
        {
          level: 'note',
          code: 'curve-in-facets',
          path: 'shape.flareSteps',
          numbers: { off, stepsCount: flareSteps },
          message: 'The flare is folded in {stepsCount} straight facets; they leave the curve by {off} at most.',
        },
      ];

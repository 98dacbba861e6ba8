import type { Issue } from '../issue.ts';
import type { Net } from '../net/net.ts';
import type { Body } from '../project/project.ts';
import type { Solid } from '../solid/solid.ts';
import { NOISE_MM } from '../tolerance.ts';
import { MM_PER_INCH, type Ruler, type Units } from '../units/units.ts';
import { closing } from './closing.ts';
import { overhangs, restHeight } from './rest.ts';

/** How well the net closes and sits on the body. Lengths in mm. */
export interface Fit {
  /** Plan distance from the body's walls out to the eave; null without a body. */
  readonly overhang: { readonly min: number; readonly max: number } | null;
  /** Largest difference between the two sides of a seam once every mark is rounded to the ruler. */
  readonly seamMismatch: number;
  /** Largest gap between panels at a top point once every mark is rounded to the ruler. */
  readonly peakGap: number;
  /** Height of the eave plane over the table when the roof rests on its body; 0 without one. */
  readonly rest: number;
  /** As `Closes within 1/64 in.` */
  readonly sentence: string;
}

export interface FitOptions {
  readonly body: Body | null;
  readonly ruler: Ruler;
  readonly units: Units;
}

/** How the roof of these layers' nets closes when it is set out with the ruler, and how it sits on its body. */
export function fitRoof(
  solid: Solid,
  nets: readonly { readonly solid: Solid; readonly net: Net }[],
  { body, ruler, units }: FitOptions,
): { readonly fit: Fit; readonly issues: readonly Issue[] } {
  const closings = nets.map(({ solid: own, net }) => closing(own, net, ruler));
  const seamMismatch = Math.max(0, ...closings.map((c) => c.seamMismatch));
  const peakGap = Math.max(0, ...closings.map((c) => c.peakGap));
  const out = body ? overhangs(solid, body) : [];
  const overhang = body ? { min: Math.min(...out), max: Math.max(...out) } : null;
  const fit: Fit = {
    overhang,
    seamMismatch,
    peakGap,
    rest: body ? restHeight(solid, body) : 0,
    sentence: closingSentence(Math.max(seamMismatch, peakGap), units),
  };
  const lowest = fit.rest + Math.min(...solid.vertices.map((v) => v[2]));
  const issues = [
    ...(overhang && overhang.min < -NOISE_MM ? [roofTooSmall(-overhang.min)] : []),
    ...(body && lowest < -NOISE_MM ? [belowTable(-lowest)] : []),
  ];
  return { fit, issues };
}

/** `Closes within 1/64 in.`: the gap rounded up to the next 64th of an inch or tenth of a millimetre. */
export function closingSentence(gap: number, units: Units): string {
  if (gap <= NOISE_MM) return 'Closes exactly.';
  if (units === 'mm') return `Closes within ${Number((Math.ceil(gap * 10 - NOISE_MM) / 10).toFixed(1))} mm.`;
  const sixtyFourths = Math.ceil((gap / MM_PER_INCH) * 64 - NOISE_MM);
  const whole = Math.floor(sixtyFourths / 64);
  const shared = greatestCommonDivisor(sixtyFourths % 64, 64);
  const fraction = sixtyFourths % 64 === 0 ? '' : `${(sixtyFourths % 64) / shared}/${64 / shared}`;
  return `Closes within ${[whole || '', fraction].filter((part) => part !== '').join(' ')} in.`;
}

const greatestCommonDivisor = (a: number, b: number): number => (b === 0 ? a : greatestCommonDivisor(b, a % b));

const belowTable = (by: number): Issue => ({
  level: 'warning',
  code: 'roof-below-table',
  path: '',
  numbers: { by },
  message: 'The roof comes down {by} below the table that its body stands on.',
  remedy: 'Make the body higher, or let less of the roof hang down.',
});

const roofTooSmall = (by: number): Issue => ({
  level: 'error',
  code: 'roof-too-small',
  path: '',
  numbers: { by },
  message: 'The body stands {by} out beyond the eave.',
  remedy: 'Make the roof wider, or the body narrower, by twice that.',
});

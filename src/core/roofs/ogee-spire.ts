import type { Vec2 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { type Arc, sampleProfile } from './construct/profile.ts';
import { raiseRegular } from './construct/raise-regular.ts';
import { bandsParam, curveNote } from './curve-notes.ts';
import { defineRoof } from './definition.ts';
import { checkLevel, pitchParam, riseParam, steepness } from './height.ts';
import { apothemFrom, regularParams, regularWithEave, sidesParam, USUAL_SIDES } from './regular.ts';

/** A spire whose sides bend one way below and the other way above. */
export const ogeeSpire = defineRoof({
  id: 'ogee-spire',
  title: 'Ogee spire',
  summary: 'Equal sides of an S-shaped profile up to a point: hollow below and rounded above, or the other way about.',
  alsoCalled: ['bell', 'cyma', 'S-curve', 'steeple'],
  params: [
    sidesParam,
    ...regularParams,
    riseParam,
    pitchParam(
      'eavePitch',
      'Eave pitch',
      'How steep the sides begin: flat for a hollow foot, steep for a rounded one.',
      30,
    ),
    pitchParam('tipPitch', 'Tip pitch', 'How steep the sides are at the very top.', 66),
    {
      key: 'bendRise',
      label: 'Bend rise',
      help: 'From the eave to where the curve changes over.',
      quantity: 'length',
      min: 1,
      max: 2000,
      default: 24,
    },
    bandsParam(8),
  ],
  hasVerge: false,
  outlineFromBody: regularWithEave,
  build: (values) => {
    const { sides = USUAL_SIDES, rise = 0, bands = 8 } = values;
    const apothem = apothemFrom(values, sides);
    if (!apothem.ok) return apothem;
    const arcs = ogeeArcs({ eavePitch: 0, tipPitch: 0, bendRise: 0, ...values, rise, run: apothem.value });
    if (!arcs.ok) return arcs;
    const profile = sampleProfile([apothem.value, 0], arcs.value, bands);
    const points: Vec2[] = [...profile.points.slice(0, -1), [0, rise]];
    return succeed(raiseRegular(sides, points), [curveNote(profile.deviation, 'bands')]);
  },
  examples: [
    {
      title: 'Custom house bell',
      shape: { sides: 8, acrossFlats: 64, rise: 76, eavePitch: 34, tipPitch: 58, bendRise: 27, bands: 8 },
    },
    {
      title: 'Tea pavilion',
      shape: { sides: 6, side: 30, rise: 40, eavePitch: 80, tipPitch: 74, bendRise: 22, bands: 6 },
    },
  ],
});

interface OgeeShape {
  readonly run: number;
  readonly rise: number;
  readonly eavePitch: number;
  readonly tipPitch: number;
  readonly bendRise: number;
}

/**
 * Two arcs that run into each other at the bend: one from the pitch of the eave, the other to that of the tip. The chord of an arc
 * has the mean of the pitches at its ends, so that with a pitch m at the bend they reach in by
 * bendRise / tan((eave + m) / 2) + (rise - bendRise) / tan((m + tip) / 2), which has to be the run. Steeper at the bend they reach
 * in less, so that halving finds m.
 */
function ogeeArcs({ run, rise, eavePitch, tipPitch, bendRise }: OgeeShape): Result<readonly Arc[]> {
  const tooHigh = checkLevel(bendRise, rise, 'bendRise');
  if (tooHigh.length > 0) return fail(...tooHigh);
  const heights = [bendRise, rise - bendRise] as const;
  const along = (bend: number): readonly [number, number] => [(eavePitch + bend) / 2, (bend + tipPitch) / 2];
  const reach = (bend: number): number => {
    const [below, above] = along(bend);
    return heights[0] / Math.tan(below) + heights[1] / Math.tan(above);
  };
  if (reach(steepness.max) > run) return fail(noBend(reach(steepness.max), run));
  let [low, high] = [0, steepness.max];
  for (;;) {
    const bend = (low + high) / 2;
    if (bend === low || bend === high) break;
    if (reach(bend) > run) low = bend;
    else high = bend;
  }
  const [below, above] = along(low);
  return succeed([
    { from: eavePitch, to: low, chord: heights[0] / Math.sin(below) },
    { from: low, to: tipPitch, chord: heights[1] / Math.sin(above) },
  ]);
}

const noBend = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'no-bend',
  path: 'shape.eavePitch',
  numbers: { found, most },
  message:
    'Even all but upright at the bend the sides would reach in by {found}, and the middle is only {most} from the eave.',
  remedy: 'Make the eave or the tip steeper, or the roof lower.',
});

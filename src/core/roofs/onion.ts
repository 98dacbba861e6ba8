import type { Vec2 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Body } from '../project/project.ts';
import { CUT_MM } from '../tolerance.ts';
import { type Arc, roundDeviation, sampleProfile } from './construct/profile.ts';
import { raiseRegular } from './construct/raise-regular.ts';
import { bandsParam, roundNote } from './curve-notes.ts';
import { defineRoof } from './definition.ts';
import { checkLevel, MOST_SHARE, pitchParam, riseParam } from './height.ts';
import { apothemFrom, regularParams, regularWithEave, sidesParam } from './regular.ts';

const USUAL_GORES = 12;

/** Gores that swell out over a narrower neck and run up to a point. */
export const onion = defineRoof({
  id: 'onion',
  title: 'Onion',
  summary: 'Gores on a regular plan of 3 to 24 sides that swell out over the eave, then draw in to a point.',
  alsoCalled: ['onion dome', 'bulb', 'bulbous', 'imperial'],
  params: [
    { ...sidesParam, label: 'Gores', help: 'How many like strips go round.', default: USUAL_GORES },
    ...regularParams,
    riseParam,
    {
      key: 'bulge',
      label: 'Bulge',
      help: 'How far the widest part stands out beyond the eave.',
      quantity: 'length',
      min: 1,
      max: 300,
      default: 6,
    },
    {
      key: 'bulgeRise',
      label: 'Bulge rise',
      help: 'From the eave to the widest part.',
      quantity: 'length',
      min: 2,
      max: 1500,
      default: 16,
    },
    pitchParam('tipPitch', 'Tip pitch', 'How steep the point is at its very top.', 80),
    bandsParam(10),
  ],
  hasVerge: false,
  outlineFromBody: (body, overhang, { sides = USUAL_GORES }) => regularWithEave(body, overhang, { sides }),
  build: (values, body) => {
    const { sides = USUAL_GORES, rise = 0, bands = 10 } = values;
    const apothem = apothemFrom(values, sides);
    if (!apothem.ok) return apothem;
    const arcs = onionArcs({ bulge: 0, bulgeRise: 0, tipPitch: 0, ...values, rise, neck: apothem.value });
    if (!arcs.ok) return arcs;
    const profile = sampleProfile([apothem.value, 0], arcs.value, bands);
    const points: Vec2[] = [...profile.points.slice(0, -1), [0, rise]];
    return succeed({ ...raiseRegular(sides, points), overhangs: 'from-foot' }, [
      ...standing(body, apothem.value),
      roundNote(roundDeviation(profile, sides), profile.deviation),
    ]);
  },
  examples: [
    {
      title: 'Chapel of the saltmarsh',
      shape: { sides: 12, acrossFlats: 40, rise: 74, bulge: 9, bulgeRise: 20, tipPitch: 78, bands: 10 },
    },
    { title: 'Bath house', shape: { sides: 8, side: 18, rise: 66, bulge: 6, bulgeRise: 15, tipPitch: 72, bands: 8 } },
  ],
});

interface OnionShape {
  /** Centre to the middle of an eave. */
  readonly neck: number;
  readonly rise: number;
  readonly bulge: number;
  readonly bulgeRise: number;
  readonly tipPitch: number;
}

/**
 * Two arcs that run into each other without a bend. The lower one, of radius p = (bulge² + bulgeRise²) / (2 bulge), has its
 * centre at the level of the widest part and passes through the eave. The upper one, of radius q, ends at the peak with the
 * pitch t of the tip, so that its centre lies at q (sin t, cos t) from the peak. They touch from outside where the centres are
 * p + q apart, which with the lower centre c from the axis and h under the peak makes
 * q = (h² + c² - p²) / (2 (p + c sin t - h cos t)).
 */
function onionArcs({ neck, rise, bulge, bulgeRise, tipPitch }: OnionShape): Result<readonly Arc[]> {
  const tooHigh = checkLevel(bulgeRise, rise, 'bulgeRise');
  if (tooHigh.length > 0) return fail(...tooHigh);
  const most = MOST_SHARE * bulgeRise;
  if (bulge > most) return fail(bulgeTooWide(bulge, bulgeRise, most));
  const lower = (bulge ** 2 + bulgeRise ** 2) / (2 * bulge);
  const centre = neck + bulge - lower;
  const height = rise - bulgeRise;
  const [sin, cos] = [Math.sin(tipPitch), Math.cos(tipPitch)];
  const reach = height ** 2 + centre ** 2 - lower ** 2;
  const room = lower + centre * sin - height * cos;
  // From the centre of the lower arc to that of the upper one: where they touch lies on this line.
  const upper = reach / (2 * room);
  const [out, up] = [upper * sin - centre, height + upper * cos];
  const touch = Math.atan2(up, out);
  if (!(reach > 0 && room > 0 && out > 0 && tipPitch > Math.PI / 2 - touch)) return fail(noOnion);
  const start = Math.PI / 2 + Math.atan2(bulgeRise, lower - bulge);
  const middle = Math.PI / 2 - touch;
  return succeed([
    { from: start, to: middle, chord: 2 * lower * Math.sin((start - middle) / 2) },
    { from: middle, to: tipPitch, chord: 2 * upper * Math.sin((tipPitch - middle) / 2) },
  ]);
}

/** A neck wider than the body has nothing to come down on but a plate under it. */
function standing(body: Body | null, neck: number): readonly Issue[] {
  const widths = body?.outline.map(([x, y]) => Math.hypot(x, y)) ?? [];
  const by = neck - Math.max(...widths);
  return widths.length === 0 || by <= CUT_MM ? [] : [needsPlate(by)];
}

const needsPlate = (by: number): Issue => ({
  level: 'note',
  code: 'needs-plate',
  path: 'shape',
  numbers: { by },
  message: 'The neck stands {by} out beyond the body, and nothing inside it would come to rest.',
  remedy: 'Glue a plate of board under the neck for it to stand on.',
});

const bulgeTooWide = (found: number, level: number, most: number): Issue => ({
  level: 'error',
  code: 'bulge-too-wide',
  path: 'shape.bulge',
  numbers: { found, level, most },
  message: 'To stand {found} out at a level of {level} the sides would have to leave the eave downwards.',
  remedy: 'Keep the bulge at {most} or under, or its widest part higher.',
});

const noOnion: Issue = {
  level: 'error',
  code: 'no-onion',
  path: 'shape',
  message: 'From the widest part no curve runs up to this peak with this pitch of the tip.',
  remedy: 'Make the roof higher, its widest part lower, or the tip steeper.',
};

import { fail, type Issue } from '../issue.ts';
import { UPRIGHT } from './construct/raise-roof.ts';
import { bandsBy, gableEnd, raiseRectangle, ridgeWinds } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { checkLevel, heightParams, MOST_SHARE, riseFrom, steepness } from './height.ts';
import { checkWallBody, endsParam, gableFromBody, rectangleParams, ridgeParam } from './outline.ts';

/** A gable whose top is cut off at both ends by small hips. */
export const halfHip = defineRoof({
  id: 'half-hip',
  title: 'Half-hip',
  summary: 'A gable roof, both or one of whose ends slope back from part of the way up.',
  alsoCalled: ['half-hipped', 'jerkinhead', 'clipped gable', 'snub gable'],
  params: [
    ...rectangleParams,
    ...heightParams,
    {
      key: 'gableRise',
      label: 'Gable rise',
      help: 'From the eave to where the ends slope back.',
      quantity: 'length',
      min: 1,
      max: 2000,
      default: 20,
    },
    {
      key: 'endPitch',
      label: 'End pitch',
      help: 'How steep the ends are above their gables; as the slopes unless said otherwise.',
      quantity: 'pitch',
      ...steepness,
      optional: true,
    },
    ridgeParam,
    {
      key: 'hipped',
      label: 'Hipped ends',
      help: 'Whether both ends slope back, or only the right or back one; the other stays a gable.',
      quantity: 'choice',
      default: 'both',
      choices: [
        { value: 'both', label: 'Both' },
        { value: 'one', label: 'One' },
      ],
    },
    endsParam,
  ],
  hasVerge: true,
  outlineFromBody: (body, overhang, { ridge }) => gableFromBody(body, overhang, ridge),
  build: (values, body) => {
    const { width = 0, depth = 0, gableRise = 0, endPitch, ridge, hipped, ends } = values;
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    const [length, span] = ridge === 'along-depth' ? [depth, width] : [width, depth];
    const run = span / 2;
    const rise = riseFrom(values, run);
    if (!rise.ok) return rise;
    const pitch = Math.atan2(rise.value, run);
    // The end slopes must not meet, or a single one its opposite gable, before the others do.
    const endRun = hipped === 'one' ? length : length / 2;
    const least = rise.value - endRun * Math.tan(endPitch ?? pitch);
    const wrong = [...checkLevel(gableRise, rise.value, 'gableRise'), ...checkEnds(gableRise, least, rise.value)];
    if (wrong.length > 0) return fail(...wrong);
    const winds = ridgeWinds(ridge);
    const end = [
      { level: 0, pitch: UPRIGHT },
      { level: gableRise, pitch: endPitch ?? pitch },
    ];
    const both = bandsBy(winds, [{ level: 0, pitch }], end);
    const bands = hipped === 'one' ? { ...both, [gableEnd(ridge)]: [{ level: 0, pitch: UPRIGHT }] } : both;
    return raiseRectangle({ width, depth, bands, walls: ends === 'open' ? [] : winds.ends, body });
  },
  examples: [
    { title: 'Rope walk', shape: { width: 132, depth: 70, pitch: 46, gableRise: 21 } },
    { title: 'Salt store', shape: { width: 76, depth: 98, rise: 52, gableRise: 30, ridge: 'along-depth' } },
    { title: 'Cooperage', shape: { width: 94, depth: 66, pitch: 44, gableRise: 18, hipped: 'one' } },
    { title: 'Oar store', shape: { width: 86, depth: 60, pitch: 40, gableRise: 10, endPitch: 62 } },
  ],
});

function checkEnds(found: number, least: number, rise: number): readonly Issue[] {
  if (found >= least) return [];
  return [
    {
      level: 'error',
      code: 'ends-meet',
      path: 'shape.gableRise',
      numbers: { found, least },
      message: 'Gables {found} high let the two ends meet below the ridge.',
      // A roof so short has no gable that would do.
      remedy:
        least > MOST_SHARE * rise ? 'Make the roof longer.' : 'Make them at least {least} high, or the roof longer.',
    },
  ];
}

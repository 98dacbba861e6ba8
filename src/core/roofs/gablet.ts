import { fail, type Issue } from '../issue.ts';
import { UPRIGHT } from './construct/raise-roof.ts';
import { bandsBy, raiseRectangle, ridgeWinds } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { checkLevel, heightParams, MOST_SHARE, riseFrom, steepness } from './height.ts';
import { rectangleParams, rectangleWithEave, ridgeParam } from './outline.ts';

/** A hip roof below, a gable roof at the top. */
export const gablet = defineRoof({
  id: 'gablet',
  title: 'Gablet',
  summary: 'A hip roof whose ridge ends in small upright gables above the end slopes.',
  alsoCalled: ['hipped and gabled', 'Dutch gable'],
  params: [
    ...rectangleParams,
    ...heightParams,
    {
      key: 'hipRise',
      label: 'Hip rise',
      help: 'From the eave to the foot of the small gables.',
      quantity: 'length',
      min: 1,
      max: 2000,
      default: 20,
    },
    {
      key: 'endPitch',
      label: 'End pitch',
      help: 'How steep the end slopes below the gables are; as the slopes unless said otherwise.',
      quantity: 'pitch',
      ...steepness,
      optional: true,
    },
    ridgeParam,
  ],
  hasVerge: false,
  outlineFromBody: rectangleWithEave,
  build: (values) => {
    const { width = 0, depth = 0, hipRise = 0, endPitch, ridge } = values;
    const [length, span] = ridge === 'along-depth' ? [depth, width] : [width, depth];
    const run = span / 2;
    const rise = riseFrom(values, run);
    if (!rise.ok) return rise;
    const pitch = Math.atan2(rise.value, run);
    // Below this level the two end slopes have not met.
    const most = (MOST_SHARE * (length * Math.tan(endPitch ?? pitch))) / 2;
    const wrong = [...checkLevel(hipRise, rise.value, 'hipRise'), ...checkEnds(hipRise, most)];
    if (wrong.length > 0) return fail(...wrong);
    const end = [
      { level: 0, pitch: endPitch ?? pitch },
      { level: hipRise, pitch: UPRIGHT },
    ];
    const bands = bandsBy(ridgeWinds(ridge), [{ level: 0, pitch }], end);
    return raiseRectangle({ width, depth, bands, walls: [], body: null });
  },
  examples: [
    { title: 'Sail loft', shape: { width: 116, depth: 82, pitch: 44, hipRise: 24 } },
    { title: 'Rigging loft', shape: { width: 96, depth: 68, pitch: 40, hipRise: 16, endPitch: 58 } },
    { title: 'Tide mill', shape: { width: 78, depth: 104, rise: 46, hipRise: 30, ridge: 'along-depth' } },
  ],
});

function checkEnds(found: number, most: number): readonly Issue[] {
  if (found <= most) return [];
  return [
    {
      level: 'error',
      code: 'ends-meet',
      path: 'shape.hipRise',
      numbers: { found, most },
      message: 'The two end slopes meet before they are {found} high, so that no gable stands on them.',
      remedy: 'Keep them at {most} or under, or make the roof longer.',
    },
  ];
}

import { fail, type Issue } from '../issue.ts';
import { UPRIGHT } from './construct/raise-roof.ts';
import { bandsBy, raiseRectangle, ridgeWinds } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { checkLevel, heightParams, MOST_SHARE, riseFrom } from './height.ts';
import { rectangleParams, rectangleWithEave, ridgeParam } from './outline.ts';

/** A hip roof below, a gable roof at the top. */
export const gablet = defineRoof({
  id: 'gablet',
  title: 'Gablet',
  summary: 'A hip roof whose ridge ends in small upright gables above the end slopes.',
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
    ridgeParam,
  ],
  hasVerge: false,
  outlineFromBody: rectangleWithEave,
  build: (values) => {
    const { width = 0, depth = 0, hipRise = 0, ridge } = values;
    const [length, span] = ridge === 'along-depth' ? [depth, width] : [width, depth];
    const run = span / 2;
    const rise = riseFrom(values, run);
    if (!rise.ok) return rise;
    // Below this level the two end slopes have not met.
    const most = (MOST_SHARE * (rise.value * length)) / span;
    const wrong = [...checkLevel(hipRise, rise.value, 'hipRise'), ...checkEnds(hipRise, most)];
    if (wrong.length > 0) return fail(...wrong);
    const pitch = Math.atan2(rise.value, run);
    const end = [
      { level: 0, pitch },
      { level: hipRise, pitch: UPRIGHT },
    ];
    const bands = bandsBy(ridgeWinds(ridge), [{ level: 0, pitch }], end);
    return raiseRectangle({ width, depth, bands, walls: [], body: null });
  },
  examples: [
    { title: 'Sail loft', shape: { width: 116, depth: 82, pitch: 44, hipRise: 24 } },
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

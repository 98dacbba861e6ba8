import { fail } from '../issue.ts';
import { UPRIGHT } from './construct/raise-roof.ts';
import { raiseRectangle, type Wind, winds } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { checkWallBody, endsParam, gableFromBody, rectangleParams } from './outline.ts';

/** The wind that the slope faces, by its high side. */
const facing = { north: 'south', east: 'west', south: 'north', west: 'east' } as const satisfies Record<Wind, Wind>;

/** One slope from one side up to the opposite one. */
export const shed = defineRoof({
  id: 'shed',
  title: 'Shed',
  summary: 'One slope that rises from the front to the back, or to another side, over walls on its other three sides.',
  alsoCalled: ['skillion', 'single pitch', 'monopitch', 'pent'],
  params: [
    ...rectangleParams,
    ...heightParams,
    {
      key: 'high',
      label: 'High side',
      help: 'Where the slope rises to.',
      quantity: 'choice',
      default: 'north',
      choices: [
        { value: 'north', label: 'Back (north)' },
        { value: 'east', label: 'Right (east)' },
        { value: 'south', label: 'Front (south)' },
        { value: 'west', label: 'Left (west)' },
      ],
    },
    endsParam,
  ],
  hasVerge: true,
  outlineFromBody: (body, overhang, { high = 'north' }) =>
    gableFromBody(body, overhang, high === 'north' || high === 'south' ? 'along-width' : 'along-depth'),
  build: (values, body) => {
    const { width = 0, depth = 0, high = 'north', ends } = values;
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    const low = facing[high];
    const run = low === 'south' || low === 'north' ? depth : width;
    const rise = riseFrom(values, run);
    if (!rise.ok) return rise;
    const upright = [{ level: 0, pitch: UPRIGHT }];
    return raiseRectangle({
      width,
      depth,
      bands: {
        south: upright,
        east: upright,
        north: upright,
        west: upright,
        [low]: [{ level: 0, pitch: Math.atan2(rise.value, run) }],
      },
      walls: ends === 'open' ? [] : winds.filter((wind) => wind !== low),
      body,
    });
  },
  examples: [
    { title: 'Bait shed', shape: { width: 84, depth: 52, pitch: 24 } },
    { title: 'Coal store', shape: { width: 60, depth: 66, rise: 18, ends: 'open' } },
    { title: 'Lean loft', shape: { width: 54, depth: 88, rise: 21, high: 'east' } },
  ],
});

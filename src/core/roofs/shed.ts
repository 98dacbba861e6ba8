import { fail } from '../issue.ts';
import { UPRIGHT } from './construct/raise-roof.ts';
import { raiseRectangle } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { checkWallBody, endsParam, gableFromBody, rectangleParams } from './outline.ts';

/** One slope from the front up to the back. */
export const shed = defineRoof({
  id: 'shed',
  title: 'Shed',
  summary: 'One slope that rises from the front to the back, over walls on its other three sides.',
  alsoCalled: ['skillion', 'single pitch', 'monopitch', 'pent'],
  params: [...rectangleParams, ...heightParams, endsParam],
  hasVerge: true,
  outlineFromBody: (body, overhang) => gableFromBody(body, overhang, 'along-width'),
  build: (values, body) => {
    const { width = 0, depth = 0, ends } = values;
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    const rise = riseFrom(values, depth);
    if (!rise.ok) return rise;
    const upright = [{ level: 0, pitch: UPRIGHT }];
    return raiseRectangle({
      width,
      depth,
      bands: {
        south: [{ level: 0, pitch: Math.atan2(rise.value, depth) }],
        east: upright,
        north: upright,
        west: upright,
      },
      walls: ends === 'open' ? [] : ['east', 'north', 'west'],
      body,
    });
  },
  examples: [
    { title: 'Bait shed', shape: { width: 84, depth: 52, pitch: 24 } },
    { title: 'Coal store', shape: { width: 60, depth: 66, rise: 18, ends: 'open' } },
  ],
});

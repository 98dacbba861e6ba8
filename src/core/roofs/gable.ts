import { fail } from '../issue.ts';
import { UPRIGHT } from './construct/raise-roof.ts';
import { bandsBy, raiseRectangle, ridgeWinds } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { checkWallBody, endsParam, gableFromBody, rectangleParams, ridgeParam } from './outline.ts';

/** Two slopes that meet in a level ridge, with end walls under it or open ends. */
export const gable = defineRoof({
  id: 'gable',
  title: 'Gable',
  summary: 'Two slopes that meet in a level ridge; the ends are upright walls or left open.',
  alsoCalled: ['gabled', 'saddleback', 'double pitch', 'A-frame'],
  params: [...rectangleParams, ...heightParams, ridgeParam, endsParam],
  hasVerge: true,
  outlineFromBody: (body, overhang, { ridge }) => gableFromBody(body, overhang, ridge),
  build: (values, body) => {
    const { width = 0, depth = 0, ridge, ends } = values;
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    const run = (ridge === 'along-depth' ? width : depth) / 2;
    const rise = riseFrom(values, run);
    if (!rise.ok) return rise;
    const winds = ridgeWinds(ridge);
    const slope = [{ level: 0, pitch: Math.atan2(rise.value, run) }];
    const bands = bandsBy(winds, slope, [{ level: 0, pitch: UPRIGHT }]);
    return raiseRectangle({ width, depth, bands, walls: ends === 'open' ? [] : winds.ends, body });
  },
  examples: [
    { title: 'Net loft', shape: { width: 92, depth: 58, pitch: 47 } },
    { title: 'Chapel nave', shape: { width: 64, depth: 110, rise: 55, ridge: 'along-depth' } },
    { title: 'Open boat shed', shape: { width: 120, depth: 76, slant: 52, ends: 'open' } },
  ],
});

import { fail, type Issue } from '../issue.ts';
import { UPRIGHT } from './construct/raise-roof.ts';
import { bandsBy, raiseRectangle, ridgeWinds } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { rectangleFromBody, rectangleParams } from './outline.ts';

/** Two slopes that meet in a level ridge, with end walls under it or open ends. */
export const gable = defineRoof({
  id: 'gable',
  title: 'Gable',
  summary: 'Two slopes that meet in a level ridge; the ends are upright walls or left open.',
  params: [
    ...rectangleParams,
    ...heightParams,
    {
      key: 'ridge',
      label: 'Ridge',
      help: 'Which way the ridge runs.',
      quantity: 'choice',
      default: 'along-width',
      choices: [
        { value: 'along-width', label: 'Along the width' },
        { value: 'along-depth', label: 'Along the depth' },
      ],
    },
    {
      key: 'ends',
      label: 'Gable ends',
      help: 'End walls as panels of the roof, flush with the body, or no end walls.',
      quantity: 'choice',
      default: 'walls',
      choices: [
        { value: 'walls', label: 'Walls' },
        { value: 'open', label: 'Open' },
      ],
    },
  ],
  hasVerge: true,
  outlineFromBody: (body, { eave, verge }, { ridge }) =>
    ridge === 'along-depth' ? rectangleFromBody(body, eave, verge) : rectangleFromBody(body, verge, eave),
  build: (values, body) => {
    const { width = 0, depth = 0, ridge, ends } = values;
    if (body && !body.rectangle && ends !== 'open') return fail(wallsNeedRectangle);
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

const wallsNeedRectangle: Issue = {
  level: 'error',
  code: 'body-not-rectangular',
  path: 'body',
  message: 'The end walls stand on the body, so it has to be rectangular; this one is a regular polygon.',
  remedy: 'Give the body a width and a depth, or leave the gable ends open.',
};

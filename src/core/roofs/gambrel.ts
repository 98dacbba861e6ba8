import { fail } from '../issue.ts';
import { UPRIGHT } from './construct/raise-roof.ts';
import { bandsBy, raiseRectangle, ridgeWinds } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { checkWallBody, endsParam, gableFromBody, rectangleParams, ridgeParam } from './outline.ts';
import { breakSlope, twoPitchParams } from './two-pitches.ts';

/** A gable roof with two pitches on either side. */
export const gambrel = defineRoof({
  id: 'gambrel',
  title: 'Gambrel',
  summary: 'A gable roof, each side with a steep lower and a flatter upper slope.',
  alsoCalled: ['barn', 'two slopes a side'],
  params: [...rectangleParams, ...twoPitchParams, ridgeParam, endsParam],
  hasVerge: true,
  outlineFromBody: (body, overhang, { ridge }) => gableFromBody(body, overhang, ridge),
  build: (values, body) => {
    const { width = 0, depth = 0, ridge, ends } = values;
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    const slope = breakSlope(values, (ridge === 'along-depth' ? width : depth) / 2);
    if (!slope.ok) return slope;
    const winds = ridgeWinds(ridge);
    const bands = bandsBy(winds, slope.value, [{ level: 0, pitch: UPRIGHT }]);
    return raiseRectangle({ width, depth, bands, walls: ends === 'open' ? [] : winds.ends, body });
  },
  examples: [
    { title: 'Chandlery', shape: { width: 118, depth: 72, rise: 48, breakRise: 27, lowerPitch: 62 } },
    {
      title: 'Hay barn',
      shape: { width: 84, depth: 126, rise: 60, breakRise: 30, lowerPitch: 58, ridge: 'along-depth' },
    },
    { title: 'Shot tower store', shape: { width: 88, depth: 64, upperPitch: 24, breakRise: 22, lowerPitch: 66 } },
  ],
});

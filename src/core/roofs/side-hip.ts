import { fail, type Issue } from '../issue.ts';
import { isAtMost } from '../tolerance.ts';
import { UPRIGHT } from './construct/raise-roof.ts';
import { bandsBy, gableEnd, raiseRectangle, ridgeWinds } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom, steepness } from './height.ts';
import { checkWallBody, endsParam, rectangleParams, rectangleWithEave, ridgeParam } from './outline.ts';

/** A hip roof with one end only: the other is a gable. */
export const sideHip = defineRoof({
  id: 'side-hip',
  title: 'Side hip',
  summary: 'A roof with a hip at its right or back end and a gable at the other.',
  alsoCalled: ['side hipped', 'one end hipped'],
  params: [
    ...rectangleParams,
    ...heightParams,
    {
      key: 'endPitch',
      label: 'End pitch',
      help: 'How steep the hipped end is; as the slopes unless said otherwise.',
      quantity: 'pitch',
      ...steepness,
      optional: true,
    },
    ridgeParam,
    endsParam,
  ],
  // An eave stands out at three sides, and the gable as far, so that the roof stays over the middle of its body.
  hasVerge: false,
  outlineFromBody: rectangleWithEave,
  build: (values, body) => {
    const { width = 0, depth = 0, endPitch, ridge, ends } = values;
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    const [length, span] = ridge === 'along-depth' ? [depth, width] : [width, depth];
    const run = span / 2;
    const rise = riseFrom(values, run);
    if (!rise.ok) return rise;
    const pitch = Math.atan2(rise.value, run);
    const endRun = rise.value / Math.tan(endPitch ?? pitch);
    // The end slope has to end before the gable.
    if (isAtMost(length, endRun)) return fail(tooShort(length, endRun));
    const winds = ridgeWinds(ridge);
    const gabled = gableEnd(ridge);
    const bands = {
      ...bandsBy(winds, [{ level: 0, pitch }], [{ level: 0, pitch: endPitch ?? pitch }]),
      [gabled]: [{ level: 0, pitch: UPRIGHT }],
    };
    return raiseRectangle({ width, depth, bands, walls: ends === 'open' ? [] : [gabled], body });
  },
  examples: [
    { title: 'Lifeboat station', shape: { width: 112, depth: 70, pitch: 41 } },
    { title: 'Bonded store', shape: { width: 104, depth: 64, rise: 30, endPitch: 66 } },
    { title: 'Smoke house', shape: { width: 62, depth: 88, rise: 32, ridge: 'along-depth' } },
  ],
});

const tooShort = (found: number, least: number): Issue => ({
  level: 'error',
  code: 'roof-too-short',
  path: 'shape',
  numbers: { found, least },
  message: 'Along the ridge the roof is {found} long, so the end slope meets the gable below the ridge.',
  remedy: 'Make it longer than {least}, the end steeper, or let the ridge run the other way.',
});

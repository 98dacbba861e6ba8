import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { NOISE_MM } from '../tolerance.ts';
import { toDegrees } from '../units/units.ts';
import { bandsBy, raiseRectangle, ridgeWinds } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom, steepness } from './height.ts';
import { evenPitch, footprintParam, planWithEave, raiseEvenly } from './measured-plan.ts';
import { rectangleParams } from './outline.ts';

/** Four slopes over a rectangle, the two ends steeper or flatter than the others where wanted. */
export const hip = defineRoof({
  id: 'hip',
  title: 'Hip',
  summary:
    'Four slopes over a rectangle, the two longer ones meeting in a ridge, or one from each side of a measured plan.',
  alsoCalled: ['hipped'],
  params: [
    ...rectangleParams,
    footprintParam,
    ...heightParams,
    {
      key: 'endPitch',
      label: 'End pitch',
      help: 'How steep the two shorter sides are; as the longer ones unless said otherwise.',
      quantity: 'pitch',
      ...steepness,
      optional: true,
    },
  ],
  hasVerge: false,
  outlineFromBody: planWithEave,
  build: (values) => {
    const { width = 0, depth = 0, corners, endPitch } = values;
    if (corners) {
      if (endPitch !== undefined) return fail(endsUnknown);
      const pitch = evenPitch(values, (one) => raiseEvenly(corners, [{ level: 0, pitch: one }]));
      return pitch.ok ? raiseEvenly(corners, [{ level: 0, pitch: pitch.value }]) : pitch;
    }
    const isFrontAnEnd = width < depth;
    const run = Math.min(width, depth) / 2;
    const rise = isFrontAnEnd && endPitch !== undefined ? riseOverEnd(values, endPitch) : riseFrom(values, run);
    if (!rise.ok) return rise;
    const least = Math.atan2(rise.value, Math.max(width, depth) / 2);
    const room = Math.max(width, depth) / 2 - rise.value / Math.tan(endPitch ?? Math.PI / 2);
    if (endPitch !== undefined && room < -NOISE_MM) return fail(endsMeet(endPitch, least));
    const pitch = Math.atan2(rise.value, run);
    return raiseRectangle({
      width,
      depth,
      bands: bandsBy(
        ridgeWinds(isFrontAnEnd ? 'along-depth' : 'along-width'),
        [{ level: 0, pitch }],
        [{ level: 0, pitch: endPitch ?? pitch }],
      ),
      walls: [],
      body: null,
    });
  },
  examples: [
    { title: 'Harbour office', shape: { width: 128, depth: 74, pitch: 38 } },
    { title: 'Ice house', shape: { width: 66, depth: 102, rise: 31 } },
    { title: 'Harbour master', shape: { width: 118, depth: 70, pitch: 42, endPitch: 64 } },
    {
      title: 'Crooked office',
      shape: {
        corners: [
          [0, 0],
          [96, 0],
          [101, 61],
          [-4, 57],
        ],
        pitch: 40,
      },
    },
  ],
});

/** The rise where the front is one of the ends, whose pitch is known: then a slant is that of the end. */
function riseOverEnd(
  { rise, pitch, slant = 0 }: { readonly rise?: number; readonly pitch?: number; readonly slant?: number },
  endPitch: number,
): Result<number> {
  if (rise !== undefined) return succeed(rise);
  return pitch === undefined ? succeed(slant * Math.sin(endPitch)) : fail(frontTwice);
}

const frontTwice: Issue = {
  level: 'error',
  code: 'front-pitch-twice',
  path: 'shape.endPitch',
  message: 'The front is an end of this roof, so its pitch is given twice: as pitch and as endPitch.',
  remedy: 'Give the rise instead of the pitch, or leave out endPitch.',
};

const endsUnknown: Issue = {
  level: 'error',
  code: 'ends-unknown',
  path: 'shape.endPitch',
  message: 'A measured plan has no two ends that share one pitch.',
  remedy: 'Leave out endPitch, or take a hip and valley and give its sides their own pitches.',
};

const endsMeet = (found: number, least: number): Issue => ({
  level: 'error',
  code: 'ends-meet',
  path: 'shape.endPitch',
  numbers: { foundDeg: toDegrees(found), leastDeg: toDegrees(least) },
  message: 'With a pitch of {foundDeg} the two ends meet below the ridge.',
  remedy: 'Make them {leastDeg} or steeper, or the roof longer or lower.',
});

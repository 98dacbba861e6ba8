import { fail, type Issue, succeed } from '../issue.ts';
import { NOISE_MM } from '../tolerance.ts';
import { toDegrees } from '../units/units.ts';
import { raiseProfile } from './construct/profile-roof.ts';
import { wallLines } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { checkLevel, heightParams, MOST_SHARE, riseFrom, steepness } from './height.ts';
import { checkWallBody, endsParam, gableFromBody, rectangleParams } from './outline.ts';

/** A gable roof whose two sides differ: the ridge off the middle, or the back eave higher than the front one. */
export const saltbox = defineRoof({
  id: 'saltbox',
  title: 'Saltbox',
  summary:
    'A gable roof with a long and a short side: its ridge off the middle, its back eave higher than the front one.',
  alsoCalled: ['catslide', 'long and short', 'uneven gable', 'gabled height moved'],
  params: [
    ...rectangleParams,
    ...heightParams,
    {
      key: 'ridgeOffset',
      label: 'Ridge offset',
      help: 'How far the ridge lies behind the middle; under 0 in front of it.',
      quantity: 'length',
      min: -1000,
      max: 1000,
      default: 10,
    },
    {
      key: 'backLift',
      label: 'Back lift',
      help: 'How far the back eave lies above the front one; as high as it unless said otherwise.',
      quantity: 'length',
      min: 0,
      max: 2000,
      optional: true,
    },
    {
      key: 'backPitch',
      label: 'Back pitch',
      help: 'How steep the back is, in place of the back lift, which then follows; follows from the back lift.',
      quantity: 'pitch',
      ...steepness,
      optional: true,
    },
    endsParam,
  ],
  hasVerge: true,
  outlineFromBody: (body, overhang) => gableFromBody(body, overhang, 'along-width'),
  build: (values, body) => {
    const { width = 0, depth = 0, ridgeOffset = 0, backLift: givenLift, backPitch, ends } = values;
    const unfit = [...checkWallBody(body, ends), ...checkRidge(ridgeOffset, depth)];
    if (unfit.length > 0) return fail(...unfit);
    const rise = riseFrom(values, depth / 2 + ridgeOffset);
    if (!rise.ok) return rise;
    if (givenLift !== undefined && backPitch !== undefined) return fail(backTwice);
    const backRun = depth / 2 - ridgeOffset;
    const fallen = backPitch === undefined ? 0 : rise.value - backRun * Math.tan(backPitch);
    if (fallen < -NOISE_MM) return fail(backTooSteep(backPitch ?? 0, Math.atan2(rise.value, backRun)));
    const backLift = givenLift ?? Math.max(0, fallen);
    const tooHigh = checkLevel(backLift, rise.value, 'backLift');
    if (tooHigh.length > 0) return fail(...tooHigh);
    const ridge = [ridgeOffset, rise.value] as const;
    const lines = wallLines({ width, depth, body });
    return succeed(
      raiseProfile({
        width,
        faces: [
          { id: 'south', title: 'South slope', from: [-depth / 2, 0], to: ridge },
          { id: 'north', title: 'North slope', from: ridge, to: [depth / 2, backLift] },
        ],
        walls:
          ends === 'open'
            ? []
            : [
                { ...lines.east, id: 'east', title: 'East gable' },
                { ...lines.west, id: 'west', title: 'West gable' },
                // The higher eave has some wall below it.
                ...(backLift === 0 ? [] : [{ ...lines.north, id: 'north-wall', title: 'North wall' }]),
              ],
      }),
    );
  },
  examples: [
    { title: 'Shipwright’s house', shape: { width: 96, depth: 84, pitch: 38, ridgeOffset: 12 } },
    { title: 'Two-level workshop', shape: { width: 82, depth: 70, pitch: 36, ridgeOffset: 12, backPitch: 36 } },
    { title: 'Net mender’s', shape: { width: 88, depth: 78, rise: 52, ridgeOffset: 16, backLift: 22 } },
  ],
});

function checkRidge(offset: number, depth: number): readonly Issue[] {
  const most = (MOST_SHARE * depth) / 2;
  if (Math.abs(offset) <= most) return [];
  return [
    {
      level: 'error',
      code: 'ridge-outside',
      path: 'shape.ridgeOffset',
      numbers: { found: offset, least: -most, most },
      message: 'The ridge would lie {found} off the middle, outside the eave outline.',
      remedy: 'Keep it between {least} and {most}.',
    },
  ];
}

const backTwice: Issue = {
  level: 'error',
  code: 'back-given-twice',
  path: 'shape.backPitch',
  message: 'The back is given twice: by its pitch and by how far its eave lies higher.',
  remedy: 'Leave out backPitch or backLift: the other follows.',
};

const backTooSteep = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'back-too-steep',
  path: 'shape.backPitch',
  numbers: { foundDeg: toDegrees(found), mostDeg: toDegrees(most) },
  message: 'With a pitch of {foundDeg} the back eave would lie lower than the front one.',
  remedy: 'Keep it at {mostDeg} or under, or turn the roof round: its front is the side that comes down lowest.',
});

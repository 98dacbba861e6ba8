import type { Vec2 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { isAtMost } from '../tolerance.ts';
import { raiseProfile } from './construct/profile-roof.ts';
import { wallLines } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, MOST_SHARE } from './height.ts';
import { checkWallBody, endsParam, gableFromBody, rectangleParams } from './outline.ts';

const DEGREE = Math.PI / 180;

/** A row of slopes, each ending in a ridge with windows behind it. */
export const sawtooth = defineRoof({
  id: 'sawtooth',
  title: 'Sawtooth',
  summary: 'A row of one-sided ridges: slopes facing the front, and steep or upright glazing facing the back.',
  alsoCalled: ['factory', 'north light', 'shed row'],
  params: [
    ...rectangleParams,
    ...heightParams,
    {
      key: 'teeth',
      label: 'Teeth',
      help: 'How many ridges there are from front to back.',
      quantity: 'count',
      min: 2,
      max: 12,
      default: 3,
    },
    {
      key: 'glazingPitch',
      label: 'Glazing pitch',
      help: 'How steep the glazing behind each ridge is; 90° is upright.',
      quantity: 'pitch',
      min: 20 * DEGREE,
      max: 90 * DEGREE,
      default: 90 * DEGREE,
    },
    endsParam,
  ],
  hasVerge: true,
  outlineFromBody: (body, overhang) => gableFromBody(body, overhang, 'along-width'),
  build: (values, body) => {
    const { width = 0, depth = 0, teeth = 3, glazingPitch = Math.PI / 2, ends } = values;
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    const tooth = depth / teeth;
    const perRise = glazingPitch >= Math.PI / 2 ? 0 : 1 / Math.tan(glazingPitch);
    const height = toothRise(values, tooth, perRise);
    if (!height.ok) return height;
    const rise = height.value;
    const most = perRise === 0 ? Number.POSITIVE_INFINITY : (MOST_SHARE * tooth) / perRise;
    if (!isAtMost(rise, most)) return fail(glazingTooFlat(rise, most));
    const foot = (i: number): Vec2 => [-depth / 2 + i * tooth, 0];
    const ridge = (i: number): Vec2 => [-depth / 2 + (i + 1) * tooth - rise * perRise, rise];
    const numbers = Array.from({ length: teeth }, (_, i) => i);
    const { south, east, west } = wallLines({ width, depth, body });
    /** The part of an end wall under one tooth; empty where the body ends before it. */
    const under = (i: number): readonly [number, number] => [
      Math.max(east.from[1], foot(i)[0]),
      Math.min(east.to[1], foot(i + 1)[0]),
    ];
    return succeed(
      raiseProfile({
        width,
        faces: numbers.flatMap((i) => [
          { id: `slope-${i + 1}`, title: `Slope ${i + 1}`, from: foot(i), to: ridge(i) },
          { id: `glazing-${i + 1}`, title: `Glazing ${i + 1}`, from: ridge(i), to: foot(i + 1) },
        ]),
        walls:
          ends === 'open'
            ? []
            : [
                { ...south, id: 'south-wall', title: 'South wall' },
                ...numbers.flatMap((i) => {
                  const [start, end] = under(i);
                  if (start >= end) return [];
                  const [e, w] = [east.from[0], west.from[0]];
                  return [
                    { id: `east-wall-${i + 1}`, title: `East wall ${i + 1}`, from: [e, start], to: [e, end] } as const,
                    { id: `west-wall-${i + 1}`, title: `West wall ${i + 1}`, from: [w, end], to: [w, start] } as const,
                  ];
                }),
              ],
      }),
    );
  },
  examples: [
    { title: 'Weaving shed', shape: { width: 104, depth: 126, teeth: 3, pitch: 26 } },
    { title: 'Boat works', shape: { width: 86, depth: 120, teeth: 4, rise: 14, glazingPitch: 68 } },
  ],
});

/**
 * Rise of one tooth from whichever of rise, pitch and slant is given. The glazing takes its part of the tooth, `perRise` of run
 * for each of rise, and the slope has the rest: with a slant s over a tooth t, s² = r² + (t - r · perRise)².
 */
function toothRise(
  { rise, pitch, slant = 0 }: { readonly rise?: number; readonly pitch?: number; readonly slant?: number },
  tooth: number,
  perRise: number,
): Result<number> {
  if (rise !== undefined) return succeed(rise);
  if (pitch !== undefined) return succeed(tooth / (1 / Math.tan(pitch) + perRise));
  const square = 1 + perRise ** 2;
  // The shortest way from the tooth's foot to the line of the glazing.
  const least = tooth / Math.sqrt(square);
  if (slant <= least) return fail(slantTooShort(slant, least));
  return succeed((tooth * perRise + Math.sqrt(square * slant ** 2 - tooth ** 2)) / square);
}

const slantTooShort = (found: number, least: number): Issue => ({
  level: 'error',
  code: 'slant-too-short',
  path: 'shape.slant',
  numbers: { found, least },
  message: 'A slant of {found} does not reach the glazing: from the foot of the slope that is {least} away.',
  remedy: 'Make the slant longer than {least}, or give the rise or the pitch instead.',
});

const glazingTooFlat = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'glazing-too-flat',
  path: 'shape.glazingPitch',
  numbers: { found, most },
  message: 'At this pitch the glazing of a tooth {found} high leaves no room for its slope.',
  remedy: 'Keep the rise at {most} or under, make the glazing steeper, or take fewer teeth.',
});

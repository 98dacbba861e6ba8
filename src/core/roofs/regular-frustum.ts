import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { raiseRegular } from './construct/raise-regular.ts';
import { defineRoof } from './definition.ts';
import { MOST_SHARE, riseParam, steepness } from './height.ts';
import { apothemFrom, oddAcrossFlats, regularParams, regularWithEave, sidesParam, USUAL_SIDES } from './regular.ts';

/** A regular pyramid cut off level. */
export const regularFrustum = defineRoof({
  id: 'regular-frustum',
  title: 'Regular frustum',
  summary: 'Equal slopes on a regular plan of 3 to 24 sides that end in a flat top.',
  alsoCalled: ['truncated', 'cut off', 'deck', 'terrace', 'octagon'],
  params: [
    sidesParam,
    ...regularParams,
    riseParam,
    {
      key: 'pitch',
      label: 'Pitch',
      help: 'How steep the slopes are; follows from the size of the top.',
      quantity: 'pitch',
      ...steepness,
      optional: true,
    },
    {
      key: 'topSide',
      label: 'Top side',
      help: 'Length of one edge of the flat top; follows from the pitch.',
      quantity: 'length',
      min: 1,
      max: 1500,
      optional: true,
    },
    {
      key: 'topAcrossFlats',
      label: 'Top across flats',
      help: 'From one edge of the top straight across, with even numbers of sides; follows from the pitch.',
      quantity: 'length',
      min: 1,
      max: 2000,
      optional: true,
    },
  ],
  hasVerge: false,
  outlineFromBody: regularWithEave,
  build: (values) => {
    const { sides = USUAL_SIDES, rise = 0 } = values;
    const apothem = apothemFrom(values, sides);
    if (!apothem.ok) return apothem;
    const top = topFrom(values, apothem.value, sides);
    if (!top.ok) return top;
    return succeed(
      raiseRegular(sides, [
        [apothem.value, 0],
        [top.value, rise],
      ]),
    );
  },
  examples: [
    { title: 'Lantern gallery', shape: { sides: 8, acrossFlats: 72, rise: 26, topAcrossFlats: 38 } },
    { title: 'Beacon base', shape: { sides: 6, side: 34, rise: 31, pitch: 58 } },
    { title: 'Well house', shape: { sides: 12, acrossCorners: 90, rise: 18, topSide: 9 } },
  ],
});

interface TopSize {
  readonly rise?: number;
  readonly pitch?: number;
  readonly topSide?: number;
  readonly topAcrossFlats?: number;
}

/** Centre to the middle of an edge of the top, mm. */
function topFrom(values: TopSize, apothem: number, sides: number): Result<number> {
  const { rise = 0, pitch, topSide, topAcrossFlats } = values;
  const given = [pitch, topSide, topAcrossFlats].filter((value) => value !== undefined);
  if (given.length !== 1) return fail(given.length === 0 ? topUnknown : topTwice);
  if (pitch !== undefined) {
    const most = MOST_SHARE * apothem * Math.tan(pitch);
    return rise > most ? fail(noTop(rise, most)) : succeed(apothem - rise / Math.tan(pitch));
  }
  if (topAcrossFlats !== undefined && sides % 2 === 1) return fail(oddAcrossFlats(sides, 'shape.topAcrossFlats'));
  const key = topSide === undefined ? 'topAcrossFlats' : 'topSide';
  const found = topSide ?? topAcrossFlats ?? 0;
  const size = topSide === undefined ? 2 : 2 * Math.tan(Math.PI / sides);
  const most = MOST_SHARE * apothem * size;
  return found > most ? fail(topTooWide(key, found, most)) : succeed(found / size);
}

const topUnknown: Issue = {
  level: 'error',
  code: 'top-unknown',
  path: 'shape',
  message: 'How large the flat top is remains open.',
  remedy: 'Give the pitch of the slopes or a size of the top.',
};

const topTwice: Issue = {
  level: 'error',
  code: 'top-twice',
  path: 'shape',
  message: 'The flat top is said more than once: by the pitch and its size, or by two sizes.',
  remedy: 'Keep one of them; the others follow.',
};

const noTop = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'no-top',
  path: 'shape.rise',
  numbers: { found, most },
  message: 'At this pitch the slopes meet before they are {found} high, so there is no flat top.',
  remedy: 'Keep the rise at {most} or under, or make the pitch steeper.',
});

const topTooWide = (key: string, found: number, most: number): Issue => ({
  level: 'error',
  code: 'top-too-wide',
  path: `shape.${key}`,
  numbers: { found, most },
  message: 'A top of {found} leaves no slope between it and the eave.',
  remedy: 'Keep it at {most} or under, or make the eave longer.',
});

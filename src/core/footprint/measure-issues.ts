import type { Issue } from '../issue.ts';
import { toDegrees } from '../units/units.ts';

/** Sentences about measures of a plan; paths are its keys, corners and sides are counted from 1 as a maker counts them. */

const error = (
  code: string,
  path: string,
  numbers: Readonly<Record<string, number>>,
  message: string,
  remedy: string,
): Issue => ({ level: 'error', code, path, numbers, message, remedy });

export const noTriangle = (path: string, [a, b, c]: readonly [number, number, number]): Issue => {
  const [long = 0, middle = 0, short = 0] = [a, b, c].toSorted((p, q) => q - p);
  return error(
    'no-triangle',
    path,
    { long, middle, short, gap: Math.max(0, long - middle - short) },
    'Lengths of {long}, {middle} and {short} make no triangle: the two shorter ones together miss the longest by {gap}.',
    'Measure these three again.',
  );
};

export const measuresMissing = (count: number): Issue =>
  error(
    'measures-missing',
    'lengths',
    { foundCount: count },
    'The lengths of {foundCount} sides alone leave open how they stand to each other.',
    count === 4 ? 'Give a diagonal or the angles too.' : 'Give the angles too.',
  );

export const measuresTwice: Issue = {
  level: 'error',
  code: 'measures-twice',
  path: 'diagonal',
  message: 'A diagonal and angles say the same thing twice.',
  remedy: 'Leave out one of them.',
};

export const otherCount = (path: 'diagonal' | 'angles', wanted: number, found: number): Issue =>
  path === 'diagonal'
    ? error(
        'lengths-count',
        'lengths',
        { foundCount: found, wantedCount: wanted },
        'A diagonal goes with the lengths of {wantedCount} sides; found {foundCount}.',
        'Give four lengths, or angles instead of the diagonal.',
      )
    : error(
        'angles-count',
        path,
        { foundCount: found, wantedCount: wanted },
        'There are {wantedCount} sides and {foundCount} angles.',
        'Give one angle for each side, where it ends; the last may be left out.',
      );

export const anglesSum = (count: number, found: number, wanted: number): Issue =>
  error(
    'angles-sum',
    'angles',
    { sidesCount: count, foundDeg: toDegrees(found), wantedDeg: toDegrees(wanted) },
    'The angles add up to {foundDeg}, but the inside angles of {sidesCount} sides make {wantedDeg}.',
    'Measure the angles again, each on the inside; a corner that points inwards has more than 180°.',
  );

export const doesNotClose = (gap: number, most: number): Issue =>
  error(
    'does-not-close',
    'lengths',
    { gap, most },
    'Walked round by these lengths and angles, the last side ends {gap} away from where the first began.',
    'Measure again: a gap of {most} (one mark of the ruler) or less is closed evenly.',
  );

export const closedEvenly = (gap: number): Issue => ({
  level: 'note',
  code: 'closed-evenly',
  path: 'lengths',
  numbers: { gap },
  message: 'The measured sides miss their start by {gap}; that was spread evenly over all of them.',
});

export const anglesEvened = (found: number, wanted: number): Issue => ({
  level: 'note',
  code: 'angles-evened',
  path: 'angles',
  numbers: { foundDeg: toDegrees(found), wantedDeg: toDegrees(wanted) },
  message: 'The angles add up to {foundDeg} instead of {wantedDeg}; the difference was spread over all of them alike.',
});

export const sideTooShort = (path: string, side: number, found: number, least: number): Issue =>
  error(
    'side-too-short',
    path,
    { found, least, sideCount: side + 1 },
    'Side {sideCount} is {found} long; the least is {least}.',
    'Leave out a corner that lies on another one.',
  );

export const sidesCross = (path: string, first: number, second: number): Issue =>
  error(
    'sides-cross',
    path,
    { firstCount: first + 1, secondCount: second + 1 },
    'Sides {firstCount} and {secondCount} cross or touch each other.',
    'Give the corners in order, going once round the outside.',
  );

export const clockwise = (path: string): Issue =>
  error(
    'clockwise',
    path,
    {},
    'The corners go round clockwise.',
    'Give them the other way round: along the front from left to right, then up the right side.',
  );

export const straightCorner = (path: string, corner: number): Issue =>
  error(
    'straight-corner',
    path,
    { cornerCount: corner + 1 },
    'Corner {cornerCount} is straight: the two sides that meet there are one.',
    'Leave it out.',
  );

export const courtOutside = (path: string, least: number): Issue =>
  error(
    'court-outside',
    path,
    { least },
    'This court does not lie inside the outline.',
    'Keep it {least} or more inside all sides.',
  );

export const courtsMeet = (path: string, other: number): Issue =>
  error(
    'courts-meet',
    path,
    { otherCount: other + 1 },
    'This court meets court {otherCount}.',
    'Keep courts apart, or make one of them.',
  );

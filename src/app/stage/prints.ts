import type { PrintRepeat } from '../../core/layout/print-match.ts';
import { type PrintPattern, prints } from '../../core/project/prints.ts';
import type { Stock } from '../../core/project/project.ts';

interface DrawnPrint {
  /** Checks, stripes, slates … side by side in one tile of the picture that is drawn of it. */
  readonly across: number;
  /** Height of a course, in repeats; missing: it has no courses. */
  readonly course?: number;
  /** Words in the name of a paper that it is found by. */
  readonly words?: RegExp;
}

/** The papers this stage can draw. All of them tile without a seam, the first course standing on the lower edge. */
export const drawnPrints: Readonly<Record<PrintPattern, DrawnPrint>> = {
  greyboard: { across: 1, words: /board|card|mount/i },
  slates: { across: 12, course: 1, words: /slate|grey|gray|lead|stone/i },
  brick: { across: 9, course: 3 / 8, words: /brick/i },
  pantiles: { across: 12, course: 1.5, words: /pantile|clay|tile|terracotta/i },
  scales: { across: 12, course: 1, words: /scale|fish|copper|verdigris|green/i },
  shingles: { across: 18, course: 1.8, words: /shingle|shake|wood|cedar|thatch|straw/i },
  checks: { across: 6, words: /check|gingham|tartan/i },
  stripes: { across: 6, words: /stripe|ticking/i },
  marbled: { across: 1, words: /marbl/i },
  plain: { across: 1, words: /plain|cream|white|copy|paper/i },
};

const byName: readonly PrintPattern[] = [
  'brick',
  'slates',
  'pantiles',
  'scales',
  'shingles',
  'checks',
  'stripes',
  'marbled',
  'greyboard',
  'plain',
];
const anyOther: readonly PrintPattern[] = ['scales', 'pantiles', 'slates', 'shingles'];

/**
 * A print for a stock that says none: by the words in its name or id, else one that stays the same for the same id.
 * No stock: plain paper.
 */
export const choosePrint = (stock: Pick<Stock, 'id' | 'name'> | undefined): PrintPattern => {
  if (stock === undefined) return 'plain';
  const named = byName.find((print) => drawnPrints[print].words?.test(`${stock.name} ${stock.id}`));
  if (named !== undefined) return named;
  const sum = [...stock.id].reduce((total, letter) => (total * 31 + (letter.codePointAt(0) ?? 0)) % 9973, 7);
  return anyOther[sum % anyOther.length] ?? 'plain';
};

/** What a paper looks like. `key` is the same for the same look; `tile`: mm of paper that the picture of it is wide. */
export type Look = { readonly key: string; readonly tile: number } & (
  | { readonly pattern: PrintPattern; readonly repeat: number; readonly file?: never }
  | { readonly file: string; readonly pattern?: never; readonly repeat?: never }
);

export const printLook = (pattern: PrintPattern, repeat: number = prints[pattern].repeat): Look => ({
  key: `${pattern} ${repeat}`,
  tile: repeat * drawnPrints[pattern].across,
  pattern,
  repeat,
});

export type LookedAt = Pick<Stock, 'id' | 'name' | 'picture' | 'print'>;

/** A picture that is kept in the project; one that lies in a file beside it cannot be read by a page. */
export const isKept = (file: string): boolean => file.startsWith('data:');

/** A paper as it lies on the table: its own picture, the print it is given, or one by its name. */
export const lookOf = (stock: LookedAt | undefined): Look => {
  const { picture, print } = stock ?? {};
  if (picture && isKept(picture.file)) return { key: picture.file, tile: picture.width, file: picture.file };
  return print ? printLook(print.pattern, print.repeat) : printLook(choosePrint(stock));
};

/** What the eye follows over a seam; null for a print without lines, and for a picture, whose lines are not known. */
export const followedIn = ({ pattern, repeat }: Look): PrintRepeat | null => {
  if (pattern === undefined) return null;
  const even = { period: repeat, isEven: true };
  if (pattern === 'checks') return { x: even, y: even, isSquare: true };
  if (pattern === 'stripes') return { x: even, y: null, isSquare: false };
  const { course } = drawnPrints[pattern];
  // Of laid courses only their height is followed: slates, bricks and scales are staggered from course to course.
  return course === undefined ? null : { x: null, y: { period: course * repeat, isEven: false }, isSquare: false };
};

/** Widths that fill `total` exactly, each the mean width give or take a share; `random` gives 0 to 1. */
export const splitCourse = (total: number, mean: number, spread: number, random: () => number): readonly number[] => {
  const count = Math.max(1, Math.round(total / mean));
  const rough = Array.from({ length: count }, () => 1 + (random() * 2 - 1) * spread);
  const sum = rough.reduce((a, b) => a + b, 0);
  return rough.map((width) => (width / sum) * total);
};

/** Repeatable noise (a mulberry generator): the same print looks the same in every session. */
export const seedNoise = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
};

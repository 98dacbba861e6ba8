import type { Stock } from '../../core/project/project.ts';

/** The papers this stage can draw. All of them tile without a seam. */
export type Print = 'plain' | 'slates' | 'shingles' | 'scales' | 'pantiles' | 'greyboard';

/** Size of one repeat of the pattern, mm, and how it is found by the name a maker gives a paper. */
export const printTable: Readonly<Record<Print, { readonly repeat: number; readonly words: RegExp }>> = {
  greyboard: { repeat: 64, words: /board|card|mount/i },
  slates: { repeat: 72, words: /slate|grey|gray|lead|stone/i },
  pantiles: { repeat: 72, words: /pantile|clay|tile|terracotta|brick/i },
  scales: { repeat: 72, words: /scale|fish|copper|verdigris|green/i },
  shingles: { repeat: 72, words: /shingle|shake|wood|cedar|thatch|straw/i },
  plain: { repeat: 64, words: /plain|cream|white|copy|paper/i },
};

const byName: readonly Print[] = ['slates', 'pantiles', 'scales', 'shingles', 'greyboard', 'plain'];
const anyOther: readonly Print[] = ['scales', 'pantiles', 'slates', 'shingles'];

/**
 * A look for a stock: by the words in its name or id, else one that stays the same for the same id.
 * No stock: plain paper.
 */
export const choosePrint = (stock: Pick<Stock, 'id' | 'name'> | undefined): Print => {
  if (stock === undefined) return 'plain';
  const named = byName.find((print) => printTable[print].words.test(`${stock.name} ${stock.id}`));
  if (named !== undefined) return named;
  const sum = [...stock.id].reduce((total, letter) => (total * 31 + (letter.codePointAt(0) ?? 0)) % 9973, 7);
  return anyOther[sum % anyOther.length] ?? 'plain';
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

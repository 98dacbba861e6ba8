import { formatLength, type Units } from '../units/units.ts';

/** A length in the project's units, the other ones behind it: `3 7/16 in (87.3 mm)`. */
export function bothUnits(mm: number, units: Units): string {
  const inches = formatLength(mm, { units: 'in' });
  const metric = `${Number(mm.toFixed(1)) + 0} mm`;
  return units === 'in' ? `${inches} (${metric})` : `${metric} (${inches})`;
}

/** `A`, `A and B`, `A, B and C`. */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** Names that need more letters than this are counted, not listed. */
const MOST_LETTERS = 60;

/** Names where they are few and short, otherwise how many: `the 12 panels`. */
export const fewOrCount = (names: readonly string[], what: string): string =>
  names.length === 1 || listed(names).length <= MOST_LETTERS ? listed(names) : `the ${names.length} ${what}`;

/** Letters in a row are said by their ends: `A to F, H`. In the order given. */
export const runsOfMarks = (marks: readonly string[]): string => listed(markRuns(marks));

function markRuns(marks: readonly string[]): readonly string[] {
  const numbers = marks.map(markNumber);
  const parts: string[] = [];
  for (let from = 0; from < marks.length; ) {
    let to = from;
    while (to + 1 < marks.length && numbers[to + 1] === (numbers[to] as number) + 1) to++;
    if (to - from >= 2) parts.push(`${marks[from]} to ${marks[to]}`);
    else parts.push(...marks.slice(from, to + 1));
    from = to + 1;
  }
  return parts;
}

/** More letters and runs than this are counted: nobody reads them one by one, and every letter is on the paper. */
const MOST_MARKS = 6;

/** `flap A`, `flaps A to F`, or where letters are many and scattered `24 flaps that meet here`. */
export function marked(noun: string, marks: readonly string[]): string {
  if (marks.length === 1) return `${noun} ${marks[0]}`;
  const parts = markRuns(marks);
  return parts.length > MOST_MARKS ? `${marks.length} ${noun}s that meet here` : `${noun}s ${listed(parts)}`;
}

/** A, B … Z, AA: as a number in order. */
const markNumber = (mark: string): number => [...mark].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);

export const plural = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

import type { Vec2 } from '../geometry/vector.ts';
import { formatMark, MM_PER_INCH, type Ruler, rulerUnits } from '../units/units.ts';
import type { LineUse, SeamGaps, StripEdge } from './set-out.ts';

/** The sentences of the steps: one action each, every number a mark of the ruler or of the strip. */

export type End = 'left' | 'right';

/** A side of a line, as it lies before the maker. */
export type Beside = 'left' | 'right' | 'above' | 'below';

/** A direction that leans no more than this over its upright or level is called by it. */
const LEAN = 0.3;

export const besideOf = ([x, y]: Vec2): Beside =>
  Math.abs(x) > LEAN ? (x < 0 ? 'left' : 'right') : y > 0 ? 'above' : 'below';

const towards: Readonly<Record<Beside, string>> = {
  left: 'to the left',
  right: 'to the right',
  above: 'upwards',
  below: 'downwards',
};

export const figure = (mm: number, ruler: Ruler): string => formatMark(mm, ruler, { unit: false });

/** A length that is on no mark: thousandths of an inch or hundredths of a millimetre. */
export const exact = (mm: number, ruler: Ruler): string =>
  rulerUnits(ruler) === 'in' ? `${(mm / MM_PER_INCH).toFixed(3)} in` : `${mm.toFixed(2)} mm`;

/** What rounding does to the seams, in sentences. */
export function seamSentences({ alike, apart }: SeamGaps, ruler: Ruler): readonly string[] {
  const count = alike === 1 ? '1 seam is' : `${alike} seams are`;
  return [
    ...apart.map(({ roof, marks, gap }) =>
      marks.length === 1
        ? `${roof}, seam ${marks[0]}: one side is ${exact(gap, ruler)} longer than the other.`
        : `${roof}, seams ${listed(marks)}: in each one side is ${exact(gap, ruler)} longer than the other.`,
    ),
    ...(alike > 0 ? [`${count} of one length on both sides.`] : []),
  ];
}

/** Which pieces of a sheet, each given by its roof and its title, find no room once rounded: roof by roof, each title once. */
export function noRoomSentence(pieces: readonly (readonly [roof: string, title: string])[]): string {
  const roofs = [...new Set(pieces.map(([roof]) => roof))].map((roof) => {
    const titles = pieces.flatMap(([of, title]) => (of === roof ? [title] : []));
    const counted = [...new Set(titles)].map((title) => {
      const count = titles.filter((one) => one === title).length;
      return count === 1 ? title : `${count} × ${title}`;
    });
    return `${roof}: ${counted.join('; ')}.`;
  });
  const count =
    pieces.length === 1 ? 'one piece finds no room beside its' : `${pieces.length} pieces find no room beside their`;
  return `Once all marks are rounded, ${count} neighbours. ${roofs.join(' ')}`;
}

/** A mark's number as the sentences carry it until they are told: between signs, so that another number can be put in its place. */
export const ref = (mark: number): string => `‹${mark}›`;

/** A sentence as it is read. */
export const plain = (text: string): string => text.replaceAll(/[‹›]/g, '');

/** The sentence about other marks. */
export const about = (text: string, other: ReadonlyMap<number, number>): string =>
  text.replaceAll(/‹(\d+)›/g, (whole, number: string) => {
    const mark = other.get(Number(number));
    return mark === undefined ? whole : ref(mark);
  });

export const listed = (words: readonly (string | number)[]): string =>
  words.length < 2 ? words.join() : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** `Mark 1.`, `Marks 1 and 2.`, `Marks 1 to 3.`: numbers in a row. */
export const markWords = (first: number, count: number): string =>
  count === 1 ? `Mark ${ref(first)}.` : `Marks ${ref(first)} ${count === 2 ? 'and' : 'to'} ${ref(first + count - 1)}.`;

/** A line by the marks at its ends. */
export const lineWords = ([a, b]: readonly [number, number]): string => `${ref(a)}–${ref(b)}`;

/** So many marks in a row are named by the first and the last. */
const LEAST_RUN = 5;

/** `1, 2 and 7`; `1 and 3 to 9` where numbers go on by one. */
function runs(marks: readonly number[]): string {
  const parts: number[][] = [];
  for (const mark of marks) {
    const last = parts.at(-1);
    if (last?.at(-1) === mark - 1) last.push(mark);
    else parts.push([mark]);
  }
  return listed(
    parts.flatMap((run) =>
      run.length < LEAST_RUN ? run.map(ref) : [`${ref(run[0] as number)} to ${ref(run.at(-1) as number)}`],
    ),
  );
}

const lineUse = (use: LineUse, isMany: boolean): string => {
  const noun = isMany ? 'lines' : 'a line';
  if (use === 'cut') return `${noun} to cut`;
  if (use === 'glue') return `${noun} to leave, where glue goes`;
  if (use === 'pencil') return `${noun} to leave, in pencil`;
  return `${noun} to score, ${isMany ? `${use}s` : `a ${use}`} on this side`;
};

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** `1 1/16, then 2 1/8 on 3 times`, or each by itself. */
export function tickList(
  ticks: readonly { readonly at: number; readonly isShort: boolean }[],
  stepsOn: boolean,
  ruler: Ruler,
): string {
  const values = ticks.map(({ at }) => at);
  const [first, second] = values;
  const by = (second ?? 0) - (first ?? 0);
  const isEven = values
    .slice(1)
    .every((value, i) => figure(value - (values[i] as number), ruler) === figure(by, ruler));
  if (stepsOn && first !== undefined && second !== undefined && isEven) {
    const times = values.length - 1;
    return `${figure(first, ruler)}, then ${figure(by, ruler)} on${times === 1 ? '' : ` ${times} times`}`;
  }
  return listed(ticks.map(({ at, isShort }) => `${isShort ? 'short ' : ''}${figure(at, ruler)}`));
}

export const tickSentence = (edge: StripEdge, from: End, list: string, marks: string): string =>
  edge === 'bottom' || edge === 'top'
    ? `${capital(edge)} edge, from the ${from}: tick ${list}. ${marks}`
    : `${capital(edge)} edge, from the bottom: tick ${list}. ${marks}`;

export const cornerSentence = (edge: 'bottom' | 'top', end: End, mark: number): string =>
  `The ${edge === 'bottom' ? 'lower' : 'upper'} ${end} corner is mark ${ref(mark)}.`;

export const eitherSentence = (edge: StripEdge, from: End, half: string, middle: string, marks: string): string =>
  `${capital(edge)} edge: tick ${half} either side of ${middle} from the ${from}. ${marks}`;

export const plotSentence = (mark: number, from: End, across: string, up: string): string =>
  `Mark ${ref(mark)}: ${across} from the ${from}, ${up} up.`;

export const tapeSentence = (edge: 'bottom' | 'top'): string =>
  `Tape scrap to the ${edge} edge, flush with it, for the point of the compass.`;

export const scrapSentence = (
  mark: number,
  edge: 'bottom' | 'top',
  from: End,
  { across, off }: { readonly across: string; readonly off: string },
): string =>
  `Mark ${ref(mark)}, on that scrap: ${across} from the ${from}, ${off} ${edge === 'bottom' ? 'below' : 'above'} the ${edge} edge.`;

/** `along`: how far on the line, with where it is counted from. */
export const squareSentence = (
  marks: string,
  line: readonly [number, number],
  along: string,
  off: string,
  sides: readonly Beside[],
): string => {
  const way = sides.map((side) => towards[side]).join(' and ');
  return `On line ${lineWords(line)}: ${along}, then ${off} square off it ${way}. ${marks}`;
};

export const onLine = (figureText: string, from: number, isBack: boolean): string =>
  `${figureText} ${isBack ? 'back' : 'on'} from ${ref(from)}`;

export const joinSentence = (marks: readonly number[], use: LineUse): string => {
  const list = runs(marks);
  return `Join ${list}${list.includes(' to ') ? ' in turn' : ''}: ${lineUse(use, marks.length > 2)}.`;
};

/** Runs of lines that do not go on from each other. */
export const joinAllSentence = (all: readonly (readonly number[])[], use: LineUse): string =>
  `Join ${listed(all.map((run) => run.map(ref).join('–')))}: ${lineUse(use, true)}.`;

export const curveSentence = (marks: readonly number[], use: LineUse): string =>
  marks.length === 2 ? joinSentence(marks, use) : `Join ${runs(marks)} in one smooth curve: ${lineUse(use, false)}.`;

export const parallelSentence = (
  depth: string,
  line: readonly [number, number],
  zero: number,
  side: Beside,
  list: string,
  marks: string,
): string =>
  `Lay the ruler’s ${depth} line on line ${lineWords(line)}, zero at ${ref(zero)}, its edge ${sideOf[side]}: tick ${list}. ${marks}`;

const sideOf: Readonly<Record<Beside, string>> = {
  left: 'to its left',
  right: 'to its right',
  above: 'above it',
  below: 'below it',
};

export const alongSentence = (line: readonly [number, number], zero: number, list: string, marks: string): string =>
  `Along line ${lineWords(line)}, from ${ref(zero)}: tick ${list}. ${marks}`;

export const pastSentence = (line: readonly [number, number], end: number, far: string, mark: number): string =>
  `Ruler along line ${lineWords(line)} and on past ${ref(end)}: tick ${far} from ${ref(end)}. Mark ${ref(mark)}.`;

export type Turn = 'clockwise' | 'counter-clockwise';

export const arcSentence = (centre: number, from: number, to: number, turn: Turn, use: LineUse): string =>
  `Compass on ${ref(centre)}, opened to ${ref(from)}: draw the arc from ${ref(from)} ${turn} to ${ref(to)}, ${lineUse(use, false)}.`;

export const sectorSentence = (line: readonly [number, number], radius: string, turn: Turn, start: number): string =>
  `Compass on ${ref(line[0])}, opened ${radius}: draw an arc ${turn} from line ${lineWords(line)}. It starts at mark ${ref(start)}.`;

export const chordSentence = (start: number, chord: string, times: number, end: number, use: LineUse): string =>
  `From ${ref(start)} step ${chord} along that arc${times === 1 ? '' : ` ${times} times`}: mark ${ref(end)}. So far it is ${lineUse(use, false)}.`;

export const fanArcSentence = (line: readonly [number, number], radius: string, turn: Turn, start: number): string =>
  `Compass on ${ref(line[0])}, opened ${radius}: draw an arc in pencil ${turn} from line ${lineWords(line)}. It starts at mark ${ref(start)}.`;

export const fanArcAtSentence = ([centre, start]: readonly [number, number], turn: Turn): string =>
  `Compass on ${ref(centre)}, opened to ${ref(start)}: draw an arc in pencil ${turn} from ${ref(start)}.`;

/** Equal chords are said once. */
export const chordsSentence = (start: number, chords: readonly string[], marks: string): string => {
  const isOne = chords.every((chord) => chord === chords[0]);
  const list = isOne
    ? `${chords[0]} ${chords.length} times along that arc`
    : `${listed(chords)} in turn along that arc`;
  return `From ${ref(start)} step ${list}. ${marks}`;
};

export const crossSentence = (
  centres: readonly [number, number],
  [first, second]: readonly [string, string],
  turn: Turn,
  mark: number,
): string =>
  `Compass on ${ref(centres[0])}, opened ${first}, and on ${ref(centres[1])}, opened ${second}: both arcs cross ${turn} of line ${lineWords(centres)} at mark ${ref(mark)}.`;

export const spokesSentence = (centre: number, ends: readonly number[], use: LineUse): string =>
  ends.length === 1
    ? joinSentence([centre, ends[0] as number], use)
    : `Join ${ref(centre)} to each of ${runs(ends)}: ${lineUse(use, true)}.`;

export const betweenSentence = (
  centre: number,
  radius: string,
  turn: Turn,
  [from, to]: readonly [number, number],
  marks: string,
  use: LineUse,
): string =>
  `Compass on ${ref(centre)}, opened ${radius}: draw an arc ${turn} from line ${lineWords([centre, from])} to line ${lineWords([centre, to])}, ${lineUse(use, false)}. ${marks}`;

export const bandSentence = (width: string, [from, to]: readonly [number, number], side: 'left' | 'right'): string =>
  `Draw a second line ${width} off the curve from ${ref(from)} to ${ref(to)}, on its ${side} as it goes: a line to cut.`;

export const notchSentence = (
  [from, to]: readonly [number, number],
  apart: string,
  times: number,
  notch: string,
): string => {
  const steps = times === 1 ? 'once' : `${times} times`;
  return `Step ${apart} along the curve from ${ref(from)} to ${ref(to)}, ${steps}; at each point cut a notch down to it, ${notch} wide at the second line: teeth.`;
};

/** The same again about other marks; `steps` as they are numbered on the strip. */
export const againSentence = (
  [first, last]: readonly [number, number],
  pairs: readonly (readonly [known: number, now: number])[],
): string => {
  const steps = first === last ? `step ${first}` : `steps ${first} to ${last}`;
  return `Do ${steps} again with ${listed(pairs.map(([, now]) => ref(now)))} in place of ${listed(pairs.map(([known]) => ref(known)))}.`;
};

/** Straight cuts through the whole height of a strip, once it is marked. */
export const acrossSentence = (figures: readonly string[], from: End): string =>
  `Trimmer: cut across at ${listed(figures)} from the ${from}.`;

export const takeSentence = (name: string): string => `Take the template of ${name}.`;

/** `marks` are those of the template, `laid` those of the strip. */
export const traceSentence = (
  marks: readonly [number, number],
  laid: readonly [number, number],
  { isThere, hasHoles }: { readonly isThere: boolean; readonly hasHoles: boolean },
): string =>
  `Lay its mark ${marks[0]} on ${ref(laid[0])} and its mark ${marks[1]} ${isThere ? 'on' : 'towards'} ${ref(laid[1])}: trace it${hasHoles ? ' and its holes' : ''}.`;

export const HOLES = 'Prick a fine hole at both ends of every line that is not to be cut.';
export const JOIN_HOLES = 'Join the traced holes as the template has them: lines to score or to leave.';

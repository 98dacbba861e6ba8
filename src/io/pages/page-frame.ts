import { rest2 } from '../../core/geometry/rigid2.ts';
import type { PageSpec } from '../../core/project/project.ts';
import { drawCheckBars } from '../drawing/check-bars.ts';
import {
  type Drawing,
  emptyDrawing,
  joinDrawings,
  type Label,
  labelAt,
  line,
  moveDrawing,
  type Stroke,
} from '../drawing/drawing.ts';
import { type Block, drawLegend, TEXT_SIZE } from '../drawing/legend.ts';
import { shortenText, textWidth, wrapText } from '../drawing/text-width.ts';
import { correctionNote } from './correct-page.ts';

/** The part of a page that pieces may use: mm, from the page's lower left corner. */
export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** How the print of a sheet runs on its page, seen from the printed side: up, or to the left where the sheet is turned a quarter. */
export interface PrintWay {
  readonly isTurned: boolean;
  /** Or the other way round. */
  readonly isEither: boolean;
}

export interface PageWords {
  readonly title: string;
  /** What the page is printed for: the stock's name. */
  readonly subtitle: string;
  /** Missing where it does not matter or each sheet says it. */
  readonly way?: PrintWay | undefined;
  readonly number: number;
  readonly count: number;
  /** Where a tile belongs, as `Row A, column 2`, the fullest text first; null on a page of whole pieces. */
  readonly tile: readonly string[] | null;
  /** Some piece of the project is rolled. */
  readonly rolled: boolean;
  /** The page goes on the back of the one before it. */
  readonly isWrongSide: boolean;
}

const HEADING_SIZE = 4;
const HEADING_TRACKING = 0.3;
const HEADER = 11.5;
const AIR = 4;
const ROW = 3.6;

const noLegend: Block = { width: 0, height: 0, drawing: emptyDrawing };

const SIDE = 'Seen from the outside, the printed side.';
const WRONG_SIDE = 'The wrong side, seen from the inside: mirrored, mountain and valley swapped';
const WRONG_SIDE_BRIEF = 'The wrong side, mirrored.';
const BRIEF = 'Print at 100 %.';
const PRINT = 'Print at 100 %, not fitted to page. Measure a bar before you cut. For model making only.';
const CUT_OFF = 'Pieces reach into the margin that a printer may leave blank: draw what is missing there by a ruler.';
const SAFETY =
  'Cut away from the hand that holds, along a metal ruler, in several light passes; children with an adult’s help.';

/**
 * How much a page says. Pages from A6 up say all; on the smallest ones the legend, then all but one line, gives way to
 * the pieces.
 */
type Fullness = 'full' | 'bars' | 'line';

interface FrameOptions {
  readonly tiles: boolean;
  /** Some piece of the project is rolled. */
  readonly rolled: boolean;
}

/** Where pieces may lie: inside the margin, between header and footer. */
export const pageArea = (page: PageSpec, options: FrameOptions): Area =>
  areaOf(page, options, fullnessOf(page, options));

/** The fullest frame that leaves pieces a third of the page's height and two overlaps of tiles. */
const fullnessOf = (page: PageSpec, options: FrameOptions): Fullness =>
  (['full', 'bars'] as const).find(
    (fullness) => areaOf(page, options, fullness).height >= Math.max(page.height / 3, 2 * page.overlap),
  ) ?? 'line';

const areaOf = (page: PageSpec, options: FrameOptions, fullness: Fullness): Area => {
  const foot = page.margin + footer(page, options, fullness).height + (fullness === 'line' ? 1 : AIR);
  const head = page.margin + (fullness === 'line' ? 0 : HEADER + AIR);
  // Half the width of a cut line stays inside the margin too.
  const inset = 0.25;
  return {
    x: page.margin + inset,
    y: foot,
    width: page.width - 2 * page.margin - 2 * inset,
    height: Math.max(1, page.height - head - foot - inset),
  };
};

/** Header and footer of one page. */
export const drawPageFrame = (page: PageSpec, words: PageWords): Drawing => {
  const options = { tiles: words.tile !== null, rolled: words.rolled };
  const fullness = fullnessOf(page, options);
  const { height, drawing } = footer(page, options, fullness);
  const foot = moveDrawing(drawing, { ...rest2, move: [page.margin, page.margin + height] });
  return fullness === 'line' ? foot : joinDrawings(header(page, words), foot);
};

const header = (page: PageSpec, words: PageWords): Drawing => {
  const left = page.margin;
  const right = page.width - page.margin;
  const top = page.height - page.margin;
  const count = labelAt(`Page ${words.number} of ${words.count}`, [right, top - 3], TEXT_SIZE, { align: 'end' });
  const used = textWidth(count.text, TEXT_SIZE) + 4;
  const title = shortenText(words.title.toUpperCase(), HEADING_SIZE, right - left - used, HEADING_TRACKING);
  const [subtitle, tile] = fitBeside(subtitles(words), words.tile ?? [''], right - left);
  return {
    strokes: [line('rule', [left, top - HEADER + 1], [right, top - HEADER + 1])],
    labels: [
      labelAt(title, [left, top - 3], HEADING_SIZE, { tracking: HEADING_TRACKING }),
      ...(subtitle === '' ? [] : [labelAt(subtitle, [left, top - 8], TEXT_SIZE)]),
      count,
      ...(tile === '' ? [] : [labelAt(tile, [right, top - 8], TEXT_SIZE, { align: 'end' })]),
    ],
  };
};

/** What stands at the left of a header's second row, the fullest first; how a print runs and what is mirrored is said in the last too. */
const subtitles = ({ subtitle, way, number, isWrongSide }: PageWords): readonly string[] => {
  const [runs, brief] = way ? wayWords(way, isWrongSide) : ['', ''];
  const behind = `${WRONG_SIDE}; for the back of page ${number - 1}, turned over left to right.`;
  const sides = isWrongSide ? [behind, `${WRONG_SIDE}.`, WRONG_SIDE_BRIEF] : [SIDE, ''];
  return [
    joinTexts(`${subtitle}.`, runs, sides[0]),
    ...sides.map((side) => joinTexts(runs, side)),
    joinTexts(sides.at(-1), brief),
  ];
};

/** In a sentence, and as briefly as can be. Seen from the wrong side left and right are changed. */
export const wayWords = ({ isTurned, isEither }: PrintWay, isWrongSide: boolean): readonly [string, string] => {
  const [to, from] = !isTurned ? ['up', 'down'] : isWrongSide ? ['right', 'left'] : ['left', 'right'];
  const way = isEither ? `${to} or ${from}` : to;
  return [`The print runs ${way} on this page.`, `Print runs ${way}.`];
};

const joinTexts = (...texts: readonly (string | undefined)[]): string => texts.filter(Boolean).join(' ');

/** The fullest text at the right that leaves one at the left room, and the fullest of those; without any the right one is shortened. */
const fitBeside = (
  lefts: readonly string[],
  rights: readonly string[],
  room: number,
): readonly [left: string, right: string] => {
  const widthOf = (text: string): number => (text === '' ? 0 : textWidth(text, TEXT_SIZE) + AIR);
  for (const right of rights) {
    const left = lefts.find((text) => widthOf(text) + widthOf(right) <= room + AIR);
    if (left !== undefined) return [left, right];
  }
  const left = lefts.at(-1) ?? '';
  return [left, shortenText(rights.at(-1) ?? '', TEXT_SIZE, room - widthOf(left))];
};

/**
 * What a page says where a sheet leaves no room for header and footer, from the fullest block to the shortest; `isCutOff`: lines
 * run on into the margin.
 */
export const pageBlocks = (page: PageSpec, words: PageWords & { readonly isCutOff: boolean }): readonly Block[] => {
  const { title, number, count, isWrongSide, isCutOff, rolled } = words;
  const subtitle = joinTexts(`${words.subtitle}.`, words.way && wayWords(words.way, isWrongSide)[0]);
  const note = correctionNote(page);
  const first = [`${title}. Page ${number} of ${count}.`, subtitle, isWrongSide ? `${WRONG_SIDE}.` : SIDE];
  const edge = isCutOff ? [CUT_OFF] : [];
  const least = [[subtitle, ...(isWrongSide ? [WRONG_SIDE_BRIEF] : []), BRIEF].join(' '), ...edge];
  const all = [...first, PRINT, ...edge, ...(note === null ? [] : [note]), SAFETY];
  const room = page.width - 2 * page.margin;
  return [room, room / 2, 70, 40].flatMap((width) => {
    const bars = drawCheckBars(width);
    const legend = drawLegend(width, { tiles: false, rolled, columns: 2 });
    return [
      stack(textBlock(all, width), bars, legend),
      stack(textBlock(all, width), bars),
      stack(textBlock(least, width), bars),
      textBlock(least, width),
    ];
  });
};

const textBlock = (texts: readonly string[], room: number): Block => {
  const rows = texts.flatMap((text) => wrapText(text, TEXT_SIZE, room));
  return {
    width: Math.max(...rows.map((row) => textWidth(row, TEXT_SIZE))),
    height: rows.length * ROW,
    drawing: { strokes: [], labels: rows.map((row, i) => labelAt(row, [0, -i * ROW - 2.4], TEXT_SIZE)) },
  };
};

/** One below the other. */
const stack = (...blocks: readonly Block[]): Block =>
  blocks.reduce((above, block) => ({
    width: Math.max(above.width, block.width),
    height: above.height + 2 + block.height,
    drawing: joinDrawings(above.drawing, moveDrawing(block.drawing, { ...rest2, move: [0, -above.height - 2] })),
  }));

/**
 * Check bars with the printing and safety lines under them at the left, the legend at the right; on a narrow page one
 * above the other. Origin: upper left corner of the footer.
 */
const footer = (
  page: PageSpec,
  options: FrameOptions,
  fullness: Fullness,
): { readonly height: number; readonly drawing: Drawing } => {
  const room = page.width - 2 * page.margin;
  if (fullness === 'line') {
    const label = labelAt(shortenText(BRIEF, TEXT_SIZE, room), [0, -TEXT_SIZE], TEXT_SIZE);
    return { height: ROW, drawing: { strokes: [], labels: [label] } };
  }
  const rule: Stroke = line('rule', [0, 0], [room, 0]);
  const bars = drawCheckBars(room);
  const beside = drawLegend(room - bars.width - 10, { ...options, columns: 2 });
  const isWide = fullness === 'full' && bars.width + 10 + beside.width <= room;
  const legend = fullness === 'bars' ? noLegend : isWide ? beside : drawLegend(room, options);
  const column = isWide ? room - beside.width - 10 : room;
  const note = correctionNote(page);
  const said = [PRINT, ...(note === null ? [] : [note]), ...(fullness === 'full' ? [SAFETY] : [])];
  const texts = said.flatMap((text) => wrapText(text, TEXT_SIZE, column));
  const top = -3;
  const textTop = top - bars.height - 1;
  const labels = texts.map((text, i): Label => labelAt(text, [0, textTop - i * ROW - 2.4], TEXT_SIZE));
  const leftHeight = bars.height + 1 + texts.length * ROW;
  const legendAt = isWide ? ([room - legend.width, top] as const) : ([0, top - leftHeight - 2] as const);
  return {
    height:
      -top +
      (isWide ? Math.max(leftHeight, legend.height) : leftHeight + (legend.height === 0 ? 0 : legend.height + 2)),
    drawing: joinDrawings(
      { strokes: [rule], labels },
      moveDrawing(bars.drawing, { ...rest2, move: [0, top] }),
      moveDrawing(legend.drawing, { ...rest2, move: legendAt }),
    ),
  };
};

import { rest2 } from '../../core/geometry/rigid2.ts';
import type { PageSpec } from '../../core/project/project.ts';
import { drawCheckBars } from '../drawing/check-bars.ts';
import { type Drawing, joinDrawings, type Label, labelAt, line, moveDrawing, type Stroke } from '../drawing/drawing.ts';
import { drawLegend, TEXT_SIZE } from '../drawing/legend.ts';
import { shortenText, textWidth, wrapText } from '../drawing/text-width.ts';

/** The part of a page that pieces may use: mm, from the page's lower left corner. */
export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PageWords {
  readonly title: string;
  /** What the page is printed for: the stock's name. */
  readonly subtitle: string;
  readonly number: number;
  readonly count: number;
  /** Where a tile belongs, as `Row A, column 2`; null on a page of whole pieces. */
  readonly tile: string | null;
}

const HEADING_SIZE = 4;
const HEADING_TRACKING = 0.3;
const HEADER = 11.5;
const AIR = 4;
const ROW = 3.6;

const SIDE = 'Seen from the outside, the printed side.';
const PRINT = 'Print at 100 %, not fitted to page. Measure a bar before you cut. For model making only.';
const SAFETY =
  'Cut away from the hand that holds, along a metal ruler, in several light passes; children with an adult’s help.';

/** Where pieces may lie: inside the margin, between header and footer. */
export const pageArea = (page: PageSpec, options: { readonly tiles: boolean }): Area => {
  const foot = page.margin + footer(page, options).height + AIR;
  // Half the width of a cut line stays inside the margin too.
  const inset = 0.25;
  return {
    x: page.margin + inset,
    y: foot,
    width: page.width - 2 * page.margin - 2 * inset,
    height: page.height - page.margin - HEADER - AIR - foot,
  };
};

/** Header and footer of one page. */
export const drawPageFrame = (page: PageSpec, words: PageWords): Drawing => {
  const { height, drawing } = footer(page, { tiles: words.tile !== null });
  const foot = moveDrawing(drawing, { ...rest2, move: [page.margin, page.margin + height] });
  return joinDrawings(header(page, words), foot);
};

const header = (page: PageSpec, words: PageWords): Drawing => {
  const left = page.margin;
  const right = page.width - page.margin;
  const top = page.height - page.margin;
  const count = labelAt(`Page ${words.number} of ${words.count}`, [right, top - 3], TEXT_SIZE, { align: 'end' });
  const tile = words.tile === null ? [] : [labelAt(words.tile, [right, top - 8], TEXT_SIZE, { align: 'end' })];
  const used = textWidth(count.text, TEXT_SIZE) + 4;
  const usedBelow = tile.reduce((sum, label) => sum + textWidth(label.text, TEXT_SIZE) + 4, 0);
  const title = shortenText(words.title.toUpperCase(), HEADING_SIZE, right - left - used, HEADING_TRACKING);
  const subtitle = [`${words.subtitle}. ${SIDE}`, SIDE].find(
    (text) => textWidth(text, TEXT_SIZE) <= right - left - usedBelow,
  );
  return {
    strokes: [line('rule', [left, top - HEADER + 1], [right, top - HEADER + 1])],
    labels: [
      labelAt(title, [left, top - 3], HEADING_SIZE, { tracking: HEADING_TRACKING }),
      ...(subtitle === undefined ? [] : [labelAt(subtitle, [left, top - 8], TEXT_SIZE)]),
      count,
      ...tile,
    ],
  };
};

/**
 * Check bars with the printing and safety lines under them at the left, the legend at the right; on a narrow page one
 * above the other. Origin: upper left corner of the footer.
 */
const footer = (
  page: PageSpec,
  options: { readonly tiles: boolean },
): { readonly height: number; readonly drawing: Drawing } => {
  const room = page.width - 2 * page.margin;
  const rule: Stroke = line('rule', [0, 0], [room, 0]);
  const bars = drawCheckBars(room);
  const beside = drawLegend(room - bars.width - 10, options);
  const isWide = bars.width + 10 + beside.width <= room;
  const legend = isWide ? beside : drawLegend(room, options);
  const column = isWide ? room - beside.width - 10 : room;
  const texts = [PRINT, SAFETY].flatMap((text) => wrapText(text, TEXT_SIZE, column));
  const top = -3;
  const textTop = top - bars.height - 1;
  const labels = texts.map((text, i): Label => labelAt(text, [0, textTop - i * ROW - 2.4], TEXT_SIZE));
  const leftHeight = bars.height + 1 + texts.length * ROW;
  const legendAt = isWide ? ([room - legend.width, top] as const) : ([0, top - leftHeight - 2] as const);
  return {
    height: -top + (isWide ? Math.max(leftHeight, legend.height) : leftHeight + 2 + legend.height),
    drawing: joinDrawings(
      { strokes: [rule], labels },
      moveDrawing(bars.drawing, { ...rest2, move: [0, top] }),
      moveDrawing(legend.drawing, { ...rest2, move: legendAt }),
    ),
  };
};

import { rest2 } from '../../core/geometry/rigid2.ts';
import type { LaidSheet } from '../../core/layout/layout.ts';
import type { Production } from '../../core/pipeline.ts';
import { drawLaid, joinLaid } from '../drawing/draw-laid.ts';
import {
  type Drawing,
  emptyDrawing,
  joinDrawings,
  labelAt,
  moveDrawing,
  ring,
  type SheetDrawing,
} from '../drawing/drawing.ts';
import { boxesOf, drawWhereFree } from '../drawing/free-place.ts';
import { type Block, drawLegend, hasRolled } from '../drawing/legend.ts';
import { textWidth } from '../drawing/text-width.ts';

/** A sheet of stock with the pieces laid on it, and its legend in the first free place; nothing of it where the pieces leave none. */
export const drawLaidSheet = (production: Production, sheet: LaidSheet): SheetDrawing => {
  const pieces = drawLaid(production, sheet);
  const options = { tiles: false, rolled: hasRolled(production) };
  const legends = [sheet.width - 2 * AIR, 70].map((room) =>
    titled(drawLegend(room, options), sheetTitle(production, sheet)),
  );
  return {
    width: sheet.width,
    height: sheet.height,
    work: joinLaid(pieces),
    frame: joinDrawings(outlineOf(sheet), drawWhereFree(legends, sheet, boxesOf(pieces))),
  };
};

export const sheetTitle = ({ project }: Production, { stock, index }: LaidSheet): string =>
  `${project.title}. ${project.stock[stock]?.name ?? ''}, sheet ${index + 1}. Seen from the outside, the printed side.`;

/** The edge of an offcut; a whole sheet is as large as the drawing. */
const outlineOf = ({ outline }: LaidSheet): Drawing =>
  outline ? { strokes: [ring('rule', outline)], labels: [] } : emptyDrawing;

const AIR = 5;
const TITLE_SIZE = 2.5;
const TITLE_ROW = 4.5;

const titled = (legend: Block, title: string): Block => {
  const lines = title.split(/(?<=\.) /);
  const top = lines.length * TITLE_ROW;
  const labels = lines.map((text, i) => labelAt(text, [0, -(i + 1) * TITLE_ROW + 2], TITLE_SIZE));
  return {
    width: Math.max(legend.width, ...lines.map((text) => textWidth(text, TITLE_SIZE))),
    height: legend.height + top,
    drawing: joinDrawings({ strokes: [], labels }, moveDrawing(legend.drawing, { ...rest2, move: [0, -top] })),
  };
};

import { cutLayers } from '../../core/cut-layers.ts';
import { boxOf } from '../../core/geometry/polygon.ts';
import { type Rigid2, rest2 } from '../../core/geometry/rigid2.ts';
import { reachOff } from '../../core/layout/check-layout.ts';
import type { LaidSheet, Placement } from '../../core/layout/layout.ts';
import { rectangle } from '../../core/layout/usable.ts';
import type { Production } from '../../core/pipeline.ts';
import { isAtMost } from '../../core/tolerance.ts';
import { drawOnce } from '../drawing/draw-once.ts';
import { drawPiece } from '../drawing/draw-piece.ts';
import {
  type Drawing,
  emptyDrawing,
  joinDrawings,
  labelAt,
  moveDrawing,
  ring,
  type SheetDrawing,
} from '../drawing/drawing.ts';
import { type Block, drawLegend, hasRolled } from '../drawing/legend.ts';
import { textWidth } from '../drawing/text-width.ts';

/** A quarter turn has a sine of exactly 1, which Math.sin only nearly gives. */
const exact = (value: number): number =>
  Number.EPSILON * 4 > Math.abs(value - Math.round(value)) ? Math.round(value) : value;

export const motionOf = ({ x, y, rotation }: Placement): Rigid2 => ({
  cos: exact(Math.cos(rotation)),
  sin: exact(Math.sin(rotation)),
  move: [x, y],
});

/** A sheet of stock with the pieces laid on it; a cut that two pieces share is drawn once. */
export const drawLaidSheet = (production: Production, sheet: LaidSheet): SheetDrawing => {
  const pieces = sheet.placements.flatMap((placement): readonly Drawing[] => {
    const roof = production.roofs[placement.roof];
    const layer = roof && cutLayers(roof)[placement.layer];
    if (roof === undefined || layer === undefined) return [];
    const { piece, copy } = placement;
    return [moveDrawing(drawPiece({ roof: roof.spec, layer, piece, copy }), motionOf(placement))];
  });
  const all = joinDrawings(...pieces);
  const work: Drawing = { strokes: drawOnce(all.strokes), labels: all.labels };
  return {
    width: sheet.width,
    height: sheet.height,
    work,
    frame: joinDrawings(
      outlineOf(sheet),
      legendWhereFree(sheet, pieces, { title: sheetTitle(production, sheet), rolled: hasRolled(production) }),
    ),
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

/** The legend in the first free place from the upper left; nothing where the pieces leave none. */
const legendWhereFree = (
  sheet: LaidSheet,
  pieces: readonly Drawing[],
  { title, rolled }: { readonly title: string; readonly rolled: boolean },
): Drawing => {
  const taken = pieces.map(({ strokes }) => boxOf(strokes.flatMap(({ points }) => points)));
  for (const room of [sheet.width - 2 * AIR, 70]) {
    const block = titled(drawLegend(room, { tiles: false, rolled }), title);
    if (block.width + 2 * AIR > sheet.width || block.height + 2 * AIR > sheet.height) continue;
    const free = steps(sheet.height - AIR, AIR + block.height).flatMap((y) =>
      steps(AIR, sheet.width - AIR - block.width).map((x): readonly [number, number] => [x, y]),
    );
    const onPaper = free.filter(([x, y]) =>
      isAtMost(reachOff(rectangle(x, y - block.height, x + block.width, y), { ...sheet, margin: 0 }), 0),
    );
    const move = onPaper.find(([x, y]) =>
      taken.every(
        (box) =>
          box.maxX + AIR < x ||
          box.minX - AIR > x + block.width ||
          box.maxY + AIR < y - block.height ||
          box.minY - AIR > y,
      ),
    );
    if (move !== undefined) return moveDrawing(block.drawing, { ...rest2, move });
  }
  return emptyDrawing;
};

/** From one value to the other, both included, in steps of 5 mm or a little less. */
const steps = (from: number, to: number): readonly number[] => {
  const count = Math.max(1, Math.ceil(Math.abs(to - from) / 5));
  return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
};

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

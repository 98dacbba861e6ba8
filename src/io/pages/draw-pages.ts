import { cutLayers } from '../../core/cut-layers.ts';
import { keyOf } from '../../core/layout/layout.ts';
import type { Piece } from '../../core/net/net.ts';
import type { Production } from '../../core/pipeline.ts';
import { drawPiece, type PieceToDraw } from '../drawing/draw-piece.ts';
import { labelAt, type SheetDrawing, turnOver } from '../drawing/drawing.ts';
import { hasRolled } from '../drawing/legend.ts';
import type { Size } from './arrange-pages.ts';
import { pageOnPaper } from './correct-page.ts';
import { drawTiles } from './draw-tiles.ts';
import { type Leaf, leavesOfMany } from './leaf.ts';
import { type Area, drawPageFrame, pageArea } from './page-frame.ts';
import { leavesOfSheets } from './sheet-leaves.ts';

interface Item extends PieceToDraw, Size {
  readonly shape: Piece;
}

/**
 * Every copy of every piece of every roof and layer at true size on the project's pages: close together, or as they are laid on
 * the sheets, where those without a place come after them. Pages are kept apart by the stock they are meant for; what is larger
 * than a page comes last, as tiles. Where marks go on both sides, each page is followed by
 * the one for its back.
 */
export const drawPages = (drawn: Production): readonly SheetDrawing[] => {
  const page = pageOnPaper(drawn.project.page);
  const project = { ...drawn.project, page };
  const production: Production = { ...drawn, project };
  const { title } = project;
  const rolled = hasRolled(production);
  const isLaid = page.arrange === 'as-laid';
  const leaves = project.stock.flatMap((stock, index) => [
    ...(isLaid ? leavesOfSheets(production, index) : []),
    ...leavesOfPieces(production, stock.name, itemsFor(production, stock.id, isLaid)),
  ]);
  const sides = page.marks === 'both' ? leaves.flatMap((leaf) => bothSides(leaf, page.width)) : leaves;
  const all = leaves.length === 0 ? [nothingToPrint(pageArea(page, { tiles: false, rolled }))] : sides;
  return all.map((leaf, i) => {
    const words = { number: i + 1, count: all.length, isWrongSide: leaf.isWrongSide ?? false };
    return {
      width: page.width,
      height: page.height,
      work: leaf.work,
      ...(leaf.isWrongSide ? { isWrongSide: true as const } : {}),
      frame:
        leaf.frame?.(words) ??
        drawPageFrame(page, { title, subtitle: leaf.subtitle, way: leaf.way, tile: leaf.tile, rolled, ...words }),
    };
  });
};

/**
 * A page without the letters and names that would be seen on the finished roof, and what is to be printed or traced on its back, turned
 * over from left to right, with all of them.
 */
const bothSides = (leaf: Leaf, width: number): readonly Leaf[] => [
  { ...leaf, work: { strokes: leaf.work.strokes.filter(isUnseen), labels: leaf.work.labels.filter(isUnseen) } },
  { ...leaf, work: turnOver(leaf.work, width), isWrongSide: true },
];

const isUnseen = ({ isInPanel }: { readonly isInPanel?: true }): boolean => !isInPanel;

/** What is cut from a stock first of all; of a layout only what has no place in it. */
const itemsFor = (production: Production, stock: string, isLaid: boolean): readonly Item[] => {
  const laid = new Set(isLaid ? production.sheets.flatMap(({ placements }) => placements.map(keyOf)) : []);
  return production.roofs.flatMap((made, roof) =>
    Array.from({ length: made.spec.copies }, (_, copy) => copy).flatMap((copy) =>
      cutLayers(made).flatMap((layer, l) =>
        layer.spec.stock[0] !== stock
          ? []
          : layer.net.pieces.flatMap((shape, piece): readonly Item[] =>
              laid.has(keyOf({ roof, layer: l, piece, copy }))
                ? []
                : [{ roof: made.spec, layer, piece, copy, shape, width: shape.width, height: shape.height }],
            ),
      ),
    ),
  );
};

const leavesOfPieces = (production: Production, subtitle: string, items: readonly Item[]): readonly Leaf[] => {
  const { page } = production.project;
  const rolled = hasRolled(production);
  const area = pageArea(page, { tiles: false, rolled });
  const { leaves, large } = leavesOfMany(items, area, subtitle, (item) => drawPiece(item));
  const tileArea = pageArea(page, { tiles: true, rolled });
  const tiled = large.flatMap((item) =>
    drawTiles(
      {
        title: item.roof.title,
        width: item.width,
        height: item.height,
        draw: (breaks) => drawPiece(item, breaks),
        rings: [item.shape.outline],
      },
      tileArea,
      page.overlap,
    ).map(({ tile, work }): Leaf => ({ subtitle, tile, work })),
  );
  return [...leaves, ...tiled];
};

const nothingToPrint = (area: Area): Leaf => ({
  subtitle: 'No pieces',
  tile: null,
  work: {
    strokes: [],
    labels: [
      labelAt('Nothing to print: no roof of this project could be made.', [area.x, area.y + area.height - 6], 3.4),
    ],
  },
});

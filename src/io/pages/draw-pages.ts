import { cutLayers } from '../../core/cut-layers.ts';
import { apply2, type Rigid2 } from '../../core/geometry/rigid2.ts';
import type { Piece } from '../../core/net/net.ts';
import type { Production } from '../../core/pipeline.ts';
import { drawPiece, type PieceToDraw } from '../drawing/draw-piece.ts';
import { type Drawing, joinDrawings, labelAt, moveDrawing, type SheetDrawing, turnOver } from '../drawing/drawing.ts';
import { hasRolled } from '../drawing/legend.ts';
import { arrangePages } from './arrange-pages.ts';
import { pageOnPaper } from './correct-page.ts';
import { drawTiles } from './draw-tiles.ts';
import { type Area, drawPageFrame, pageArea } from './page-frame.ts';

/** Air between pieces on a page, mm: room for scissors. */
const GAP = 4;

interface Item extends PieceToDraw {
  readonly shape: Piece;
}

/** A page before it knows its number. */
interface Leaf {
  readonly subtitle: string;
  readonly tile: string | null;
  readonly work: Drawing;
  readonly isWrongSide?: true;
}

/**
 * Every copy of every piece of every roof and layer at true size on the project's pages. Pages are kept apart by the
 * stock they are meant for; pieces larger than a page come last, as tiles. Where marks go on both sides, each page is followed by
 * the one for its back.
 */
export const drawPages = (drawn: Production): readonly SheetDrawing[] => {
  const page = pageOnPaper(drawn.project.page);
  const production: Production = { ...drawn, project: { ...drawn.project, page } };
  const { title } = production.project;
  const rolled = hasRolled(production);
  const leaves = groupsOf(production).flatMap(({ name, items }) => leavesOf(production, name, items));
  const sides = page.marks === 'both' ? leaves.flatMap((leaf) => bothSides(leaf, page.width)) : leaves;
  const all = leaves.length === 0 ? [nothingToPrint(pageArea(page, { tiles: false, rolled }))] : sides;
  return all.map((leaf, i) => ({
    width: page.width,
    height: page.height,
    work: leaf.work,
    ...(leaf.isWrongSide ? { isWrongSide: true as const } : {}),
    frame: drawPageFrame(page, {
      title,
      subtitle: leaf.subtitle,
      number: i + 1,
      count: all.length,
      tile: leaf.tile,
      rolled,
      isWrongSide: leaf.isWrongSide ?? false,
    }),
  }));
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

const groupsOf = (production: Production): readonly { readonly name: string; readonly items: readonly Item[] }[] => {
  const items = production.roofs.flatMap((made) =>
    Array.from({ length: made.spec.copies }, (_, copy) => copy).flatMap((copy) =>
      cutLayers(made).flatMap((layer) =>
        layer.net.pieces.map((shape, piece): Item => ({ roof: made.spec, layer, piece, copy, shape })),
      ),
    ),
  );
  return production.project.stock
    .map(({ id, name }) => ({ name, items: items.filter((item) => item.layer.spec.stock[0] === id) }))
    .filter((group) => group.items.length > 0);
};

const leavesOf = (production: Production, subtitle: string, items: readonly Item[]): readonly Leaf[] => {
  const { project } = production;
  const rolled = hasRolled(production);
  const area = pageArea(project.page, { tiles: false, rolled });
  const spots = arrangePages(
    items.map(({ shape }) => shape),
    area,
    GAP,
  );
  const pages: Drawing[][] = [];
  const tiled: Leaf[] = [];
  items.forEach((item, i) => {
    const spot = spots[i] ?? null;
    if (spot === null) {
      const tileArea = pageArea(project.page, { tiles: true, rolled });
      tiled.push(...drawTiles(item, tileArea, project.page.overlap).map((tile) => ({ ...tile, subtitle })));
      return;
    }
    const motion = placeOn(area, spot, spot.turned ? item.shape.height : null);
    const onPage = pages[spot.page] ?? [];
    pages[spot.page] = onPage;
    onPage.push(moveDrawing(drawPiece(item), motion));
  });
  return [...pages.map((parts) => ({ subtitle, tile: null, work: joinDrawings(...parts) })), ...tiled];
};

/** From a piece's frame to the page; `turnedHeight` is the height of a piece that gets a quarter turn. */
const placeOn = (area: Area, at: { readonly x: number; readonly y: number }, turnedHeight: number | null): Rigid2 => {
  const corner = [area.x + at.x, area.y + at.y] as const;
  return turnedHeight === null
    ? { cos: 1, sin: 0, move: corner }
    : { cos: 0, sin: 1, move: apply2({ cos: 1, sin: 0, move: corner }, [turnedHeight, 0]) };
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

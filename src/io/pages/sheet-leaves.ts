import type { LaidSheet } from '../../core/layout/layout.ts';
import { sheetRing, usableRings } from '../../core/layout/usable.ts';
import { ringsOn } from '../../core/materials.ts';
import type { Production } from '../../core/pipeline.ts';
import type { PageSpec, Stock } from '../../core/project/project.ts';
import { isAtMost, isPositive } from '../../core/tolerance.ts';
import { formatLength } from '../../core/units/units.ts';
import { drawLaid, joinLaid } from '../drawing/draw-laid.ts';
import { type Drawing, joinDrawings, labelAt, moveDrawing, ring, type Stroke, turnOver } from '../drawing/drawing.ts';
import { boxesOf, drawWhereFree } from '../drawing/free-place.ts';
import { hasRolled, TEXT_SIZE } from '../drawing/legend.ts';
import { upArrow } from '../drawing/name-block.ts';
import { shortenText, textWidth } from '../drawing/text-width.ts';
import { type Size, turnSize } from './arrange-pages.ts';
import { drawTiles } from './draw-tiles.ts';
import { type Leaf, leavesOfMany, placeOn } from './leaf.ts';
import { type PrintWay, pageArea, pageBlocks } from './page-frame.ts';

/** Room for a sheet's name under its lower edge, mm. */
const CAPTION = 5;

interface SheetToPrint extends Size {
  readonly sheet: LaidSheet;
  readonly stock: Stock;
}

/**
 * The sheets of one stock at true size with every piece where it lies: several on a page where they have room with their names
 * under them; one that is as large as a page by itself on it; larger ones as tiles.
 */
export const leavesOfSheets = (production: Production, index: number): readonly Leaf[] => {
  const { project } = production;
  const stock = project.stock[index];
  if (!stock) return [];
  const { page } = project;
  const rolled = hasRolled(production);
  const sheets = production.sheets
    .filter((sheet) => sheet.stock === index)
    .map((sheet): SheetToPrint => ({ sheet, stock, width: sheet.width, height: sheet.height + CAPTION }));
  const area = pageArea(page, { tiles: false, rolled });
  const { leaves, large } = leavesOfMany(sheets, area, stock.name, (one) => drawNamed(production, one));
  const alone = large.map((one) => leafOfWhole(production, one));
  const tiles = large.flatMap((one, i) => (alone[i] ? [] : tilesOf(production, one)));
  return [...leaves, ...alone.filter((leaf) => leaf !== null), ...tiles];
};

/** A sheet with its edge, its margin, and its name below. */
const drawNamed = (production: Production, one: SheetToPrint): Drawing => {
  const { sheet, stock } = one;
  const here = joinDrawings({ strokes: edgesOf(stock), labels: [] }, joinLaid(drawLaid(production, sheet)));
  const arrow = directionArrow(stock);
  const indent = arrow.length > 0 ? 4 : 0;
  const texts = captions(production, one);
  const room = sheet.width - indent;
  const text =
    texts.find((each) => textWidth(each, TEXT_SIZE) <= room) ?? shortenText(texts.at(-1) ?? '', TEXT_SIZE, room);
  const name: Drawing = { strokes: arrow, labels: [labelAt(text, [indent, 1], TEXT_SIZE)] };
  return joinDrawings(name, moveDrawing(here, { cos: 1, sin: 0, move: [0, CAPTION] }));
};

/** From the fullest to the shortest. */
const captions = ({ project }: Production, { sheet, stock }: SheetToPrint): readonly string[] => {
  const name = sheetName(stock, sheet);
  const way = { 'one-way': ', print this way up', 'two-way': ', print along the arrow, either way up', any: '' }[
    stock.direction
  ];
  const size = [sheet.width, sheet.height].map((mm) => formatLength(mm, { units: project.units })).join(' × ');
  const margin = isPositive(stock.margin) ? `, margin ${formatLength(stock.margin, { units: project.units })}` : '';
  return [
    `${name}, ${size}${margin}${way}`,
    `${name}, ${size}${margin}`,
    `${name}, ${size}`,
    name,
    `${sheet.index + 1}`,
  ];
};

const sheetName = ({ name }: Stock, { index }: LaidSheet): string => `${name}, sheet ${index + 1}`;

/** The way of the print, in front of a caption. */
const directionArrow = ({ direction }: Stock): readonly Stroke[] => {
  if (direction === 'any') return [];
  const up = upArrow([1.5, 0.5], [1, 0], 3.5);
  return direction === 'one-way' ? up : [...up, ...upArrow([1.5, 4], [-1, 0], 3.5)];
};

const edgesOf = (stock: Stock): readonly Stroke[] => {
  const usable = isPositive(stock.margin) ? usableRings(stock) : [];
  return [sheetRing(stock), ...usable].map((one) => ring('rule', one));
};

/** Which way the print runs on the page, of a sheet that lies upright or a quarter turn to the left. */
const wayOnPage = ({ direction }: Stock, isTurned: boolean): PrintWay | undefined =>
  direction === 'any' ? undefined : { isTurned, isEither: direction === 'two-way' };

/** A sheet that fills a page or leaves little of it: no header and footer, their texts stand where there is room. Null where it is larger. */
const leafOfWhole = (production: Production, { sheet, stock }: SheetToPrint): Leaf | null => {
  const { page } = production.project;
  const isTurned = !fitsPage(sheet, page);
  if (isTurned && !fitsPage(turnSize(sheet), page)) return null;
  const size = isTurned ? turnSize(sheet) : sheet;
  const top = page.height - size.height;
  const spot = { x: (page.width - size.width) / 2, y: Math.max(top / 2, top - page.margin), turned: isTurned };
  const motion = placeOn({ x: 0, y: 0 }, spot, sheet);
  const pieces = drawLaid(production, sheet).map((piece) => moveDrawing(piece, motion));
  const isPage = isAtMost(page.width, size.width) && isAtMost(page.height, size.height) && !sheet.outline;
  const edges = moveDrawing({ strokes: edgesOf(stock).slice(isPage ? 1 : 0), labels: [] }, motion);
  const subtitle = sheetName(stock, sheet);
  const way = wayOnPage(stock, isTurned);
  return {
    subtitle,
    tile: null,
    work: joinDrawings(edges, joinLaid(pieces)),
    frame: (words) => {
      const seen = words.isWrongSide ? pieces.map((piece) => turnOver(piece, page.width)) : pieces;
      const blocks = pageBlocks(page, {
        ...words,
        title: production.project.title,
        subtitle,
        way,
        tile: null,
        rolled: hasRolled(production),
        isCutOff: reachesMargin(pieces, page),
      });
      return drawWhereFree(blocks, page, boxesOf(seen), page.margin);
    },
  };
};

const fitsPage = (size: Size, page: Size): boolean =>
  isAtMost(size.width, page.width) && isAtMost(size.height, page.height);

const reachesMargin = (pieces: readonly Drawing[], { width, height, margin }: PageSpec): boolean =>
  boxesOf(pieces).some(
    ({ minX, minY, maxX, maxY }) =>
      !(
        isAtMost(margin, minX) &&
        isAtMost(margin, minY) &&
        isAtMost(maxX, width - margin) &&
        isAtMost(maxY, height - margin)
      ),
  );

const tilesOf = (production: Production, { sheet, stock }: SheetToPrint): readonly Leaf[] => {
  const { page } = production.project;
  const area = pageArea(page, { tiles: true, rolled: hasRolled(production) });
  const tiles = drawTiles(
    {
      title: sheetName(stock, sheet),
      width: sheet.width,
      height: sheet.height,
      draw: (breaks) => joinLaid(drawLaid(production, sheet, breaks)),
      rings: ringsOn(production.roofs, sheet),
      edges: edgesOf(stock),
    },
    area,
    page.overlap,
  );
  return tiles.map(({ tile, work, isTurned }) => ({
    subtitle: stock.name,
    way: wayOnPage(stock, isTurned),
    tile,
    work,
  }));
};

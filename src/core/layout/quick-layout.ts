import type { Box } from '../geometry/polygon.ts';
import type { Stock } from '../project/project.ts';
import { isAtMost } from '../tolerance.ts';
import type { LayoutJob } from './job.ts';
import { fixedSpots, laySheets, type Spot } from './lay-sheets.ts';
import { keyOf, type LaidSheet, type Layout, type PieceToLay } from './layout.ts';
import { laidRing } from './placed.ts';
import { emptyRectangles } from './rectangles.ts';
import { offsetRing, usableRings } from './usable.ts';

/** Empty rectangles of a sheet that are filled. */
const MOST_RECTANGLES = 6;

interface Row {
  readonly y: number;
  readonly height: number;
  used: number;
}

interface Field extends Box {
  readonly rows: Row[];
}

interface OpenSheet {
  readonly stock: number;
  readonly index: number;
  readonly fields: readonly Field[];
}

/**
 * A layout at once: pieces in rows, tallest first, each upright in the first row that has room, in the upright rectangles of the
 * sheets that are free. On paper that may be turned to any angle, a piece that is too tall or too wide upright lies on its side.
 */
export function quickLayout(job: LayoutJob): Layout {
  const spots: Spot[] = [...fixedSpots(job)];
  const fixed = new Set(spots.map(({ placement }) => keyOf(placement)));
  const order = job.pieces.filter((piece) => !fixed.has(keyOf(piece))).sort((a, b) => b.height - a.height);
  // Where every piece has its place nobody asks what is left of a sheet.
  const sheets: OpenSheet[] = order.length > 0 ? job.fixed.map((sheet) => openSheet(job, sheet.stock, sheet)) : [];
  for (const piece of order) {
    for (const s of piece.stock) {
      const spot = spotOn(job, piece, s, sheets);
      if (!spot) continue;
      spots.push(spot);
      break;
    }
  }
  return laySheets(job, spots);
}

function openSheet(
  job: LayoutJob,
  s: number,
  { index, placements }: Pick<LaidSheet, 'index' | 'placements'>,
): OpenSheet {
  const stock = job.stock[s] as Stock;
  const pieces = new Map(job.pieces.map((piece) => [keyOf(piece), piece]));
  const taken = placements.flatMap((placement) => {
    const piece = pieces.get(keyOf(placement));
    const laid = piece ? [laidRing(piece, placement)] : [];
    return stock.gap > 0 ? laid.flatMap((one) => offsetRing(one, stock.gap)) : laid;
  });
  const rules = { least: 1, most: MOST_RECTANGLES, gap: stock.gap };
  const boxes = emptyRectangles(usableRings(stock), taken, rules);
  return { stock: s, index, fields: boxes.map((box) => ({ ...box, rows: [] })) };
}

function spotOn(job: LayoutJob, piece: PieceToLay, s: number, sheets: OpenSheet[]): Spot | null {
  const stock = job.stock[s] as Stock;
  const open = sheets.filter((sheet) => sheet.stock === s).sort((a, b) => a.index - b.index);
  for (const sheet of open) {
    for (const isTurned of stock.direction === 'any' ? [false, true] : [false]) {
      const spot = spotOnSheet(piece, sheet, stock, isTurned);
      if (spot) return spot;
    }
  }
  const used = new Set(open.map(({ index }) => index));
  let index = 0;
  while (used.has(index)) index++;
  if (stock.count !== null && index >= stock.count) return null;
  const fresh = openSheet(job, s, { index, placements: [] });
  const spot =
    spotOnSheet(piece, fresh, stock, false) ??
    (stock.direction === 'any' ? spotOnSheet(piece, fresh, stock, true) : null);
  if (spot) sheets.push(fresh);
  return spot;
}

function spotOnSheet(piece: PieceToLay, sheet: OpenSheet, { gap }: Stock, isTurned: boolean): Spot | null {
  const [w, h] = isTurned ? [piece.height, piece.width] : [piece.width, piece.height];
  for (const { minX, minY, maxX, maxY, rows } of sheet.fields) {
    if (!isAtMost(w, maxX - minX)) continue;
    let row = rows.find(({ height, used }) => isAtMost(h, height) && isAtMost(used + w, maxX - minX));
    if (!row) {
      const y = rows.reduce((top, { y: low, height }) => Math.max(top, low + height + gap), minY);
      if (!isAtMost(y + h, maxY)) continue;
      row = { y, height: h, used: 0 };
      rows.push(row);
    }
    const left = minX + row.used;
    row.used += w + gap;
    const { roof, layer, piece: index, copy } = piece;
    // A quarter turn counter-clockwise brings the box's upper left corner to the lower left.
    const at = isTurned ? { x: left + w, y: row.y, rotation: Math.PI / 2 } : { x: left, y: row.y, rotation: 0 };
    return { stock: sheet.stock, index: sheet.index, placement: { roof, layer, piece: index, copy, ...at } };
  }
  return null;
}

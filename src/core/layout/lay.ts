import { ringArea } from '../geometry/polygon.ts';
import type { Issue } from '../issue.ts';
import type { NetPoint } from '../net/net.ts';
import type { Stock } from '../project/project.ts';
import { isAtMost } from '../tolerance.ts';
import type { LaidSheet, PieceKey, Placement } from './layout.ts';

/** A piece to be laid: its outline with the lower left corner of its box at the origin. */
export interface PieceToLay extends PieceKey {
  readonly id: string;
  /** Of its outline. */
  readonly fingerprint: string;
  readonly title: string;
  /** Where its layer stands in the project file. */
  readonly path: string;
  readonly outline: readonly NetPoint[];
  readonly width: number;
  readonly height: number;
  /** Indices into the project's stock, in order of preference. */
  readonly stock: readonly number[];
}

export interface Layout {
  readonly sheets: readonly LaidSheet[];
  /** Pieces that found no place. */
  readonly leftOut: readonly PieceToLay[];
  /** Why, once for all copies of a piece that is too large. */
  readonly issues: readonly Issue[];
}

interface Row {
  readonly y: number;
  readonly height: number;
  used: number;
}

interface OpenSheet {
  readonly stock: number;
  readonly index: number;
  readonly rows: Row[];
  readonly placements: Placement[];
  area: number;
}

/**
 * Lays pieces on the maker's sheets in rows, tallest first, each piece upright in the first row and on the first sheet that
 * has room, so a printed paper's up stays up. On paper that may be turned to any angle, a piece that is too tall or too wide
 * upright lies on its side. Pieces that fit no sheet, or for which the sheets run out, are named in the issues; all others
 * are laid.
 */
export function layPieces(pieces: readonly PieceToLay[], stock: readonly Stock[]): Layout {
  const issues: Issue[] = [];
  const leftOut: PieceToLay[] = [];
  const sheets: OpenSheet[] = [];
  const order = pieces.map((_, i) => i).sort((a, b) => heightOf(pieces, b) - heightOf(pieces, a) || a - b);
  for (const i of order) {
    const piece = pieces[i] as PieceToLay;
    const fitting = piece.stock.filter((s) => poseOn(piece, stock[s] as Stock) !== null);
    if (fitting.some((s) => layOn(piece, s, stock[s] as Stock, sheets))) continue;
    leftOut.push(piece);
    if (fitting.length > 0) issues.push(sheetsRunOut(piece, stock[fitting.at(-1) as number] as Stock));
    else if (piece.copy === 0) issues.push(tooLarge(piece, stock[piece.stock[0] as number] as Stock));
  }
  return {
    sheets: sheets
      .sort((a, b) => a.stock - b.stock || a.index - b.index)
      .map(({ stock: s, index, placements, area }) => {
        const { width, height } = stock[s] as Stock;
        return { stock: s, index, width, height, used: area / (width * height), placements };
      }),
    leftOut,
    issues,
  };
}

const heightOf = (pieces: readonly PieceToLay[], i: number): number => pieces[i]?.height ?? 0;

/** Box of the piece as it goes on this paper: upright, or on its side where only that fits; null where neither does. */
function poseOn(
  piece: PieceToLay,
  { width, height, margin, direction }: Stock,
): { isTurned: boolean; w: number; h: number } | null {
  const fits = (w: number, h: number): boolean => isAtMost(w, width - 2 * margin) && isAtMost(h, height - 2 * margin);
  if (fits(piece.width, piece.height)) return { isTurned: false, w: piece.width, h: piece.height };
  if (direction === 'any' && fits(piece.height, piece.width))
    return { isTurned: true, w: piece.height, h: piece.width };
  return null;
}

function layOn(piece: PieceToLay, s: number, stock: Stock, sheets: OpenSheet[]): boolean {
  const pose = poseOn(piece, stock);
  if (!pose) return false;
  const { isTurned, w, h } = pose;
  const { margin, gap } = stock;
  const open = sheets.filter((sheet) => sheet.stock === s);
  const place = (sheet: OpenSheet, row: Row): true => {
    const [left, bottom] = [margin + row.used, row.y];
    row.used += w + gap;
    const { roof, layer, piece: index, copy } = piece;
    // A quarter turn counter-clockwise brings the box's upper left corner to the lower left.
    const spot = isTurned ? { x: left + w, y: bottom, rotation: Math.PI / 2 } : { x: left, y: bottom, rotation: 0 };
    sheet.placements.push({ roof, layer, piece: index, copy, ...spot });
    sheet.area += ringArea(piece.outline);
    return true;
  };
  for (const sheet of open) {
    const row = sheet.rows.find(
      ({ height, used }) => isAtMost(h, height) && isAtMost(used + w, stock.width - 2 * margin),
    );
    if (row) return place(sheet, row);
    const y = sheet.rows.reduce((top, { y: low, height }) => Math.max(top, low + height + gap), margin);
    if (isAtMost(y + h, stock.height - margin)) {
      const fresh = { y, height: h, used: 0 };
      sheet.rows.push(fresh);
      return place(sheet, fresh);
    }
  }
  if (stock.count !== null && open.length >= stock.count) return false;
  const row = { y: margin, height: h, used: 0 };
  const sheet: OpenSheet = { stock: s, index: open.length, rows: [row], placements: [], area: 0 };
  sheets.push(sheet);
  return place(sheet, row);
}

const tooLarge = ({ title, width, height, path }: PieceToLay, { name, width: w, height: h, margin }: Stock): Issue => ({
  level: 'error',
  code: 'piece-too-large',
  path,
  numbers: { width, height, sheetWidth: w - 2 * margin, sheetHeight: h - 2 * margin },
  message: `${title} is {width} wide and {height} high; a sheet of ${name} has room for {sheetWidth} by {sheetHeight}.`,
  remedy: 'Take a larger sheet, or cut the roof in more pieces.',
});

const sheetsRunOut = ({ title, copy, path }: PieceToLay, { name, count }: Stock): Issue => ({
  level: 'error',
  code: 'stock-too-small',
  path,
  numbers: { sheetsCount: count ?? 0, copyCount: copy + 1 },
  message: `${title} of copy {copyCount} finds no room on the {sheetsCount} sheets of ${name}.`,
  remedy: 'Add a sheet, or a second stock to the layer.',
});

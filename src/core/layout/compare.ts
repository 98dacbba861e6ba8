import { boxOf, ringArea } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Stock } from '../project/project.ts';
import type { LayoutJob } from './job.ts';
import { keyOf, type LaidSheet, type Layout, type PieceToLay } from './layout.ts';
import { laidRing } from './placed.ts';
import { areComparable, sheetPrice } from './preference.ts';
import { usableRings } from './usable.ts';

/** A sheet of the next lower choice weighs as much as so many of the one above it. */
const STEP = 1000;
/** A sheet without a price weighs more than any with one. */
const UNPRICED = 1e9;

/**
 * What a layout costs, most important first, less is better: area of pieces without a place, sheets (of lower choices before
 * those of higher ones) or their price, then how little is left free along one side of a sheet.
 */
export function costOf(job: LayoutJob, { sheets, leftOut }: Layout): readonly number[] {
  const outside = leftOut.reduce((sum, i) => sum + ringArea((job.pieces[i] as PieceToLay).outline), 0);
  const fixed = new Set(job.fixed.map(({ stock, index }) => `${stock}/${index}`));
  const fresh = sheets.filter(({ stock, index }) => !fixed.has(`${stock}/${index}`));
  const paid = fresh.reduce((sum, { stock }) => sum + sheetWeight(job, stock), 0);
  return [outside, paid, -Math.max(0, ...sheets.map((sheet) => restShare(job, sheet)))];
}

/** Whether a layout that costs `a` is better than one that costs `b`. */
export function isCheaper(a: readonly number[], b: readonly number[]): boolean {
  const first = a.findIndex((value, i) => value !== b[i]);
  return first >= 0 && (a[first] as number) < (b[first] as number);
}

/** What one more sheet of a stock weighs: its price where the least price is asked for, otherwise by the rank of its choice. */
export function sheetWeight({ pieces, stock, rules }: LayoutJob, s: number): number {
  if (rules.prefer === 'cheapest' && areComparable(stock)) return sheetPrice(stock[s] as Stock) ?? UNPRICED;
  const ranks = pieces.map((piece) => piece.stock.indexOf(s)).filter((rank) => rank >= 0);
  return STEP ** Math.min(2, ...ranks);
}

/** Share of a sheet's box that is free along the best of its four sides. */
function restShare({ pieces, stock }: LayoutJob, sheet: LaidSheet): number {
  const parts = usableRings(stock[sheet.stock] as Stock);
  if (parts.length === 0) return 0;
  const byKey = new Map(pieces.map((piece) => [keyOf(piece), piece]));
  const laid = sheet.placements.flatMap((placement): readonly Vec2[] =>
    laidRing(byKey.get(keyOf(placement)) as PieceToLay, placement),
  );
  const [outer, inner] = [boxOf(parts.flat()), boxOf(laid)];
  const [width, height] = [outer.maxX - outer.minX, outer.maxY - outer.minY];
  return Math.max(
    (inner.minX - outer.minX) / width,
    (outer.maxX - inner.maxX) / width,
    (inner.minY - outer.minY) / height,
    (outer.maxY - inner.maxY) / height,
  );
}

import { FillRule, intersectD } from 'clipper2-ts';
import { type Box, boxOf, ringArea } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Project, Stock } from '../project/project.ts';
import type { StockFile } from '../project/project-file.ts';
import { emptyRectangles } from './rectangles.ts';
import { offsetRing, rectangle, sheetRing, usableRings } from './usable.ts';

/** The shorter side of a rest that is worth keeping, mm: about an inch. */
export const LEAST_REST_MM = 25;
const MOST_RESTS = 4;
/** Sizes of a rest are written down to a hundredth of a millimetre. */
const PLACES = 2;
const PRECISION = 8;

/** Upright rectangles that are left of a sheet within its margin and clear of the pieces by its gap, the largest first. */
export function restRectangles(stock: Stock, laid: readonly (readonly Vec2[])[]): readonly Box[] {
  const taken = stock.gap > 0 ? laid.flatMap((one) => offsetRing(one, stock.gap)) : laid;
  return emptyRectangles(usableRings(stock), taken, { least: LEAST_REST_MM, most: MOST_RESTS, gap: 0 });
}

/** What is left of a sheet beyond one straight cut beside all pieces, where most is left; null where too little. */
export function restBeyondCut(stock: Stock, laid: readonly (readonly Vec2[])[]): readonly Vec2[] | null {
  const ring = sheetRing(stock);
  const { minX, minY, maxX, maxY } = boxOf(laid.flat());
  const { width, height } = stock;
  const sides = [
    rectangle(maxX, 0, width, height),
    rectangle(0, maxY, width, height),
    rectangle(0, 0, minX, height),
    rectangle(0, 0, width, minY),
  ];
  const parts = sides.flatMap((side) => (isWorth(side) ? partsIn(ring, side) : []));
  const best = parts.filter(isWorth).sort((a, b) => ringArea(b) - ringArea(a))[0];
  return best ?? null;
}

function isWorth(ring: readonly Vec2[]): boolean {
  const { minX, minY, maxX, maxY } = boxOf(ring);
  return Math.min(maxX - minX, maxY - minY) >= LEAST_REST_MM;
}

function partsIn(ring: readonly Vec2[], side: readonly Vec2[]): readonly (readonly Vec2[])[] {
  const paths = [ring, side].map((one) => [one.map(([x, y]) => ({ x, y }))]) as [Path, Path];
  return intersectD(paths[0], paths[1], FillRule.NonZero, PRECISION).map((path) =>
    path.map(({ x, y }): Vec2 => [x, y]),
  );
}

type Path = { x: number; y: number }[][];

/**
 * The rest of a sheet as a paper of its own for the project file: what lies beyond one straight cut, with all else as the paper
 * is. Null where too little is left.
 */
export function keepRest(
  paper: StockFile,
  stock: Stock,
  laid: readonly (readonly Vec2[])[],
  { stock: all }: Pick<Project, 'stock'>,
): StockFile | null {
  const rest = restBeyondCut(stock, laid);
  if (!rest) return null;
  const { width: _, height: __, outline: ___, price: ____, ...same } = paper;
  const { minX, minY, maxX, maxY } = boxOf(rest);
  const short = (mm: number): number => Number(mm.toFixed(PLACES));
  const isWhole = Math.abs((maxX - minX) * (maxY - minY) - ringArea(rest)) < 1 / 10 ** PLACES;
  const size = isWhole
    ? { width: short(maxX - minX), height: short(maxY - minY) }
    : { outline: rest.map(([x, y]): readonly [number, number] => [short(x - minX), short(y - minY)]) };
  const ids = new Set(all.map(({ id }) => id));
  let [id, number] = [`${paper.id}-rest`, 1];
  while (ids.has(id)) id = `${paper.id}-rest-${++number}`;
  return { ...same, id, name: `${stock.name}, rest${number > 1 ? ` ${number}` : ''}`, ...size, count: 1 };
}

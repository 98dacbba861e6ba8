import { at, type Box, boxOf } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { NOISE_MM } from '../tolerance.ts';

/** Lines that a sheet is divided by beside the edges of what lies on it, so that slanted borders cost little. */
const DIVISIONS = 32;
/** Corners of rings with more than so many are not lines by themselves. */
const MOST_CORNERS = 12;

export interface RectangleRules {
  /** The shorter side of a rectangle worth having, mm. */
  readonly least: number;
  /** Rectangles handed out at most. */
  readonly most: number;
  /** Left free between two of them, mm. */
  readonly gap: number;
}

/**
 * Upright rectangles inside rings and clear of what lies there: the largest first, each the largest beside those before it.
 * They are largest on a grid of the corners of all rings and of some lines between; no larger one than by a division is missed.
 */
export function emptyRectangles(
  rings: readonly (readonly Vec2[])[],
  taken: readonly (readonly Vec2[])[],
  { least, most, gap }: RectangleRules,
): readonly Box[] {
  if (rings.length === 0) return [];
  const grid = gridOver(rings, taken);
  blockOutside(grid, rings);
  for (const one of taken) blockInside(grid, one);
  const found: Box[] = [];
  while (found.length < most) {
    const best = largest(grid, least);
    if (!best) break;
    found.push(best);
    block(grid, { minX: best.minX - gap, minY: best.minY - gap, maxX: best.maxX + gap, maxY: best.maxY + gap });
  }
  return found;
}

interface Grid {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  /** 1 where something lies, row by row from the lowest. */
  readonly cells: Uint8Array;
}

function gridOver(rings: readonly (readonly Vec2[])[], taken: readonly (readonly Vec2[])[]): Grid {
  const { minX, minY, maxX, maxY } = boxOf(rings.flat());
  const lines = (axis: 0 | 1, low: number, high: number): number[] => {
    const found = [low, high];
    for (let i = 1; i < DIVISIONS; i++) found.push(low + ((high - low) * i) / DIVISIONS);
    for (const one of [...rings, ...taken]) {
      const values = one.map((p) => p[axis]);
      found.push(...(one.length <= MOST_CORNERS ? values : [Math.min(...values), Math.max(...values)]));
    }
    const sorted = found.filter((value) => value >= low && value <= high).sort((a, b) => a - b);
    return sorted.filter((value, i) => i === 0 || value - (sorted[i - 1] as number) > NOISE_MM);
  };
  const [xs, ys] = [lines(0, minX, maxX), lines(1, minY, maxY)];
  return { xs, ys, cells: new Uint8Array((xs.length - 1) * (ys.length - 1)) };
}

function block({ xs, ys, cells }: Grid, { minX, minY, maxX, maxY }: Box): void {
  const columns = xs.length - 1;
  for (let row = 0; row < ys.length - 1; row++) {
    if ((ys[row + 1] as number) <= minY + NOISE_MM || (ys[row] as number) >= maxY - NOISE_MM) continue;
    for (let column = 0; column < columns; column++) {
      if ((xs[column + 1] as number) > minX + NOISE_MM && (xs[column] as number) < maxX - NOISE_MM)
        cells[row * columns + column] = 1;
    }
  }
}

/** Cells that the border passes through, and those whose middle lies inside. */
function blockInside(grid: Grid, ring: readonly Vec2[]): void {
  blockBorder(grid, ring);
  eachMiddle(grid, [ring], (cell, isIn) => {
    if (isIn) grid.cells[cell] = 1;
  });
}

function blockOutside(grid: Grid, rings: readonly (readonly Vec2[])[]): void {
  for (const ring of rings) blockBorder(grid, ring);
  eachMiddle(grid, rings, (cell, isIn) => {
    if (!isIn) grid.cells[cell] = 1;
  });
}

function blockBorder({ xs, ys, cells }: Grid, ring: readonly Vec2[]): void {
  const columns = xs.length - 1;
  ring.forEach((a, i) => {
    const b = at(ring, i + 1);
    const [low, high] = a[1] < b[1] ? [a, b] : [b, a];
    const [bottom, top] = [low[1], high[1]];
    const slope = top - bottom > NOISE_MM ? (high[0] - low[0]) / (top - bottom) : 0;
    for (let row = 0; row < ys.length - 1; row++) {
      const [y0, y1] = [ys[row] as number, ys[row + 1] as number];
      if (top <= y0 + NOISE_MM || bottom >= y1 - NOISE_MM) {
        // A level border inside the row runs through its cells.
        const isLevel = top - bottom <= NOISE_MM && bottom > y0 + NOISE_MM && bottom < y1 - NOISE_MM;
        if (!isLevel) continue;
      }
      const isSteep = top - bottom > NOISE_MM;
      const p = isSteep ? low[0] + slope * (Math.max(y0, bottom) - bottom) : low[0];
      const q = isSteep ? low[0] + slope * (Math.min(y1, top) - bottom) : high[0];
      const [left, right] = [Math.min(p, q), Math.max(p, q)];
      for (let column = 0; column < columns; column++) {
        if ((xs[column] as number) < right - NOISE_MM && (xs[column + 1] as number) > left + NOISE_MM)
          cells[row * columns + column] = 1;
      }
    }
  });
}

/** Calls for every cell, with whether its middle lies in one of the rings, which lie apart. */
function eachMiddle(
  { xs, ys }: Grid,
  rings: readonly (readonly Vec2[])[],
  call: (cell: number, isIn: boolean) => void,
): void {
  const columns = xs.length - 1;
  for (let row = 0; row < ys.length - 1; row++) {
    const y = ((ys[row] as number) + (ys[row + 1] as number)) / 2;
    const crossings = rings
      .flatMap((ring) =>
        ring.flatMap((a, i): number[] => {
          const b = at(ring, i + 1);
          return a[1] > y !== b[1] > y ? [a[0] + ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1])] : [];
        }),
      )
      .sort((p, q) => p - q);
    let passed = 0;
    for (let column = 0; column < columns; column++) {
      const x = ((xs[column] as number) + (xs[column + 1] as number)) / 2;
      while (passed < crossings.length && (crossings[passed] as number) < x) passed++;
      call(row * columns + column, passed % 2 === 1);
    }
  }
}

/**
 * The rectangle of free cells with the largest area whose shorter side is long enough: for each row as the lower one, the free
 * height over every column is a bar, and the largest rectangle under the bars is found with a stack of rising ones.
 */
function largest({ xs, ys, cells }: Grid, least: number): Box | null {
  const columns = xs.length - 1;
  const tops = new Int32Array(columns);
  let best: Box | null = null;
  let bestArea = 0;
  for (let row = ys.length - 2; row >= 0; row--) {
    const y = ys[row] as number;
    for (let column = 0; column < columns; column++) {
      if (cells[row * columns + column]) tops[column] = row;
      else if (row === ys.length - 2 || cells[(row + 1) * columns + column]) tops[column] = row + 1;
    }
    // The upper line of a bar, and the first column that it covers.
    const stack: { top: number; from: number }[] = [];
    for (let column = 0; column <= columns; column++) {
      const top = column < columns ? (tops[column] as number) : row;
      let from = column;
      while (stack.length > 0 && (stack[stack.length - 1] as { top: number }).top >= top) {
        const bar = stack.pop() as { top: number; from: number };
        from = bar.from;
        const box = { minX: xs[bar.from] as number, minY: y, maxX: xs[column] as number, maxY: ys[bar.top] as number };
        const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
        if (Math.min(width, height) + NOISE_MM < least || width * height <= bestArea) continue;
        best = box;
        bestArea = width * height;
      }
      if (top > row) stack.push({ top, from });
    }
  }
  return best;
}

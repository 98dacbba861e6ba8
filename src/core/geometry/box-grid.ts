import { areApart, type Box } from './polygon.ts';

/** Boxes that are found again by where they lie, without looking at all of them. Numbered from 0 in the order they came. */
export interface BoxGrid {
  add(box: Box): void;
  /** Numbers of the boxes that come nearer to this one than the gap, rising. */
  near(box: Box, gap?: number): readonly number[];
}

/** Fewer boxes than this are gone through one by one. */
const FEW = 16;
/** A box over more cells than this is looked at always. */
const MOST_CELLS = 32;
/** Cells on either side of the middle, along each axis. */
const HALF_SPAN = 2 ** 25;

/** @param cell side of the square cells that boxes are sorted into, about the size of a box, mm */
export function boxGrid(cell: number): BoxGrid {
  const boxes: Box[] = [];
  const large: number[] = [];
  const cells = new Map<number, number[]>();
  let sorted = 0;
  const column = (x: number): number => Math.floor(x / cell);
  const forCells = (box: Box, visit: (key: number) => void): void => {
    for (let x = column(box.minX); x <= column(box.maxX); x++)
      for (let y = column(box.minY); y <= column(box.maxY); y++) visit((x + HALF_SPAN) * 2 * HALF_SPAN + y + HALF_SPAN);
  };
  const cellCount = (box: Box): number =>
    (column(box.maxX) - column(box.minX) + 1) * (column(box.maxY) - column(box.minY) + 1);
  const sortIn = (index: number): void => {
    const box = boxes[index] as Box;
    if (!(cellCount(box) <= MOST_CELLS)) large.push(index);
    else
      forCells(box, (key) => {
        const here = cells.get(key);
        if (here) here.push(index);
        else cells.set(key, [index]);
      });
  };
  const all = (box: Box, gap: number): number[] => {
    const found: number[] = [];
    for (let i = 0; i < boxes.length; i++) if (!areApart(boxes[i] as Box, box, gap)) found.push(i);
    return found;
  };
  return {
    add: (box) => {
      boxes.push(box);
    },
    near: (box, gap = 0) => {
      if (boxes.length < FEW) return all(box, gap);
      for (; sorted < boxes.length; sorted++) sortIn(sorted);
      const around: Box = {
        minX: box.minX - gap,
        minY: box.minY - gap,
        maxX: box.maxX + gap,
        maxY: box.maxY + gap,
      };
      if (!(cellCount(around) <= boxes.length)) return all(box, gap);
      const found = new Set<number>();
      const meet = (index: number): void => {
        if (!areApart(boxes[index] as Box, box, gap)) found.add(index);
      };
      large.forEach(meet);
      forCells(around, (key) => cells.get(key)?.forEach(meet));
      return [...found].sort((a, b) => a - b);
    },
  };
}

/** A grid of these boxes, its cells of their mean size. */
export function gridOf(boxes: readonly Box[]): BoxGrid {
  const size = boxes.reduce((sum, { minX, minY, maxX, maxY }) => sum + (maxX - minX + maxY - minY) / 2, 0);
  const grid = boxGrid(boxes.length === 0 || size === 0 ? 1 : size / boxes.length);
  for (const box of boxes) grid.add(box);
  return grid;
}

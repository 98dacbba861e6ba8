import { areApart, type Box } from './polygon.ts';

/** Boxes that are found again by where they lie, without looking at all of them. Numbered from 0 in the order they came. */
export interface BoxGrid {
  add(box: Box): void;
  /** Numbers of the boxes that come nearer to this one than the gap, rising. */
  near(box: Box, gap?: number): readonly number[];
  /** Whether one of those is a hit; asked in no order, until the first. */
  meets(box: Box, gap: number, isHit: (index: number) => boolean): boolean;
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
  const cellCount = (box: Box): number =>
    (column(box.maxX) - column(box.minX) + 1) * (column(box.maxY) - column(box.minY) + 1);
  const sortIn = (index: number): void => {
    const box = boxes[index] as Box;
    if (!(cellCount(box) <= MOST_CELLS)) {
      large.push(index);
      return;
    }
    for (let x = column(box.minX); x <= column(box.maxX); x++)
      for (let y = column(box.minY); y <= column(box.maxY); y++) {
        const key = keyOf(x, y);
        const here = cells.get(key);
        if (here) here.push(index);
        else cells.set(key, [index]);
      }
  };
  /** For each box the question in which it was last met, so that it is met once though it lies in several cells. */
  const met: number[] = [];
  let question = 0;
  const meets = (box: Box, gap: number, isHit: (index: number) => boolean): boolean => {
    const isMet = (index: number): boolean => {
      if (met[index] === question) return false;
      met[index] = question;
      return !areApart(boxes[index] as Box, box, gap) && isHit(index);
    };
    question++;
    const [left, right] = [column(box.minX - gap), column(box.maxX + gap)];
    const [low, high] = [column(box.minY - gap), column(box.maxY + gap)];
    if (boxes.length < FEW || !((right - left + 1) * (high - low + 1) <= boxes.length)) {
      for (let i = 0; i < boxes.length; i++) if (isMet(i)) return true;
      return false;
    }
    for (; sorted < boxes.length; sorted++) sortIn(sorted);
    if (large.some(isMet)) return true;
    for (let x = left; x <= right; x++)
      for (let y = low; y <= high; y++) if (cells.get(keyOf(x, y))?.some(isMet)) return true;
    return false;
  };
  return {
    add: (box) => {
      met.push(0);
      boxes.push(box);
    },
    meets,
    near: (box, gap = 0) => {
      const found: number[] = [];
      meets(box, gap, (index) => {
        found.push(index);
        return false;
      });
      return found.sort((a, b) => a - b);
    },
  };
}

const keyOf = (x: number, y: number): number => (x + HALF_SPAN) * 2 * HALF_SPAN + y + HALF_SPAN;

/** A grid of these boxes, its cells of their mean size. */
export function gridOf(boxes: readonly Box[]): BoxGrid {
  const size = boxes.reduce((sum, { minX, minY, maxX, maxY }) => sum + (maxX - minX + maxY - minY) / 2, 0);
  const grid = boxGrid(boxes.length === 0 || size === 0 ? 1 : size / boxes.length);
  for (const box of boxes) grid.add(box);
  return grid;
}

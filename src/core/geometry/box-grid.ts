import { NOISE_MM } from '../tolerance.ts';
import { areApart, type Box } from './polygon.ts';

/** Boxes that are found again by where they lie, without looking at all of them. Numbered from 0 in the order they came. */
export interface BoxGrid {
  add(box: Box): void;
  /** Numbers of the boxes that come nearer to this one than the gap, rising. */
  near(box: Box, gap?: number): readonly number[];
  /** Whether one of those is a hit; asked in no order, until the first. */
  meets(box: Box, gap: number, isHit: (index: number) => boolean): boolean;
}

/** Boxes of about one size, by the square cells of that size that they touch: nine at most. */
interface Level {
  readonly cell: number;
  /** For each cell the last entry that was made for it. */
  readonly cells: Map<number, number>;
  /** Of each entry its box, and the entry made before it for the same cell, -1 where there is none. */
  readonly entries: number[];
  readonly before: number[];
  readonly boxes: number[];
}

/** Fewer boxes than this are gone through one by one. */
const FEW = 16;

/** A small whole number for a cell; other cells may share it, whose boxes are then passed by. */
const keyOf = (x: number, y: number): number => (Math.imul(x, 73_856_093) ^ Math.imul(y, 19_349_663)) >> 1;

export function boxGrid(): BoxGrid {
  const boxes: Box[] = [];
  const levels = new Map<number, Level>();
  /** For each box the question in which it was last met, so that it is met once though it lies in several cells. */
  const met: number[] = [];
  let question = 0;
  let sorted = 0;
  const sortIn = (index: number): void => {
    const { minX, minY, maxX, maxY } = boxes[index] as Box;
    const size = Math.max(maxX - minX, maxY - minY, NOISE_MM);
    // Nothing lies in an empty box.
    if (!Number.isFinite(size)) return;
    const power = Math.ceil(Math.log2(size));
    const level: Level = levels.get(power) ?? {
      cell: 2 ** power,
      cells: new Map(),
      entries: [],
      before: [],
      boxes: [],
    };
    levels.set(power, level);
    const { cell, cells, entries, before } = level;
    level.boxes.push(index);
    for (let x = Math.floor(minX / cell); x * cell <= maxX; x++)
      for (let y = Math.floor(minY / cell); y * cell <= maxY; y++) {
        const key = keyOf(x, y);
        before.push(cells.get(key) ?? -1);
        cells.set(key, entries.push(index) - 1);
      }
  };
  const meets = (box: Box, gap: number, isHit: (index: number) => boolean): boolean => {
    const isMet = (index: number): boolean => {
      if (met[index] === question) return false;
      met[index] = question;
      return !areApart(boxes[index] as Box, box, gap) && isHit(index);
    };
    question++;
    if (boxes.length < FEW) {
      for (let i = 0; i < boxes.length; i++) if (isMet(i)) return true;
      return false;
    }
    for (; sorted < boxes.length; sorted++) sortIn(sorted);
    for (const { cell, cells, entries, before, boxes: own } of levels.values()) {
      const [left, right] = [Math.floor((box.minX - gap) / cell), Math.floor((box.maxX + gap) / cell)];
      const [low, high] = [Math.floor((box.minY - gap) / cell), Math.floor((box.maxY + gap) / cell)];
      // Over more cells than there are boxes all of them are gone through.
      if (!((right - left + 1) * (high - low + 1) <= own.length)) {
        if (own.some(isMet)) return true;
        continue;
      }
      for (let x = left; x <= right; x++)
        for (let y = low; y <= high; y++)
          for (let entry = cells.get(keyOf(x, y)) ?? -1; entry >= 0; entry = before[entry] as number)
            if (isMet(entries[entry] as number)) return true;
    }
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

export function gridOf(boxes: readonly Box[]): BoxGrid {
  const grid = boxGrid();
  for (const box of boxes) grid.add(box);
  return grid;
}

import { boxGrid } from '../geometry/box-grid.ts';
import type { Box } from '../geometry/polygon.ts';
import { type FlatPart, joinSpaceBoxes, type SpaceBox } from './crossing.ts';

/** What is on already: found again by where it lies in plan. */
export interface StillParts {
  readonly parts: readonly FlatPart[];
  readonly near: (box: SpaceBox) => readonly number[];
  /** Null while nothing is on. */
  readonly around: SpaceBox | null;
  /** The body and the layers that are done: so many of the first parts. */
  readonly beneath: number;
  /** What is on by now is beneath the next layer. */
  coverAll(): void;
  add(parts: readonly FlatPart[]): void;
}

export function stillParts(): StillParts {
  const parts: FlatPart[] = [];
  const grid = boxGrid();
  let around: SpaceBox | null = null;
  let beneath = 0;
  return {
    parts,
    near: (box) => grid.near(planOf(box)),
    get around() {
      return around;
    },
    get beneath() {
      return beneath;
    },
    coverAll: () => {
      beneath = parts.length;
    },
    add: (more) => {
      for (const part of more) {
        parts.push(part);
        grid.add(planOf(part.box));
        around = around ? joinSpaceBoxes([around, part.box]) : part.box;
      }
    },
  };
}

const planOf = ({ min, max }: SpaceBox): Box => ({ minX: min[0], minY: min[1], maxX: max[0], maxY: max[1] });

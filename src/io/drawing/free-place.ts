import { areApart, type Box, boxOf } from '../../core/geometry/polygon.ts';
import { rest2 } from '../../core/geometry/rigid2.ts';
import { reachOff } from '../../core/layout/check-layout.ts';
import type { LaidSheet } from '../../core/layout/layout.ts';
import { rectangle } from '../../core/layout/usable.ts';
import { isAtMost } from '../../core/tolerance.ts';
import { type Drawing, emptyDrawing, moveDrawing } from './drawing.ts';
import type { Block } from './legend.ts';

const AIR = 5;

/** The boxes round drawings that show anything, mm. */
export const boxesOf = (drawings: readonly Drawing[]): readonly Box[] =>
  drawings.flatMap(({ strokes }) => (strokes.length === 0 ? [] : [boxOf(strokes.flatMap(({ points }) => points))]));

/**
 * The first of the blocks that has a place on the paper, clear of what is taken, in the first such place from the upper left;
 * nothing where none has.
 */
export const drawWhereFree = (
  blocks: readonly Block[],
  paper: Pick<LaidSheet, 'width' | 'height' | 'outline'>,
  taken: readonly Box[],
  air = AIR,
): Drawing => {
  const { width, height } = paper;
  for (const block of blocks) {
    if (block.width + 2 * air > width || block.height + 2 * air > height) continue;
    const free = steps(height - air, air + block.height).flatMap((y) =>
      steps(air, width - air - block.width).map((x): readonly [number, number] => [x, y]),
    );
    const move = free
      .filter(([x, y]) => {
        const corners = rectangle(x, y - block.height, x + block.width, y);
        return isAtMost(reachOff(corners, { ...paper, margin: 0 }), 0);
      })
      .find(([x, y]) => {
        const own = { minX: x, maxX: x + block.width, minY: y - block.height, maxY: y };
        return taken.every((box) => areApart(box, own, AIR));
      });
    if (move !== undefined) return moveDrawing(block.drawing, { ...rest2, move });
  }
  return emptyDrawing;
};

/** From one value to the other, both included, in steps of 5 mm or a little less. */
const steps = (from: number, to: number): readonly number[] => {
  const count = Math.max(1, Math.ceil(Math.abs(to - from) / 5));
  return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
};

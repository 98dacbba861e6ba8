import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isInBox } from './clip-drawing.ts';
import { tileBox } from './tile.ts';

const area = { width: 190, height: 230 };
const arbitrary = fc.record({
  width: fc.double({ min: 20, max: 1500, noNaN: true }),
  height: fc.double({ min: 20, max: 1500, noNaN: true }),
  overlap: fc.double({ min: 5, max: 30, noNaN: true }),
});

describe('tiles', () => {
  it('fit the page, overlap by as much as asked, and their own parts make up the whole', () => {
    fc.assert(
      fc.property(arbitrary, ({ width, height, overlap }) => {
        const { tiles, rows, columns } = tileBox({ width, height }, area, overlap);
        expect(tiles).toHaveLength(rows * columns);
        let own = 0;
        for (const { window, own: part } of tiles) {
          expect(window.maxX - window.minX).toBeLessThanOrEqual(area.width + 1e-9);
          expect(window.maxY - window.minY).toBeLessThanOrEqual(area.height + 1e-9);
          own += (part.maxX - part.minX) * (part.maxY - part.minY);
        }
        expect(own / (width * height)).toBeCloseTo(1, 9);
        const [first, second] = tiles;
        if (columns > 1 && first !== undefined && second !== undefined) {
          expect(first.window.maxX - second.window.minX).toBeCloseTo(overlap, 6);
        }
      }),
    );
  });

  it('share every joining mark: at the same place, whole, on the line where they meet', () => {
    fc.assert(
      fc.property(arbitrary, ({ width, height, overlap }) => {
        const { tiles, marks } = tileBox({ width, height }, area, overlap);
        expect(marks.length > 0).toBe(tiles.length > 1);
        for (const { at, reach } of marks) {
          const [x, y] = at;
          const on = tiles.filter(
            ({ window, trims }) =>
              (
                [
                  [x - reach, y],
                  [x + reach, y],
                  [x, y - reach],
                  [x, y + reach],
                ] as const
              ).every((corner) => isInBox(corner, window)) &&
              trims.some(([a, b]) => (a[0] === b[0] && a[0] === x) || (a[1] === b[1] && a[1] === y)),
          );
          expect(on.length).toBeGreaterThanOrEqual(2);
        }
      }),
    );
  });

  it('are named in reading order', () => {
    const { tiles } = tileBox({ width: 300, height: 400 }, area, 10);
    expect(tiles.map(({ name }) => name)).toEqual([
      'Row A, column 1',
      'Row A, column 2',
      'Row B, column 1',
      'Row B, column 2',
    ]);
    expect(tiles[0]?.window.maxY).toBe(400);
  });

  it('go on where the overlap takes most of the page', () => {
    const { tiles } = tileBox({ width: 60, height: 20 }, { width: 13, height: 20 }, 12.5);
    expect(tiles.length).toBeLessThan(12);
    expect(tiles.at(-1)?.window.maxX).toBe(60);
  });
});

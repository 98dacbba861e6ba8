import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runs } from '../../../tests/laws/runs.ts';
import { boxedRing, ringDepth } from '../geometry/convex-parts.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { reachOff } from './check-layout.ts';
import { laidRing } from './placed.ts';
import { emptyRectangles } from './rectangles.ts';
import { arbitraryJob } from './testing/arbitrary-job.ts';
import { rectangle, sheetRing } from './usable.ts';

const rules = { least: 10, most: 4, gap: 0 };
const ringOf = ({ minX, minY, maxX, maxY }: ReturnType<typeof emptyRectangles>[number]): readonly Vec2[] =>
  rectangle(minX, minY, maxX, maxY);

describe('empty rectangles', () => {
  test('are what is left of a sheet beside a corner that is taken', () => {
    const taken = [rectangle(0, 0, 60, 20)];
    expect(emptyRectangles([rectangle(0, 0, 100, 50)], taken, rules)).toEqual([
      { minX: 0, minY: 20, maxX: 100, maxY: 50 },
      { minX: 60, minY: 0, maxX: 100, maxY: 20 },
    ]);
    expect(emptyRectangles([rectangle(0, 0, 100, 50)], taken, { ...rules, least: 25 })).toHaveLength(1);
    expect(emptyRectangles([rectangle(0, 0, 100, 50)], [rectangle(0, 0, 100, 50)], rules)).toEqual([]);
  });

  test('of a right triangle reach half its sides (a fact of geometry), to a division of the sheet', () => {
    const [half] = emptyRectangles(
      [
        [
          [0, 0],
          [100, 0],
          [0, 80],
        ],
      ],
      [],
      rules,
    );
    expect((half?.maxX ?? 0) * (half?.maxY ?? 0)).toBeCloseTo(2000, 6);
  });

  test('lie inside the ring and clear of what lies there and of each other', () => {
    fc.assert(
      fc.property(
        arbitraryJob(8),
        fc.array(
          fc.tuple(
            fc.double({ min: 0, max: 1, noNaN: true }),
            fc.double({ min: 0, max: 1, noNaN: true }),
            fc.double({ min: 0, max: 7, noNaN: true }),
          ),
          { minLength: 8, maxLength: 8 },
        ),
        ({ pieces, stock: [sheet] }, spots) => {
          if (!sheet) return;
          const taken = pieces.map((piece, i) => {
            const [x, y, rotation] = spots[i] as [number, number, number];
            return laidRing(piece, { x: x * sheet.width, y: y * sheet.height, rotation });
          });
          const found = emptyRectangles([sheetRing(sheet)], taken, rules).map(ringOf);
          found.forEach((one, i) => {
            expect(reachOff(one, { ...sheet, margin: 0 })).toBeLessThanOrEqual(1e-6);
            for (const other of [...taken, ...found.slice(0, i)])
              expect(ringDepth(boxedRing(one), boxedRing(other))).toBeLessThanOrEqual(1e-6);
          });
        },
      ),
      { numRuns: runs(60) },
    );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distance2, type Vec2 } from '../../core/geometry/vector.ts';
import { type DashKind, dashLine, dashPatterns, takeOut } from './dashes.ts';

const kinds = Object.keys(dashPatterns) as DashKind[];
const place = fc.tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: -500, max: 500 }));

describe('dashLine', () => {
  it('begins and ends in ink at the very ends, in order, without overlap', () => {
    fc.assert(
      fc.property(
        place,
        place,
        fc.constantFrom(...kinds),
        fc.double({ min: 0.1, max: 3, noNaN: true }),
        (a, b, kind, unit) => {
          fc.pre(distance2(a, b) > 1e-3);
          const dashes = dashLine(a, b, kind, unit);
          expect(distance2(dashes[0]?.[0] as Vec2, a)).toBeLessThan(1e-6);
          expect(distance2(dashes.at(-1)?.[1] as Vec2, b)).toBeLessThan(1e-6);
          let last = 0;
          for (const [from, to] of dashes) {
            expect(distance2(a, from)).toBeGreaterThanOrEqual(last - 1e-6);
            last = distance2(a, to);
            expect(last).toBeGreaterThan(distance2(a, from));
          }
        },
      ),
    );
  });

  it('draws a cut continuous, a valley dashed, a mountain dash and dot', () => {
    const lengths = (kind: DashKind): number[] => dashLine([0, 0], [100, 0], kind, 1).map(([p, q]) => distance2(p, q));
    expect(lengths('cut')).toEqual([100]);
    const valley = lengths('valley');
    expect(Math.max(...valley) - Math.min(...valley)).toBeLessThan(1e-9);
    const mountain = lengths('mountain');
    expect((mountain[0] ?? 0) / (mountain[1] ?? 1)).toBeCloseTo(11 / 1.5, 6);
    expect(mountain.length % 2).toBe(1);
  });

  it('keeps a line too short for its pattern whole', () => {
    expect(dashLine([0, 0], [3, 4], 'mountain', 1)).toEqual([
      [
        [0, 0],
        [3, 4],
      ],
    ]);
    expect(dashLine([2, 2], [2, 2], 'cut', 1)).toEqual([]);
  });
});

describe('takeOut', () => {
  it('leaves what no span covers', () => {
    expect(takeOut([0, 0], [10, 0], [])).toEqual([
      [
        [0, 0],
        [10, 0],
      ],
    ]);
    expect(
      takeOut(
        [0, 0],
        [10, 0],
        [
          [
            [10, 0],
            [0, 0],
          ],
        ],
      ),
    ).toEqual([]);
    expect(
      takeOut(
        [0, 0],
        [10, 0],
        [
          [
            [7, 0],
            [4, 0],
          ],
        ],
      ),
    ).toEqual([
      [
        [0, 0],
        [4, 0],
      ],
      [
        [7, 0],
        [10, 0],
      ],
    ]);
  });

  it('rest and spans make up the whole', () => {
    const share = fc.integer({ min: 0, max: 40 });
    fc.assert(
      fc.property(share, share, (p, q) => {
        const [low, high] = [Math.min(p, q), Math.max(p, q)];
        const rest = takeOut(
          [0, 0],
          [40, 0],
          [
            [
              [p, 0],
              [q, 0],
            ],
          ],
        );
        const left = rest.reduce((sum, [a, b]) => sum + distance2(a, b), 0);
        expect(left + high - low).toBeCloseTo(40, 9);
      }),
    );
  });
});

import { describe, expect, it } from 'vitest';
import { gridSheets, gridWithRoom, planDesk } from './desk.ts';
import { settleTown } from './town.ts';

const body = {
  outline: [
    [-20, -15],
    [20, -15],
    [20, 15],
    [-20, 15],
  ] as const,
  height: 70,
  rectangle: { width: 40, depth: 30 },
};
const bare = { nets: [], body, sheets: [], units: 'in', isClose: false } as const;

describe('gridSheets', () => {
  const sheets = [
    { width: 100, height: 60 },
    { width: 80, height: 90 },
    { width: 100, height: 60 },
    { width: 50, height: 40 },
  ];

  it('lays sheets clear of each other and inside the whole', () => {
    for (const aspect of [0.4, 1, 3]) {
      const { corners, width, height } = gridSheets(sheets, aspect, 10);
      sheets.forEach((a, i) => {
        const [x, y] = corners[i] ?? [-1, -1];
        expect(x).toBeGreaterThanOrEqual(0);
        expect(y).toBeGreaterThanOrEqual(0);
        expect(x + a.width).toBeLessThanOrEqual(width + 1e-9);
        expect(y + a.height).toBeLessThanOrEqual(height + 1e-9);
        sheets.slice(0, i).forEach((b, j) => {
          const [u, v] = corners[j] ?? [-1, -1];
          expect(
            x >= u + b.width + 10 || u >= x + a.width + 10 || y >= v + b.height + 10 || v >= y + a.height + 10,
          ).toBe(true);
        });
      });
    }
  });

  it('makes rows in a wide picture and a column in a tall one', () => {
    expect(gridSheets(sheets, 20, 10).height).toBe(90);
    expect(gridSheets(sheets, 0.1, 10).width).toBe(100);
    expect(gridSheets([], 1, 10)).toEqual({ corners: [], width: 0, height: 0 });
  });
});

describe('gridWithRoom', () => {
  const scaleOf = (width: number, height: number): number => Math.max(width / 660, height / 520);
  /** Picture points between the first two rows. */
  const between = (count: number): number => {
    const { corners, width, height } = gridWithRoom(
      Array(count).fill({ width: 100, height: 100 }),
      660 / 520,
      42,
      scaleOf,
    );
    const lower = corners.findIndex(([, y]) => y < (corners[0]?.[1] ?? 0));
    const [first, next] = [corners[0]?.[1] ?? 0, corners[lower]?.[1] ?? 0];
    return (first - next - 100) / scaleOf(width, height);
  };

  it('keeps room for captions in the picture, of many small sheets for a bare number', () => {
    for (const count of [4, 7, 12, 20]) expect(between(count)).toBeGreaterThan(40);
    expect(between(91)).toBeGreaterThan(20);
  });
});

describe('planDesk', () => {
  it('puts the rule between the work and the front edge', () => {
    const { rule, front, frame } = planDesk({ ...bare, picture: { width: 1280, height: 800 } });
    expect(rule.edge).toBeLessThan(-15);
    expect(rule.edge - rule.breadth).toBeGreaterThan(front);
    expect(frame.minY).toBeLessThan(front);
    expect(frame.maxY).toBeGreaterThan(15);
    expect(rule.zero).toBe(-20);
  });

  it('leaves a tall picture no empty strip below the table', () => {
    const { frame, rule, point } = planDesk({ ...bare, picture: { width: 390, height: 844 } });
    expect(rule.edge).toBeLessThan(-15 - 150 * point);
    const aspect = (frame.maxX - frame.minX) / (frame.maxY - frame.minY);
    expect(Math.abs(aspect / (390 / 844) - 1)).toBeLessThan(0.15);
  });
});

describe('settleTown', () => {
  it('keeps neighbours clear of the bench’s building and of each other, all to the north', () => {
    const places = [[0, 0] as const, ...settleTown(9, 100)];
    places.forEach(([x, y], i) => {
      places.slice(0, i).forEach(([u, v]) => {
        expect(Math.max(Math.abs(x - u), Math.abs(y - v))).toBeGreaterThan(100);
      });
      expect(y).toBeGreaterThanOrEqual(0);
    });
    expect(places).toHaveLength(8);
  });
});

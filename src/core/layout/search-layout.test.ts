import fc from 'fast-check';
import * as polyclip from 'polyclip-ts';
import { describe, expect, test } from 'vitest';
import { runs } from '../../../tests/laws/runs.ts';
import { ringArea } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { checkLayout } from './check-layout.ts';
import { costOf, isCheaper } from './compare.ts';
import { type LayoutJob, readyLayout } from './job.ts';
import { keyOf, type LaidSheet, type Layout, type PieceToLay } from './layout.ts';
import { laidRing } from './placed.ts';
import { quickLayout } from './quick-layout.ts';
import { bestLayout, searchLayout } from './search-layout.ts';
import { arbitraryJob, jobOf, panel, paper } from './testing/arbitrary-job.ts';
import { sheetRing } from './usable.ts';

/** The clipper loses its way among points that are apart by rounding alone. */
const rounded = (mm: number): number => Math.round(mm * 1e8) / 1e8;
const closed = (ring: readonly Vec2[]): [number, number][][] => [
  [...ring, ring[0] as Vec2].map(([x, y]) => [rounded(x), rounded(y)]),
];
const areaOf = (shape: ReturnType<typeof polyclip.union>): number =>
  shape.flat().reduce((sum, ring) => sum + ringArea(ring), 0);

/** Area of pieces on each other or off their sheet, by a clipper that the search and the check know nothing of, mm². */
function strayArea(job: LayoutJob, { sheets }: Layout): number {
  const byKey = new Map(job.pieces.map((piece) => [keyOf(piece), piece]));
  return sheets.reduce((sum, sheet) => {
    const rings = sheet.placements.map((one) => laidRing(byKey.get(keyOf(one)) as PieceToLay, one));
    const ring = sheetRing(job.stock[sheet.stock] as LayoutJob['stock'][number]);
    const off = rings.map((one) => areaOf(polyclip.difference(closed(one), closed(ring))));
    const on = rings.flatMap((one, i) =>
      rings.slice(0, i).map((other) => areaOf(polyclip.intersection(closed(one), closed(other)))),
    );
    return sum + [...off, ...on].reduce((a, b) => a + Math.abs(b), 0);
  }, 0);
}

/** Half of the sheets of a layout as what is fixed for another one. */
const locked = (job: LayoutJob, { sheets }: Layout): LayoutJob => ({
  ...job,
  fixed: sheets.flatMap((sheet, i): LaidSheet[] => {
    const placements = sheet.placements
      .filter((_, p) => (p + i) % 2 === 0)
      .map((one) => ({ ...one, locked: true as const }));
    return placements.length === 0 ? [] : [{ ...sheet, placements }];
  }),
});

describe('a layout', () => {
  test('found at once is valid, on every paper, offcut and round what is fixed, also by another clipper', () => {
    fc.assert(
      fc.property(arbitraryJob(24), (job) => {
        const first = quickLayout(readyLayout(job));
        expect(checkLayout(job, first)).toEqual([]);
        expect(strayArea(job, first)).toBeLessThan(1e-3);
        const round = locked(job, first);
        expect(checkLayout(round, quickLayout(readyLayout(round)))).toEqual([]);
      }),
      { numRuns: runs(30) },
    );
  });

  test('that is searched for is valid at every step and never worse than before', () => {
    fc.assert(
      fc.property(arbitraryJob(7), (job) => {
        const ready = readyLayout(job);
        let before: readonly number[] | null = null;
        for (const { layout, isBetter } of searchLayout(job, { rounds: 6 })) {
          const cost = costOf(ready, layout);
          if (isBetter) expect(checkLayout(job, layout)).toEqual([]);
          if (before) expect(isCheaper(before, cost)).toBe(false);
          before = cost;
        }
        const last = bestLayout(job, { rounds: 6 });
        expect(strayArea(job, last)).toBeLessThan(1e-3);
        const round = locked(job, last);
        expect(checkLayout(round, bestLayout(round, { rounds: 3 }))).toEqual([]);
      }),
      { numRuns: runs(8) },
    );
  });

  test('is the same for the same seed and rounds, and can be sent to a worker', () => {
    const job = jobOf(
      [0, 1, 2, 3, 4, 5].map((i) => panel(i, 40 + 3 * i, 55)),
      [paper(110, 90, { direction: 'two-way' })],
    );
    const text = (): string => JSON.stringify([...searchLayout(structuredClone(job), { rounds: 8 })]);
    expect(text()).toBe(text());
    expect(structuredClone(bestLayout(job, { rounds: 1 }))).toEqual(bestLayout(job, { rounds: 1 }));
  });

  test('fills a sheet exactly, edge to edge', () => {
    const job = jobOf(
      [0, 1, 2, 3].map((i) => panel(i, 38.1, 76.2)),
      [paper(4 * 38.1, 76.2, { count: 1 })],
    );
    const { sheets, leftOut } = bestLayout(job, { rounds: 0 });
    expect(leftOut).toEqual([]);
    expect(sheets.map(({ placements }) => placements.map(({ x }) => Number(x.toFixed(6))))).toEqual([
      [0, 38.1, 76.2, 114.3],
    ]);
    expect(sheets[0]?.used).toBeCloseTo(0.5, 12);
  });

  test('lays a piece on its side only on paper that may be turned to any angle', () => {
    const tall = [panel(0, 40, 100)];
    expect(bestLayout(jobOf(tall, [paper(120, 60, { direction: 'two-way' })]), { rounds: 0 }).leftOut).toEqual([0]);
    const { sheets } = bestLayout(jobOf(tall, [paper(120, 60, { direction: 'any' })]), { rounds: 0 });
    expect(sheets[0]?.placements).toEqual([
      { roof: 0, layer: 0, piece: 0, copy: 0, x: 100, y: 0, rotation: Math.PI / 2 },
    ]);
  });
});

describe('which paper is taken', () => {
  const pieces = [0, 1, 2].map((i) => panel(i, 50, 50, [1, 0]));
  const large = paper(200, 60, { name: 'Large', price: { amount: 2, currency: 'EUR', sheets: 1 } });
  const small = paper(60, 60, { name: 'Small', count: 2, price: { amount: 24, currency: 'EUR', sheets: 20 } });
  const stockOf = (job: LayoutJob): number[] => bestLayout(job, { rounds: 2 }).sheets.map(({ stock }) => stock);

  test('the first that is listed, until it is used up', () => {
    expect(stockOf(jobOf(pieces, [large, small]))).toEqual([0, 1, 1]);
  });

  test('the one that costs least', () => {
    // Two euros hold all three; three small ones would cost 3.60 and one euro twenty each holds one.
    const rules = { cuts: 'free', prefer: 'cheapest', offcuts: 'as-listed' } as const;
    expect(stockOf(jobOf(pieces, [large, { ...small, count: null }], { rules }))).toEqual([0]);
  });

  test('both parts of an offcut that its margin cuts through', () => {
    const waisted = paper(120, 120, {
      count: 1,
      margin: 5,
      outline: [
        [0, 0],
        [120, 0],
        [120, 58],
        [62, 60],
        [120, 62],
        [120, 120],
        [0, 120],
        [0, 62],
        [58, 60],
        [0, 58],
      ],
    });
    const four = [0, 1, 2, 3].map((i) => panel(i, 45, 45));
    for (const cuts of ['free', 'strips'] as const) {
      const job = jobOf(four, [waisted], { rules: { cuts, prefer: 'sheets', offcuts: 'as-listed' } });
      for (const layout of [quickLayout(job), bestLayout(job, { rounds: 2 })]) {
        expect(layout.leftOut).toEqual([]);
        expect(checkLayout(job, layout)).toEqual([]);
      }
    }
  });

  test('offcuts first, where that is asked for', () => {
    const rules = { cuts: 'free', prefer: 'sheets', offcuts: 'first' } as const;
    const corner = paper(120, 60, {
      count: 1,
      outline: [
        [0, 0],
        [120, 0],
        [110, 60],
        [0, 60],
      ],
    });
    const both = [0, 1, 2].map((i) => panel(i, 50, 50, [0, 1]));
    expect(stockOf(jobOf(both, [large, corner], { rules }))).toEqual([0, 1]);
    expect(stockOf(jobOf(both, [large, corner]))).toEqual([0]);
  });
});

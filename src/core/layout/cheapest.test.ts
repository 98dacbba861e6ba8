import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runs } from '../../../tests/laws/runs.ts';
import type { Stock } from '../project/project.ts';
import { checkLayout } from './check-layout.ts';
import type { LayoutJob } from './job.ts';
import type { Layout } from './layout.ts';
import { quickLayout } from './quick-layout.ts';
import { bestLayout } from './search-layout.ts';
import { arbitraryJob, jobOf, panel, paper } from './testing/arbitrary-job.ts';

const rules = { cuts: 'free', prefer: 'cheapest', offcuts: 'as-listed' } as const;
const euros = (amount: number) => ({ price: { amount, currency: 'EUR', sheets: 1 } });
const laid = (job: LayoutJob): Layout => {
  const layout = bestLayout(job, { rounds: 3 });
  expect(checkLayout(job, layout)).toEqual([]);
  return layout;
};
/** Sheets of each paper. */
const counts = (given: LayoutJob, cuts: 'free' | 'strips' = 'free'): readonly number[] => {
  const job: LayoutJob = { ...given, rules: { ...given.rules, cuts } };
  const { sheets, leftOut } = laid(job);
  expect(leftOut).toEqual([]);
  return job.stock.map((_, s) => sheets.filter(({ stock }) => stock === s).length);
};

const cuts = fc.constantFrom('free' as const, 'strips' as const);
const SQUARE = 50;
/** Paper that holds so many squares. */
const holding = (across: number, up: number, price: number, more: Partial<Stock> = {}): Stock =>
  paper(across * SQUARE, up * SQUARE, { ...euros(price), ...more });
const squares = (count: number, stock: readonly number[]) =>
  Array.from({ length: count }, (_, i) => panel(i, SQUARE, SQUARE, [...stock]));

describe('the cheapest papers together', () => {
  const four = holding(2, 2, 3);
  const two = holding(1, 2, 2);

  test('mix a large and a small sheet where that costs less than either alone', () => {
    // Five squares: two large sheets cost 6, three small ones 6, one of each 5; one large (4 squares) or two small (4) are too few.
    expect(counts(jobOf(squares(5, [0, 1]), [four, two], { rules }))).toEqual([1, 1]);
    // Six: one of each still holds them. Seven: 4 + 2 are too few for 5, so that two large ones or the like cost 6, and hold 8.
    expect(counts(jobOf(squares(6, [0, 1]), [four, two], { rules }))).toEqual([1, 1]);
    expect(counts(jobOf(squares(7, [0, 1]), [four, two], { rules }))).toEqual([2, 0]);
    expect(counts(jobOf(squares(5, [0, 1]), [four, two]))).toEqual([2, 0]);
  });

  test('mix them in strips of a trimmer too, cut straight from edge to edge', () => {
    // The squares of one way stand beside each other in strips as high as they are: each paper holds what it held before.
    for (const [squaresInAll, sheets] of [
      [5, [1, 1]],
      [6, [1, 1]],
      [7, [2, 0]],
    ] as const)
      expect(counts(jobOf(squares(squaresInAll, [0, 1]), [four, two], { rules }), 'strips')).toEqual(sheets);
    // Strips of 40 and 60 on the large sheet of 100 by 100: four pieces 50 wide. One more 60 high goes on the small one, 50 by 100.
    const tall = [40, 40, 60, 60, 60].map((height, i) => panel(i, SQUARE, height, [0, 1]));
    expect(counts(jobOf(tall, [four, two], { rules }), 'strips')).toEqual([1, 1]);
  });

  test('keep to the sheets that are owned and to what fits', () => {
    const own = holding(1, 2, 0.5, { count: 1 });
    // Four squares: both cheap ones are not owned; one of them and a sheet for two cost 2.50, a large one 3.
    expect(counts(jobOf(squares(4, [0, 1, 2]), [four, two, own], { rules }))).toEqual([0, 1, 1]);
    // A panel wider than a square needs the large sheet, whatever the others cost.
    const wide = [...squares(2, [0, 1]), panel(2, 2 * SQUARE, SQUARE, [0, 1])];
    expect(counts(jobOf(wide, [four, two], { rules }))).toEqual([1, 0]);
  });

  test('leave what is locked where it is, and count its sheet as begun', () => {
    const job = jobOf(squares(6, [0, 1]), [four, two], { rules });
    const all = laid({ ...job, pieces: squares(1, [0]), rules: { ...rules, prefer: 'sheets' } });
    const fixed = all.sheets.map((sheet) => ({
      ...sheet,
      placements: sheet.placements.map((one) => ({ ...one, locked: true as const })),
    }));
    // Three more find room beside the locked one; two are left: a small sheet for 2.
    expect(counts({ ...job, fixed })).toEqual([1, 1]);
  });

  test('of sheets of whole squares cost what the cheapest cover by whole numbers costs', () => {
    const kinds = fc.array(fc.tuple(fc.integer({ min: 1, max: 3 }), fc.integer({ min: 1, max: 3 }), fc.nat(9)), {
      minLength: 2,
      maxLength: 3,
    });
    fc.assert(
      fc.property(kinds, fc.integer({ min: 1, max: 12 }), cuts, (papers, count, cuts) => {
        const stock = papers.map(([across, up, price]) => holding(across, up, price + 1));
        const all = stock.map((_, s) => s);
        const least = Array.from({ length: count + 1 }, () => Number.POSITIVE_INFINITY);
        least[0] = 0;
        for (let n = 1; n <= count; n++)
          for (const [across, up, price] of papers)
            least[n] = Math.min(least[n] as number, (least[Math.max(0, n - across * up)] as number) + price + 1);
        const found = counts(jobOf(squares(count, all), stock, { rules }), cuts);
        const paid = found.reduce((sum, n, s) => sum + n * ((papers[s]?.[2] ?? 0) + 1), 0);
        expect(paid).toBe(least[count]);
      }),
      { numRuns: runs(12) },
    );
  });

  test('of any job are no dearer than what is laid at once, and valid round what is fixed', () => {
    fc.assert(
      fc.property(arbitraryJob(10), fc.array(fc.nat(9), { minLength: 3, maxLength: 3 }), cuts, (plain, prices, way) => {
        const stock = plain.stock.map((one, s) => ({ ...one, ...euros((prices[s] ?? 0) + 1) }));
        const job = { ...plain, stock, rules: { ...rules, cuts: way } };
        const [first, best] = [way === 'free' ? quickLayout(job) : bestLayout(job, { rounds: 0 }), laid(job)];
        const paid = ({ sheets }: Layout): number =>
          sheets.reduce((sum, { stock: s }) => sum + (prices[s] ?? 0) + 1, 0);
        if (first.leftOut.length === 0) expect(paid(best)).toBeLessThanOrEqual(paid(first));
        const [sheet] = best.sheets;
        if (sheet) laid({ ...job, fixed: [{ ...sheet, placements: sheet.placements.slice(0, 1) }] });
      }),
      { numRuns: runs(10) },
    );
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runs } from '../../../../tests/laws/runs.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import { checkLayout } from '../check-layout.ts';
import type { LaidSheet } from '../layout.ts';
import { laidRing } from '../placed.ts';
import { bestLayout, searchLayout } from '../search-layout.ts';
import { arbitraryJob, jobOf, panel, paper, pieceOf } from '../testing/arbitrary-job.ts';
import { rectangle } from '../usable.ts';
import { trimCuts } from './trim-cuts.ts';

const rules = { cuts: 'strips', prefer: 'sheets', offcuts: 'as-listed' } as const;
const box = (width: number, height: number): readonly Vec2[] => rectangle(0, 0, width, height);

describe('strips for a trimmer', () => {
  test('are valid at every step, on every paper and round what is fixed', () => {
    fc.assert(
      fc.property(arbitraryJob(14, 'strips'), (job) => {
        for (const { layout, isBetter } of searchLayout(job, { rounds: 12 }))
          if (isBetter) expect(checkLayout(job, layout)).toEqual([]);
        const last = bestLayout(job, { rounds: 12 });
        const fixed = last.sheets.flatMap((sheet): LaidSheet[] => {
          const placements = sheet.placements.filter((_, i) => i % 2 === 0);
          return placements.length > 0 ? [{ ...sheet, placements }] : [];
        });
        expect(checkLayout({ ...job, fixed }, bestLayout({ ...job, fixed }, { rounds: 2 }))).toEqual([]);
      }),
      { numRuns: runs(12) },
    );
  });

  test('of upright rectangles come apart by straight cuts alone', () => {
    const size = fc.integer({ min: 8, max: 90 });
    fc.assert(
      fc.property(fc.array(fc.tuple(size, size), { minLength: 1, maxLength: 16 }), ([...sizes]) => {
        const job = jobOf(
          sizes.map(([w, h], i) => pieceOf(i, box(w, h))),
          [paper(200, 150, { direction: 'any' })],
          { rules },
        );
        for (const { placements } of bestLayout(job, { rounds: 10 }).sheets) {
          const rings = placements.map((one) => laidRing(job.pieces[one.piece] as (typeof job.pieces)[number], one));
          const { cuts, byHand } = trimCuts(rings, box(200, 150));
          expect(byHand).toEqual([]);
          expect(cuts.length).toBeGreaterThanOrEqual(placements.length - 1);
        }
      }),
      { numRuns: runs(25) },
    );
  });

  test('are laid the same for the same seed', () => {
    const job = jobOf(
      [31, 47, 26, 38, 44, 29].map((w, i) => panel(i, w, 40 + i)),
      [paper(120, 100, { direction: 'two-way' })],
      { rules },
    );
    const text = (): string => JSON.stringify([...searchLayout(job, { rounds: 20 })]);
    expect(text()).toBe(text());
  });

  test('find the four rectangles of a square that was cut up, without waste', () => {
    const job = jobOf(
      [
        [60, 40],
        [40, 40],
        [30, 60],
        [70, 60],
      ].map(([w = 0, h = 0], i) => pieceOf(i, box(w, h))),
      [paper(100, 100, { count: 1 })],
      { rules },
    );
    const { sheets, leftOut } = bestLayout(job, { rounds: 0 });
    expect(leftOut).toEqual([]);
    expect(sheets[0]?.used).toBe(1);
  });
});

describe('common practice, no source: heads and tails', () => {
  // A roof of base 2 1/8 in and slant 3 in, in sixteenths: strips as high as the slant.
  const [base, slant] = [53.975, 76.2];
  const triangles = Array.from({ length: 4 }, (_, i) => panel(i, base, slant));
  const widthOf = (direction: 'one-way' | 'two-way'): number => {
    const job = jobOf(triangles, [paper(600, slant, { direction, count: 1 })], { rules });
    const { sheets, leftOut } = bestLayout(job, { rounds: 4 });
    expect(leftOut).toEqual([]);
    return Math.max(
      ...(sheets[0]?.placements ?? []).flatMap((one) => laidRing(panel(0, base, slant), one).map(([x]) => x)),
    );
  };

  test('plain triangles stand heads and tails where paper may be turned, side by side where not', () => {
    expect(widthOf('two-way')).toBeCloseTo(2.5 * base, 9);
    expect(widthOf('one-way')).toBeCloseTo(4 * base, 9);
  });
});

describe('the cuts of a trimmer', () => {
  test('come strips first, each with the stop from the lower or left edge of what is cut', () => {
    const rings = [rectangle(0, 0, 30, 40), rectangle(30, 0, 80, 40), rectangle(0, 40, 60, 90)];
    const { cuts, byHand } = trimCuts(rings, box(100, 100));
    expect(byHand).toEqual([]);
    expect(cuts).toEqual([
      {
        ends: [
          [0, 40],
          [100, 40],
        ],
        stop: 40,
      },
      {
        ends: [
          [30, 0],
          [30, 40],
        ],
        stop: 30,
      },
      {
        ends: [
          [80, 0],
          [80, 40],
        ],
        stop: 50,
      },
      {
        ends: [
          [0, 90],
          [100, 90],
        ],
        stop: 50,
      },
      {
        ends: [
          [60, 40],
          [60, 90],
        ],
        stop: 60,
      },
    ]);
  });

  test('run along slopes that two pieces share, where no stop can be set', () => {
    const rings: readonly (readonly Vec2[])[] = [
      [
        [0, 0],
        [50, 0],
        [25, 60],
      ],
      [
        [25, 60],
        [50, 0],
        [75, 60],
      ],
    ];
    const { cuts, byHand } = trimCuts(rings, box(75, 60));
    expect(byHand).toEqual([]);
    const round = (ends: readonly Vec2[]): string =>
      ends
        .flat()
        .map((value) => value.toFixed(6))
        .join(' ');
    const shared = cuts.find(
      ({ ends }) =>
        round(ends) ===
        round([
          [50, 0],
          [25, 60],
        ]),
    );
    expect(shared?.stop).toBe(null);
  });

  test('leave to the knife what no straight cut parts', () => {
    const pinwheel = [
      rectangle(0, 0, 20, 10),
      rectangle(20, 0, 30, 20),
      rectangle(10, 20, 30, 30),
      rectangle(0, 10, 10, 30),
    ];
    expect(trimCuts(pinwheel, box(30, 30))).toEqual({ cuts: [], byHand: [[0, 1, 2, 3]] });
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runs } from '../../../tests/laws/runs.ts';
import { boxedRing, ringDepth } from '../geometry/convex-parts.ts';
import { resolveProject } from '../project/read-project.ts';
import type { PieceToLay } from './layout.ts';
import { laidRing } from './placed.ts';
import { keepRest, restBeyondCut, restRectangles } from './rest.ts';
import { bestLayout } from './search-layout.ts';
import { arbitraryJob, paper } from './testing/arbitrary-job.ts';
import { rectangle } from './usable.ts';

const sheet = paper(200, 150, { name: 'Slate print' });
const laid = [rectangle(0, 0, 120, 60), rectangle(0, 60, 80, 100)];

describe('what is left of a sheet', () => {
  test('is told as upright rectangles, the largest first', () => {
    expect(restRectangles(sheet, laid)).toEqual([
      { minX: 120, minY: 0, maxX: 200, maxY: 150 },
      { minX: 0, minY: 100, maxX: 120, maxY: 150 },
      { minX: 80, minY: 60, maxX: 120, maxY: 100 },
    ]);
    expect(restRectangles({ ...sheet, margin: 10, gap: 5 }, laid)[0]).toEqual({
      minX: 125,
      minY: 10,
      maxX: 190,
      maxY: 140,
    });
  });

  test('can be kept beyond one straight cut as a paper of its own', () => {
    const file = {
      id: 'slate',
      width: '200mm',
      height: '15cm',
      count: 4,
      direction: 'two-way',
      price: { amount: 2, currency: 'EUR' },
    } as const;
    expect(keepRest(file, sheet, laid, { stock: [sheet] })).toEqual({
      id: 'slate-rest',
      name: 'Slate print, rest',
      width: 80,
      height: 150,
      count: 1,
      direction: 'two-way',
    });
    const second = keepRest(file, sheet, laid, { stock: [{ ...sheet, id: 'slate-rest' }] });
    expect(second).toMatchObject({ id: 'slate-rest-2', name: 'Slate print, rest 2' });
    expect(keepRest(file, sheet, [rectangle(0, 0, 190, 140)], { stock: [] })).toBe(null);
  });

  test('of an offcut keeps its slanted edge, in a form that the file takes', () => {
    const offcut = paper(100, 100, {
      outline: [
        [0, 0],
        [100, 0],
        [0, 100],
      ],
    });
    const kept = keepRest({ id: 'corner' }, offcut, [rectangle(0, 0, 40, 20)], { stock: [] });
    expect(kept?.outline).toHaveLength(3);
    const read = resolveProject({
      format: 'spirewright-project',
      version: 1,
      title: 'Rest',
      units: 'mm',
      stock: [kept],
      roofs: [
        {
          id: 'one',
          kind: 'pyramid',
          shape: { width: 9, depth: 9, rise: 9 },
          layers: [{ as: 'cover', stock: 'corner-rest' }],
        },
      ],
    });
    expect(read.issues).toEqual([]);
    expect(read.ok && read.value.project.stock[0]).toMatchObject({ width: 80, height: 80, count: 1 });
  });

  test('holds no piece, whatever was laid', () => {
    fc.assert(
      fc.property(arbitraryJob(10), (job) => {
        for (const { stock, placements } of bestLayout(job, { rounds: 0 }).sheets) {
          const rings = placements.map((one) => laidRing(job.pieces[one.piece] as PieceToLay, one));
          const rest = restBeyondCut(job.stock[stock] as (typeof job.stock)[number], rings);
          for (const ring of rest ? rings : [])
            expect(ringDepth(boxedRing(ring), boxedRing(rest ?? []))).toBeLessThanOrEqual(1e-6);
        }
      }),
      { numRuns: runs(30) },
    );
  });
});

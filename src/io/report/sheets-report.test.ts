import { describe, expect, test } from 'vitest';
import { produce } from '../../core/pipeline.ts';
import { resolveProject } from '../../core/project/read-project.ts';
import { writeReport } from './write-report.ts';

/** Four plain panels, 40 by 60 mm each, heads and tails. */
const project = {
  format: 'spirewright-project',
  version: 1,
  title: 'Net loft',
  units: 'mm',
  layout: { cuts: 'strips' },
  stock: [
    {
      id: 'corner',
      outline: [
        [0, 0],
        [150, 0],
        [150, 100],
        [120, 130],
        [0, 130],
      ],
      direction: 'two-way',
      price: { amount: 3, currency: 'EUR', sheets: 4 },
    },
  ],
  positions: [{ roof: 'loft', layer: 0, piece: 'south', stock: 'corner', x: 0, y: 0, locked: true }],
  roofs: [
    {
      id: 'loft',
      kind: 'pyramid',
      shape: { width: 40, depth: 40, slant: 60 },
      layers: [{ as: 'cover', stock: 'corner', flaps: { on: 'none' } }],
    },
  ],
};

describe('sheets in the report', () => {
  const read = resolveProject(project);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const report = JSON.parse(writeReport(produce(read.value.project)));
  const [sheet] = report.sheets;

  test('an offcut has its outline, what is locked says so, and the rest is what is clear of both', () => {
    expect(report.issues.filter(({ level }: { level: string }) => level !== 'note')).toEqual([]);
    expect(sheet).toMatchObject({ stock: 'corner', width: 150, height: 130 });
    expect(sheet.outline).toHaveLength(5);
    expect(sheet.placements).toHaveLength(4);
    expect(sheet.placements[0]).toMatchObject({ piece: 'south', x: 0, y: 0, locked: true });
    for (const { x, y, width, height } of sheet.rests) {
      expect(Math.min(width, height)).toBeGreaterThanOrEqual(25);
      expect(x + width + y + height).toBeLessThanOrEqual(250 + 1e-6);
    }
  });

  test('used share and price follow from the area and the price of a pack', () => {
    // The sheet is 150 by 130 less a corner of 30 by 30; four triangles of 40 by 60 lie on it.
    const [used] = report.materials.byStock;
    expect(used.used).toBeCloseTo((4 * 1200) / (150 * 130 - 450), 9);
    expect(used.price).toEqual({ amount: 0.75, currency: 'EUR' });
  });

  test('strips come with the cuts of a trimmer', () => {
    const { cuts, byHand } = sheet.trimmer;
    expect(byHand).toBe(0);
    expect(cuts[0]).toEqual({
      ends: [
        [0, 60],
        [150, 60],
      ],
      stop: 60,
    });
    expect(cuts.length).toBeGreaterThanOrEqual(4);
  });
});

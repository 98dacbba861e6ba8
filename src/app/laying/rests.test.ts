import { expect, it } from 'vitest';
import type { LaidSheet, PieceToLay } from '../../core/layout/layout.ts';
import { keepRest, restOf } from './rests.ts';

const piece: PieceToLay = {
  roof: 0,
  layer: 0,
  piece: 0,
  copy: 0,
  id: 'south',
  fingerprint: '',
  title: 'South',
  path: '',
  outline: [
    [0, 0],
    [60, 0],
    [30, 80],
  ],
  width: 60,
  height: 80,
  stock: [0],
};
const sheet = (x: number, y: number): LaidSheet => ({
  stock: 0,
  index: 0,
  width: 200,
  height: 300,
  used: 0.04,
  placements: [{ roof: 0, layer: 0, piece: 0, copy: 0, x, y, rotation: 0 }],
});

it('is the largest that one straight cut leaves', () => {
  // Beside: 140 by 300; above: 200 by 220, the larger.
  expect(restOf(sheet(0, 0), [piece])).toEqual({ minX: 0, minY: 80, maxX: 200, maxY: 300 });
  expect(restOf(sheet(140, 220), [piece])).toEqual({ minX: 0, minY: 0, maxX: 200, maxY: 220 });
  expect(restOf({ ...sheet(0, 0), width: 60, height: 90 }, [piece])).toBeNull();
});

it('is kept as a paper printed like its sheet, an offcut of its own', () => {
  const file = {
    units: 'mm',
    stock: [
      {
        id: 'slate',
        name: 'Slate',
        width: 200,
        height: 300,
        count: 4,
        direction: 'two-way',
        print: { pattern: 'slates' },
      },
    ],
  };
  const kept = keepRest(file, 0, { minX: 0, minY: 80, maxX: 200, maxY: 300 });
  expect((kept['stock'] as readonly unknown[])[1]).toEqual({
    id: 'slate-rest',
    name: 'Slate, rest',
    direction: 'two-way',
    print: { pattern: 'slates' },
    outline: [
      [0, 0],
      ['200mm', 0],
      ['200mm', '220mm'],
      [0, '220mm'],
    ],
  });
});

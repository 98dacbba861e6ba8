import fc from 'fast-check';
import { expect, test } from 'vitest';
import { runs } from '../../../tests/laws/runs.ts';
import { areApart, boxOf } from '../../core/geometry/polygon.ts';
import { clearNumbers } from './clear-numbers.ts';
import { labelCorners } from './drawing.ts';

test('numbers keep clear of each other, each as high as there is room for', () => {
  // In columns apart from each other, so near each other in them that some have to give way.
  const column = fc.array(fc.double({ min: 0, max: 3, noNaN: true }), { maxLength: 3 });
  fc.assert(
    fc.property(fc.array(column, { maxLength: 6 }), (columns) => {
      const places = columns.flatMap((heights, x) => heights.map((y) => [x * 12, y] as const));
      const texts = places.map((at, i) => ({ text: String(i + 1), at }));
      const labels = clearNumbers(texts, 2.8);
      expect(labels.map(({ text }) => text)).toEqual(texts.map(({ text }) => text));
      const boxes = labels.map((label) => boxOf(labelCorners(label)));
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1)) expect(areApart(a, b)).not.toBe(false);
      });
    }),
    { numRuns: runs(30) },
  );
  expect(clearNumbers([{ text: '7', at: [0, 0] }], 2.8)[0]?.size).toBe(2.8);
});

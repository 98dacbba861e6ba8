import { expect, test } from 'vitest';
import { boxOf } from '../geometry/polygon.ts';
import { firstRoof } from './first-roof.ts';
import { isometric } from './sight.ts';

test('the lesson has six steps, in the maker’s own units', () => {
  const [metric, inches] = [firstRoof('mm'), firstRoof('in')];
  expect(metric).toHaveLength(6);
  // 3, 4, 5: half of 60, a rise of 40, a slant of 50 (Euclid I.47).
  expect(metric[2]?.sentences.join(' ')).toContain('Up 40 mm and across 30 mm');
  expect(metric[2]?.sentences.at(-1)).toMatch(/^Mark 50 mm /);
  expect(inches[2]?.sentences.at(-1)).toMatch(/^Mark 2 1\/2 in /);
});

test('the star closes: its points meet over the middle of the square, and the flaps are under their neighbours', () => {
  const closed = firstRoof('mm').at(-1)?.picture;
  // Two near sides of the square and three hips.
  expect(closed?.lines).toHaveLength(5);
  const top = Math.max(...(closed?.lines ?? []).flat().map(([, y]) => y));
  expect(top).toBeCloseTo(isometric([0, 0, 40])[1], 9);
  const [left] = isometric([-30, -30, 0]);
  expect(boxOf((closed?.lines ?? []).flat()).minX).toBeCloseTo(left, 9);
});

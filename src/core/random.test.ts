import { expect, it } from 'vitest';
import { seeded } from './random.ts';

it('draws evenly from 0 up to 1, the same row for the same seed', () => {
  const [one, again, other] = [seeded(5), seeded(5), seeded(6)];
  const row = Array.from({ length: 10_000 }, one);
  expect(Array.from({ length: 10_000 }, again)).toEqual(row);
  expect(other()).not.toBe(row[0]);
  const tenths = Array.from({ length: 10 }, (_, i) => row.filter((x) => Math.floor(x * 10) === i).length);
  for (const count of tenths) expect(Math.abs(count - 1000)).toBeLessThan(120);
  // What follows a low number is as often high as low.
  const after = row.flatMap((x, i) => (x < 0.5 && i + 1 < row.length ? [row[i + 1] as number] : []));
  expect(Math.abs(after.reduce((sum, x) => sum + x, 0) / after.length - 0.5)).toBeLessThan(0.02);
});

import { expect, test } from 'vitest';
import { seeded } from '../../random.ts';
import { layInOrder, leftmost } from './construct.ts';
import { readyJob } from './job.ts';
import type { Ring } from './problem.ts';
import { improveSheets } from './sheets.ts';
import { pressLast } from './trial.ts';

const box = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];
const jobOf = (pieces: readonly Ring[], sheet: Ring) =>
  readyJob({
    pieces: pieces.map((outline) => ({ outline, choices: [{ kind: 0, turns: [0] }] })),
    sheets: [{ parts: [sheet], count: null, gap: 0, taken: [] }],
  });

test('a press takes a share off what is used, and less of it when it is eased', () => {
  const job = jobOf([box(40, 30), box(40, 20)], box(100, 30));
  const laid = layInOrder(job, [0, 1], leftmost);
  const press = pressLast(job, laid, 0.5, seeded(1))!;
  const bin = press.field.bins[0]!;
  expect(bin.maxX).toBeCloseTo(40, 9);
  press.narrow(0.1);
  expect(bin.maxX).toBeCloseTo(72, 9);
  expect(bin.maxY).toBe(30);
});

test('where the pieces of a sheet find no room on the others, so many attempts to empty it end the search', () => {
  // By area three would go on one sheet.
  const job = jobOf(
    [1, 2, 3].map(() => box(60, 55)),
    box(100, 100),
  );
  const start = layInOrder(job, [0, 1, 2], leftmost);
  const steps = (mostEmptied?: number): number => [...improveSheets(job, start, seeded(1), 200, mostEmptied)].length;
  expect(start.sheets).toHaveLength(3);
  expect(steps(1)).toBeLessThan(steps() / 2);
});

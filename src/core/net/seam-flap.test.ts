import { expect, test } from 'vitest';
import { fromSeam } from './seam-flap.ts';

test('a flap begins with the two ends of its seam, wherever its ring began', () => {
  const strip = [
    [0, 0],
    [40, 0],
    [36, 5],
    [4, 5],
  ] as const;
  for (const turn of [0, 1, 2, 3]) expect(fromSeam([...strip.slice(turn), ...strip.slice(0, turn)], 1)).toEqual(strip);
});

test('corners as near to the seam as noise lie on it, within its ends', () => {
  // The last would give the ring an edge back along the seam, over which nothing reaches into it.
  expect(
    fromSeam(
      [
        [0, 0],
        [158, 0],
        [156, 2],
        [1e-4, 5e-7],
      ],
      1,
    ),
  ).toEqual([
    [0, 0],
    [158, 0],
    [156, 2],
  ]);
  expect(
    fromSeam(
      [
        [20, 0],
        [40, 1e-8],
        [36, 5],
        [4, 5],
        [0, 2e-7],
      ],
      1,
    ),
  ).toEqual([
    [0, 0],
    [40, 0],
    [36, 5],
    [4, 5],
  ]);
});

test('nothing is left of a flap narrower than asked, shorter, or off its seam', () => {
  expect(
    fromSeam(
      [
        [0, 0],
        [40, 0],
        [20, 0.9],
      ],
      1,
    ),
  ).toEqual([]);
  expect(
    fromSeam(
      [
        [0, 0],
        [0.9, 0],
        [0.5, 4],
      ],
      1,
    ),
  ).toEqual([]);
  expect(
    fromSeam(
      [
        [0, 0.1],
        [40, 0.1],
        [20, 4],
      ],
      1,
    ),
  ).toEqual([]);
  expect(fromSeam([], 1)).toEqual([]);
});

import { expect, test } from 'vitest';
import type { SeamRun } from '../../core/layout/print-match.ts';
import type { Net } from '../../core/net/net.ts';
import { buildSeamLines } from './seam-lines.ts';

/** Two squares 20 wide, seamed along the right edge of the one and the left edge of the other. */
const square = (id: string) => ({
  id,
  title: id,
  outline: [],
  panels: [
    {
      face: 0,
      polygon: [
        [0, 0],
        [20, 0],
        [20, 20],
        [0, 20],
      ] as const,
    },
  ],
  flaps: [],
  hems: [],
  folds: [],
  glueLines: [],
  rulings: [],
  width: 20,
  height: 20,
});
const net: Net = {
  pieces: [square('a'), square('b')],
  closing: null,
  seams: [
    {
      edge: 3,
      mark: 'A',
      join: 'tape',
      sides: [
        {
          piece: 0,
          panel: 0,
          ends: [
            [20, 0],
            [20, 20],
          ],
        },
        {
          piece: 1,
          panel: 0,
          ends: [
            [0, 20],
            [0, 0],
          ],
        },
      ],
    },
  ],
};

const drawn = (run: SeamRun) => buildSeamLines(net, [{ edge: 3, mark: 'A', run, off: 0 }], 0.5);

test('a seam where the print breaks is drawn otherwise than one where it meets or runs on, on both panels and within them', () => {
  const strokes = (['runs-on', 'meets', 'breaks'] as const).map((run) => drawn(run).owners.length / 4);
  expect(new Set(strokes).size).toBe(3);
  expect(strokes[0]).toBe(2);
  const { positions, owners } = drawn('breaks');
  owners.forEach((owner, i) => {
    const x = positions[i * 3] as number;
    if (owner === 0) expect(x).toBeLessThan(20.2);
    else expect(x).toBeGreaterThan(-0.2);
  });
  expect(new Set(owners)).toEqual(new Set([0, 1]));
});

test('plain paper draws nothing', () => {
  expect(buildSeamLines(net, [], 0.5).owners).toEqual([]);
});

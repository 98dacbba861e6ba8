import { expect, test } from 'vitest';
import { distance2, lerp2, type Vec2 } from '../../core/geometry/vector.ts';
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

/** From the middle of the one end to the middle of the other, on the first panel. */
const linesOf = (run: SeamRun) => {
  const { positions, owners } = drawn(run);
  const corner = (i: number): Vec2 => [positions[3 * i] as number, positions[3 * i + 1] as number];
  return owners.flatMap((owner, i) =>
    owner === 0 && i % 4 === 0
      ? [{ from: lerp2(corner(i), corner(i + 3), 0.5), to: lerp2(corner(i + 1), corner(i + 2), 0.5) }]
      : [],
  );
};
const isAcross = ({ from, to }: { readonly from: Vec2; readonly to: Vec2 }): boolean =>
  Math.abs(from[1] - to[1]) < 1e-9;
const isAlong = ({ from, to }: { readonly from: Vec2; readonly to: Vec2 }): boolean => Math.abs(from[0] - to[0]) < 1e-9;

test('a ladder has one rail and rungs square to it; a zigzag goes on from where it came to, always aslant', () => {
  const [rail, ...rungs] = linesOf('meets');
  expect(rail && isAlong(rail)).toBe(true);
  expect(rungs.length).toBeGreaterThan(3);
  expect(rungs.every(isAcross)).toBe(true);
  const zigzag = linesOf('breaks');
  expect(zigzag.length).toBeGreaterThan(3);
  expect(zigzag.some((part) => isAcross(part) || isAlong(part))).toBe(false);
  zigzag.slice(1).forEach(({ from }, i) => {
    expect(distance2(from, zigzag[i]?.to ?? [0, 0])).toBeLessThan(1e-9);
  });
});

test('plain paper draws nothing', () => {
  expect(buildSeamLines(net, [], 0.5).owners).toEqual([]);
});

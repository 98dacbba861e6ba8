import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runs } from '../../../../tests/laws/runs.ts';
import { ringArea } from '../../geometry/polygon.ts';
import { readyJob, withTurns } from './job.ts';
import type { NoFit } from './no-fit.ts';
import { pairUp } from './pairs.ts';
import type { NestProblem, Ring } from './problem.ts';
import { Shapes } from './shapes.ts';

const pairsOf = (outlines: readonly Ring[], turns: readonly number[], gap = 0) => {
  const problem: NestProblem = {
    pieces: outlines.map((outline) => ({ outline, choices: [{ kind: 0, turns }] })),
    sheets: [{ parts: [rectangle(500, 500)], count: null, gap, taken: [] }],
  };
  return pairUp(withTurns(problem), readyJob(problem));
};
const rectangle = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];
const TWO_WAY = [0, Math.PI];
/** A right triangle: two of them make a rectangle, heads and tails. */
const wedge: Ring = [
  [0, 0],
  [30, 0],
  [0, 80],
];

describe('repeated pieces', () => {
  test('are laid two by two, one turned half round, where nothing is wasted between them', () => {
    const units = pairsOf([wedge, wedge, wedge, wedge, wedge], TWO_WAY);
    expect(units.map(({ members }) => members.length)).toEqual([2, 2, 1]);
    expect(units.map(({ outline }) => ringArea(outline))).toEqual([2400, 2400, 1200]);
    expect(units.flatMap(({ members }) => members.map(({ piece }) => piece)).sort()).toEqual([0, 1, 2, 3, 4]);
    const [first, second] = units[0]?.members ?? [];
    expect([first?.rotation, second?.rotation]).toEqual([0, Math.PI]);
  });

  test('lie alone on paper that has an up, and where two would waste more than they save', () => {
    expect(pairsOf([wedge, wedge], [0])).toHaveLength(2);
    const hook: Ring = [
      [0, 0],
      [60, 0],
      [60, 10],
      [10, 10],
      [10, 60],
      [0, 60],
    ];
    const cross: Ring = [
      [20, 0],
      [40, 0],
      [40, 20],
      [60, 20],
      [60, 40],
      [40, 40],
      [40, 60],
      [20, 60],
      [20, 40],
      [0, 40],
      [0, 20],
      [20, 20],
    ];
    expect(pairsOf([hook, hook, cross, cross], TWO_WAY)).toHaveLength(4);
  });

  test('keep the gap of their paper between them', () => {
    const [bar] = pairsOf([rectangle(30, 80), rectangle(30, 80)], TWO_WAY, 4);
    expect(ringArea(bar?.outline ?? [])).toBe(30 * 164);
  });
});

test('where two turned pieces may lie follows from where they may as they are', () => {
  const size = fc.integer({ min: 5, max: 60 });
  const hollow = fc.tuple(size, size, fc.double({ min: 0.1, max: 0.9, noNaN: true })).map(
    ([w, h, s]): Ring => [
      [0, 0],
      [w, 0],
      [w * s, h],
      [w * s * 0.4, h * 0.3],
    ],
  );
  const turned = (ring: Ring): Ring => ring.map(([x, y]) => [-x, -y]);
  const offset = fc.double({ min: -70, max: 70, noNaN: true });
  const spots = fc.array(fc.tuple(offset, offset), { minLength: 40, maxLength: 80 });
  fc.assert(
    fc.property(hollow, hollow, spots, (a, b, asked) => {
      const known = new Shapes();
      const [p, q] = [known.add(a).shape, known.add(b).shape];
      known.noFit(p, q, 0);
      const derived = known.noFit(known.add(turned(a)).shape, known.add(turned(b)).shape, 0);
      const fresh = new Shapes();
      const direct = fresh.noFit(fresh.add(turned(a)).shape, fresh.add(turned(b)).shape, 0);
      for (const [x, y] of asked) {
        if (direct.depth(x, y) > NEAR_MM) expect(derived.overlaps(x, y)).toBe(true);
        if (derived.depth(x, y) > NEAR_MM) expect(direct.overlaps(x, y)).toBe(true);
      }
      expect(lengthOf(derived)).toBeCloseTo(lengthOf(direct), 4);
    }),
    { numRuns: runs(40) },
  );
});

const NEAR_MM = 1e-3;

function lengthOf({ border }: NoFit): number {
  let sum = 0;
  for (let k = 0; k < border.length; k += 4)
    sum += Math.hypot(border[k + 2]! - border[k]!, border[k + 3]! - border[k + 1]!);
  return sum;
}

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runs } from '../../../../tests/laws/runs.ts';
import { buildNet } from '../../net/build-net.ts';
import { findKind } from '../../roofs/catalogue.ts';
import { MM_PER_INCH } from '../../units/units.ts';
import {
  type NestProblem,
  type NestSheet,
  type NestStep,
  nestSheets,
  nestStrip,
  type Ring,
  type Turns,
} from './nest.ts';
import { nestTroubles } from './testing/prove-nest.ts';

const box = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];
const sheetOf = (outline: Ring, more: Partial<NestSheet> = {}): NestSheet => ({
  parts: [outline],
  count: null,
  gap: 0,
  taken: [],
  ...more,
});
const ONE_WAY: Turns = [0];
const TWO_WAY: Turns = [0, Math.PI];

const steps = (problem: NestProblem, rounds: number, seed = 1): readonly NestStep[] => [
  ...nestSheets(problem, { seed, rounds }),
];
const result = (problem: NestProblem, rounds = 0, seed = 1): NestStep['layout'] => {
  const { layout } = steps(problem, rounds, seed).at(-1) as NestStep;
  expect(nestTroubles(problem, layout)).toEqual([]);
  return layout;
};
const sheetsUsed = ({ placements }: NestStep['layout']): number =>
  new Set(placements.map(({ kind, sheet }) => `${kind}/${sheet}`)).size;

const size = fc.integer({ min: 8, max: 70 });
const share = fc.double({ min: 0.05, max: 0.95, noNaN: true });
/** Triangles, trapezoids and arrows: what panels, flapped panels and hollow offcuts look like. */
const ring = fc.tuple(size, size, share, share, fc.constantFrom('triangle', 'trapezoid', 'arrow')).map(
  ([w, h, s, t, form]): Ring =>
    form === 'triangle'
      ? [
          [0, 0],
          [w, 0],
          [w * s, h],
        ]
      : form === 'trapezoid'
        ? [
            [0, 0],
            [w, 0],
            [w * Math.max(s, t), h],
            [w * Math.min(s, t) * 0.9, h],
          ]
        : [
            [0, 0],
            [w * s, h * t * 0.8],
            [w, 0],
            [w * s, h],
          ],
);
/** The same a little way off to the right: another part of a sheet. */
const beside = (outline: Ring): Ring => {
  const far = Math.max(...outline.map(([x]) => x)) + 3;
  return outline.map(([x, y]) => [x + far, y] as const);
};
const turns = fc.constantFrom<Turns>(ONE_WAY, TWO_WAY, [0, Math.PI / 2, Math.PI, -Math.PI / 2], 'any');
const problems = fc
  .record({
    sheets: fc.array(
      fc.record({
        outline: fc.oneof(
          fc.tuple(size, size).map(([w, h]) => box(w + 60, h + 60)),
          ring.map((r) => r.map(([x, y]) => [x * 3, y * 3] as const)),
        ),
        isParted: fc.boolean(),
        count: fc.option(fc.integer({ min: 1, max: 3 })),
        gap: fc.constantFrom(0, 2),
      }),
      { minLength: 1, maxLength: 2 },
    ),
    lots: fc.array(fc.tuple(ring, turns, fc.integer({ min: 1, max: 4 })), { minLength: 1, maxLength: 4 }),
  })
  .map(
    ({ sheets, lots }): NestProblem => ({
      sheets: sheets.map(({ outline, isParted, ...more }) =>
        sheetOf(outline, { ...more, parts: isParted ? [outline, beside(outline)] : [outline] }),
      ),
      pieces: lots.flatMap(([outline, allowed, copies]) =>
        Array.from({ length: copies }, () => ({
          outline,
          choices: sheets.map((_, kind) => ({ kind, turns: allowed })),
        })),
      ),
    }),
  );

describe('laying on sheets', () => {
  test('every layout is complete and valid, and no later one is worse', () => {
    fc.assert(
      fc.property(problems, fc.integer({ min: 0, max: 1000 }), (problem, seed) => {
        let cost = Number.POSITIVE_INFINITY;
        for (const { layout, isBetter } of nestSheets(problem, { seed, rounds: 4 })) {
          expect(isBetter).toBe(layout.cost < cost);
          expect(layout.cost).toBeLessThanOrEqual(cost);
          cost = layout.cost;
          if (isBetter) expect(nestTroubles(problem, layout)).toEqual([]);
        }
      }),
      { numRuns: runs(40) },
    );
  });

  test('the same seed and rounds give the same layouts', () => {
    fc.assert(
      fc.property(problems, fc.integer({ min: 0, max: 1000 }), (problem, seed) => {
        expect(JSON.stringify(steps(problem, 3, seed))).toBe(JSON.stringify(steps(problem, 3, seed)));
      }),
      { numRuns: runs(6) },
    );
  });

  test('a locked piece stays clear, and its sheet is filled before another is opened', () => {
    const problem: NestProblem = {
      sheets: [sheetOf(box(100, 50), { taken: [[box(60, 50)]] })],
      pieces: [1, 2].map(() => ({ outline: box(40, 50), choices: [{ kind: 0, turns: ONE_WAY }] })),
    };
    const { placements } = result(problem);
    expect(placements.map(({ sheet, x }) => [sheet, x])).toEqual([
      [0, 60],
      [1, 0],
    ]);
  });

  test('what is too large is left out, all else is laid', () => {
    const problem: NestProblem = {
      sheets: [sheetOf(box(50, 50), { count: 1 })],
      pieces: [60, 50, 20].map((side) => ({ outline: box(side, side), choices: [{ kind: 0, turns: TWO_WAY }] })),
    };
    expect(result(problem).leftOut).toEqual([0, 2]);
  });

  test('what goes on from several starts is valid at every step, and the same for the same seed', () => {
    const outlines = [30, 34, 38].flatMap((width) =>
      Array.from(
        { length: 6 },
        (): Ring => [
          [0, 0],
          [width, 0],
          [width / 2, width + 9],
        ],
      ),
    );
    const problem: NestProblem = {
      sheets: [sheetOf(box(150, 110))],
      pieces: outlines.map((outline) => ({ outline, choices: [{ kind: 0, turns: TWO_WAY }] })),
    };
    const all = steps(problem, 80);
    for (const { layout, isBetter } of all) if (isBetter) expect(nestTroubles(problem, layout)).toEqual([]);
    expect(steps(problem, 80)).toEqual(all);
  });

  test('all parts of a sheet are filled before another sheet is opened', () => {
    const parts = [box(40, 50), beside(box(40, 50))];
    const problem: NestProblem = {
      sheets: [sheetOf(box(1, 1), { parts })],
      pieces: [1, 2, 3].map(() => ({ outline: box(40, 50), choices: [{ kind: 0, turns: ONE_WAY }] })),
    };
    const { placements } = result(problem);
    expect(placements.map(({ sheet, x }) => [sheet, x])).toEqual([
      [0, 0],
      [0, 43],
      [1, 0],
    ]);
  });

  test('the stock that is liked better is used up first', () => {
    const problem: NestProblem = {
      sheets: [sheetOf(box(100, 100)), sheetOf(box(50, 50), { count: 2 })],
      pieces: [1, 2, 3].map(() => ({
        outline: box(40, 40),
        choices: [
          { kind: 1, turns: ONE_WAY },
          { kind: 0, turns: ONE_WAY },
        ],
      })),
    };
    expect(result(problem).placements.map(({ kind }) => kind)).toEqual([1, 1, 0]);
  });

  const one = (outline: Ring, sheet: NestSheet, allowed: Turns, copies = 1): NestProblem => ({
    sheets: [{ ...sheet, count: 1 }],
    pieces: Array.from({ length: copies }, () => ({ outline, choices: [{ kind: 0, turns: allowed }] })),
  });

  test('on paper without direction a bar lies at the angle that it needs', () => {
    const bar: Ring = box(100, 20).map(([x, y]) => [x * 0.8 - y * 0.6, x * 0.6 + y * 0.8] as const);
    const sheet = sheetOf(box(100, 20));
    expect(result(one(bar, sheet, 'any')).leftOut).toEqual([]);
    expect(result(one(bar, sheet, TWO_WAY)).leftOut).toEqual([0]);
  });

  test('a hollow piece is turned by its own edges, also where it is laid by its hull first', () => {
    const [cos, sin] = [Math.cos(0.5), Math.sin(0.5)];
    const arrow = (
      [
        [0, 0],
        [50, 10],
        [100, 0],
        [50, 40],
      ] as const
    ).map(([x, y]) => [x * cos - y * sin, x * sin + y * cos] as const);
    expect(result(one(arrow, sheetOf(box(120, 120)), 'any'), 5).leftOut).toEqual([]);
  });

  test('a hollow offcut is filled to its last corner', () => {
    const hollow: Ring = [
      [0, 0],
      [60, 0],
      [60, 30],
      [30, 30],
      [30, 60],
      [0, 60],
    ];
    expect(result(one(box(30, 30), sheetOf(hollow), ONE_WAY, 3)).leftOut).toEqual([]);
  });

  test('a gap is kept between pieces and not to the edge', () => {
    expect(result(one(box(20, 20), sheetOf(box(45, 20), { gap: 5 }), ONE_WAY, 2)).leftOut).toEqual([]);
    expect(result(one(box(20, 20), sheetOf(box(44.9, 20), { gap: 5 }), ONE_WAY, 2)).leftOut).toHaveLength(1);
  });

  test('three pieces that touch fill a sheet to its edge; on one a thousandth of a millimetre smaller one is left out', () => {
    // Two leaning the same way: they share a slant, and the square stands at the upright end of either.
    const leaning: Ring = [
      [0, 0],
      [30, 0],
      [40, 40],
      [0, 40],
    ];
    const turned = leaning.map(([x, y]): Ring[number] => [40 - x, 40 - y]);
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 40 }), turns, fc.nat(99), (width, allowed, seed) => {
        const outlines = [leaning, turned, box(width, 40)];
        const left = (missing: number): readonly number[] => {
          const problem: NestProblem = {
            sheets: [sheetOf(box(width + 70 - missing, 40), { count: 1 })],
            pieces: outlines.map((outline) => ({ outline, choices: [{ kind: 0, turns: allowed }] })),
          };
          return result(problem, 6, seed).leftOut;
        };
        expect(left(0)).toEqual([]);
        expect(left(0.001)).toHaveLength(1);
      }),
      { numRuns: runs(5) },
    );
  });

  test('a tooth goes into a slot of its own width', () => {
    const slotted: Ring = [
      [0, 0],
      [50, 0],
      [50, 40],
      [30, 40],
      [30, 10],
      [20, 10],
      [20, 40],
      [0, 40],
    ];
    const problem: NestProblem = {
      sheets: [sheetOf(box(50, 40), { count: 1 })],
      pieces: [slotted, box(10, 30)].map((outline) => ({ outline, choices: [{ kind: 0, turns: TWO_WAY }] })),
    };
    expect(result(problem).leftOut).toEqual([]);
  });

  test('nine squares on sheets of four come down from any start to three sheets, and their rest grows', () => {
    const problem: NestProblem = {
      sheets: [sheetOf(box(85, 85))],
      pieces: [...Array.from({ length: 9 }, () => box(40, 40)), box(84, 4)].map((outline) => ({
        outline,
        choices: [{ kind: 0, turns: ONE_WAY }],
      })),
    };
    const layout = result(problem, 40);
    expect(sheetsUsed(layout)).toBe(3);
    expect(layout.cost).toBeCloseTo(3 - 45 / 85, 9);
  });
});

/** Common practice, no published source. */
describe('two square roofs of base 2 1/8 in, slant 3 in, with two 1/4 in flaps on every other panel', () => {
  const inches = (n: number): number => n * MM_PER_INCH;
  const [base, slant] = [inches(2 + 1 / 8), inches(3)];
  const built = findKind('pyramid')?.build({ width: base, depth: base, slant }, null);
  if (!built?.ok) throw new Error('no roof');
  const flaps = { width: inches(1 / 4), on: 'alternate', clearance: 0.5, least: 2 } as const;
  const { pieces } = buildNet(built.value, { pieces: 'per-panel', flaps }).net;
  const panels = [...pieces, ...pieces].map(({ outline }) => outline);
  const strips = (length: number, allowed: Turns): NestProblem => ({
    sheets: [sheetOf(box(inches(length), slant))],
    pieces: panels.map((outline) => ({ outline, choices: [{ kind: 0, turns: allowed }] })),
  });

  test('on strips 3 by 6 in: three where pieces may be turned half round, four where not', () => {
    expect(sheetsUsed(result(strips(6, TWO_WAY)))).toBe(3);
    expect(sheetsUsed(result(strips(6, ONE_WAY)))).toBe(4);
  });

  test('on a strip 3 by 12 in, turned: all eight, on no more than 11.684 in of it', () => {
    const layout = result(strips(12, TWO_WAY), 40);
    expect(sheetsUsed(layout)).toBe(1);
    expect(layout.cost * 12).toBeLessThanOrEqual(11.684);
  });

  test('as one strip 3 in high: no longer than 11.684 in', () => {
    let length = Number.POSITIVE_INFINITY;
    const outlines = panels.map((outline) => ({ outline, turns: TWO_WAY }));
    for (const step of nestStrip(outlines, slant, { seed: 1, rounds: 40 })) {
      expect(step.isBetter).toBe(step.length < length);
      length = step.length;
    }
    expect(length / MM_PER_INCH).toBeLessThanOrEqual(11.684);
  });
});

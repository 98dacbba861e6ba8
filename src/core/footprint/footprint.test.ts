import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  anyRectilinear,
  anySimple,
  arbitrarySeed,
  numbersFrom,
  turned,
  withCourts,
} from '../../../tests/laws/arbitrary-outline.ts';
import { runs } from '../../../tests/laws/runs.ts';
import { at, boxOf, ringArea } from '../geometry/polygon.ts';
import { cross2, distance2, dot2, sub2, type Vec2 } from '../geometry/vector.ts';
import { fromDegrees } from '../units/units.ts';
import { footprintFrom, type Measures } from './footprint.ts';
import { standOut } from './offset.ts';
import { sideNames } from './sides.ts';

const counts = { numRuns: runs(200) };
const allowance = { gap: 1, side: 1, angle: fromDegrees(0.5) };
const made = (measures: Measures) => {
  const result = footprintFrom(measures, allowance);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return { ...result.value, codes: result.issues.map(({ code }) => code) };
};
const codesOf = (measures: Measures): string[] =>
  footprintFrom(measures, allowance).issues.map(({ code, path }) => `${code} ${path}`);

const lengthsOf = (ring: readonly Vec2[]): number[] => ring.map((p, i) => distance2(p, at(ring, i + 1)));
/** Inside angle at the end of each side. */
const anglesOf = (ring: readonly Vec2[]): number[] =>
  ring.map((p, i) => {
    const [into, out] = [sub2(at(ring, i + 1), p), sub2(at(ring, i + 2), at(ring, i + 1))];
    return Math.PI - Math.atan2(cross2(into, out), dot2(into, out));
  });
const spread = (ring: readonly Vec2[]): number => Math.min(...lengthsOf(ring));

/** All sides and all diagonals alike: the same plan, not mirrored. */
function expectSame(found: readonly Vec2[], wanted: readonly Vec2[], off = 1e-6): void {
  expect(found).toHaveLength(wanted.length);
  for (const [i, p] of wanted.entries()) {
    for (const [j, q] of wanted.entries()) {
      expect(Math.abs(distance2(at(found, i), at(found, j)) - distance2(p, q))).toBeLessThan(off);
    }
  }
  expect(ringArea(found)).toBeGreaterThan(0);
}

const anyPlan = arbitrarySeed
  .map((seed) => {
    const next = numbersFrom(seed);
    const ring =
      next() < 0.5 ? anySimple(3 + Math.floor(next() * 12), next) : anyRectilinear(3 + Math.floor(next() * 8), next);
    const [whole = []] = turned([ring], next() * 6, 0.05 + next() * 0.5);
    return whole;
  })
  .filter((ring) => spread(ring) > 1.5);

describe('a plan measured in any way', () => {
  test('is the same by its corners and by its lengths and angles', () => {
    fc.assert(
      fc.property(anyPlan, (ring) => {
        expectSame(made({ corners: ring }).corners, ring);
        const angles = anglesOf(ring);
        expectSame(made({ lengths: lengthsOf(ring), angles }).corners, ring);
        expectSame(made({ lengths: lengthsOf(ring), angles: angles.slice(0, -1) }).corners, ring);
      }),
      counts,
    );
  });

  test('lies with its first side level in the south, the middle of its box at the origin', () => {
    fc.assert(
      fc.property(anyPlan, (ring) => {
        const { corners } = made({ corners: ring });
        const [a, b] = corners as [Vec2, Vec2];
        expect(a[1]).toBe(b[1]);
        expect(b[0]).toBeGreaterThan(a[0]);
        const { minX, minY, maxX, maxY } = boxOf(corners);
        expect(minX + maxX).toBeCloseTo(0, 9);
        expect(minY + maxY).toBeCloseTo(0, 9);
      }),
      counts,
    );
  });

  test('of four sides is found from a diagonal', () => {
    // 3-4-5 triangles on both sides of a diagonal of 50 make a rectangle.
    expectSame(made({ lengths: [40, 30, 40, 30], diagonal: 50 }).corners, [
      [0, 0],
      [40, 0],
      [40, 30],
      [0, 30],
    ]);
    const tower: Vec2[] = [
      [0, 0],
      [62, 0],
      [60, 55],
      [-3, 52],
    ];
    const diagonal = distance2(tower[0] as Vec2, tower[2] as Vec2);
    expectSame(made({ lengths: lengthsOf(tower), diagonal }).corners, tower);
  });

  test('of three sides needs nothing more', () => {
    expectSame(made({ lengths: [40, 30, 50] }).corners, [
      [0, 0],
      [40, 0],
      [40, 30],
    ]);
  });

  test('keeps its courts in their place, from the corners or from the first one', () => {
    const outline: Vec2[] = [
      [10, 10],
      [110, 10],
      [110, 90],
      [10, 90],
    ];
    const court = (x: number, y: number): Vec2[] => [
      [x, y],
      [x + 30, y],
      [x + 30, y + 20],
      [x, y + 20],
    ];
    const byCorners = made({ corners: outline, courts: [court(40, 40)] });
    expect(byCorners.courts[0]?.[0]).toEqual([-20, -10]);
    const right = Math.PI / 2;
    const byLengths = made({ lengths: [100, 80, 100, 80], angles: [right, right, right], courts: [court(30, 30)] });
    byLengths.courts[0]?.forEach((p, i) => {
      expect(distance2(p, byCorners.courts[0]?.[i] as Vec2)).toBeLessThan(1e-9);
    });
  });
});

describe('measures that nearly agree', () => {
  test('are closed by the compass rule, and the gap is said', () => {
    // A square of 60 whose last side was read 0.8 too long: the end lies 0.8 past the start.
    const { corners, gap, codes } = made({ lengths: [60, 60, 60, 60.8], angles: [90, 90, 90, 90].map(fromDegrees) });
    expect(gap).toBeCloseTo(0.8, 9);
    expect(codes).toEqual(['closed-evenly']);
    // Each corner is moved by its share of the way, so the first side takes 60 / 240.8 of the gap.
    expect(distance2(corners[1] as Vec2, corners[2] as Vec2)).toBeCloseTo(60 + (0.8 * 60) / 240.8, 2);
    expect(distance2(corners[3] as Vec2, corners[0] as Vec2)).toBeCloseTo(60.8 - (0.8 * 60.8) / 240.8, 2);
  });

  test('have what the angles are off their sum taken off all of them alike', () => {
    expectSame(made({ lengths: [60, 60, 60, 60], angles: [90.3, 90.3, 90.3, 90.3].map(fromDegrees) }).corners, [
      [0, 0],
      [60, 0],
      [60, 60],
      [0, 60],
    ]);
    expect(made({ lengths: [60, 60, 60, 60], angles: [90, 90, 90, 91].map(fromDegrees) }).codes).toEqual([
      'angles-evened',
      'closed-evenly',
    ]);
    expect(made({ lengths: [60, 60, 60, 60], angles: [90, 90, 90, 90.04].map(fromDegrees) }).codes).toEqual([]);
  });
});

describe('measures that contradict each other', () => {
  const square: Vec2[] = [
    [0, 0],
    [60, 0],
    [60, 60],
    [0, 60],
  ];
  const degrees = (...angles: number[]): number[] => angles.map(fromDegrees);
  const cases: readonly (readonly [string, Measures, string[]])[] = [
    ['a diagonal too long', { lengths: [40, 30, 40, 30], diagonal: 75 }, ['no-triangle diagonal']],
    ['a diagonal too short', { lengths: [40, 30, 40, 30], diagonal: 5 }, ['no-triangle diagonal']],
    ['a triangle that is open', { lengths: [10, 20, 40] }, ['no-triangle lengths']],
    ['four lengths alone', { lengths: [40, 30, 40, 30] }, ['measures-missing lengths']],
    ['a diagonal of five sides', { lengths: [40, 30, 40, 30, 9], diagonal: 50 }, ['lengths-count lengths']],
    ['both', { lengths: [4, 3, 4, 3], diagonal: 5, angles: degrees(90, 90, 90) }, ['measures-twice diagonal']],
    ['too few angles', { lengths: [4, 3, 4, 3], angles: degrees(90, 90) }, ['angles-count angles']],
    ['outside angles', { lengths: [4, 3, 4, 3], angles: degrees(270, 270, 270, 270) }, ['angles-sum angles']],
    ['a gap', { lengths: [60, 60, 60, 62], angles: degrees(90, 90, 90, 90) }, ['does-not-close lengths']],
    [
      'no side at all',
      {
        corners: [
          [0, 0],
          [0, 0.2],
          [30, 0],
          [30, 30],
        ],
      },
      ['side-too-short corners'],
    ],
    [
      'crossing sides',
      {
        corners: [
          [0, 0],
          [60, 60],
          [60, 0],
          [0, 60],
        ],
      },
      ['sides-cross corners'],
    ],
    [
      'a side that runs back',
      {
        corners: [
          [0, 0],
          [60, 0],
          [20, 0],
          [30, 30],
        ],
      },
      ['sides-cross corners'],
    ],
    ['clockwise corners', { corners: square.toReversed() }, ['clockwise corners']],
    ['a straight corner', { corners: [[0, 0], [30, 0], ...square.slice(1)] }, ['straight-corner corners']],
    [
      'a court outside',
      {
        corners: square,
        courts: [
          [
            [70, 10],
            [80, 10],
            [80, 20],
          ],
        ],
      },
      ['court-outside courts[0]'],
    ],
    [
      'courts in each other',
      {
        corners: square,
        courts: [
          [
            [10, 10],
            [40, 10],
            [40, 40],
          ],
          [
            [25, 12],
            [35, 12],
            [35, 22],
          ],
        ],
      },
      ['courts-meet courts[1]'],
    ],
    [
      'a clockwise court',
      {
        corners: square,
        courts: [
          [
            [10, 10],
            [20, 30],
            [30, 10],
          ],
        ],
      },
      ['clockwise courts[0]'],
    ],
  ];

  test.each(cases)('are told: %s', (_, measures, codes) => {
    expect(codesOf(measures)).toEqual(codes);
  });

  test('are told with the gap', () => {
    const triangle = footprintFrom({ lengths: [40, 30, 40, 30], diagonal: 75 }, allowance).issues[0];
    expect(triangle?.numbers).toEqual({ long: 75, middle: 40, short: 30, gap: 5 });
    const open = footprintFrom({ lengths: [60, 60, 60, 62], angles: degrees(90, 90, 90, 90) }, allowance).issues[0];
    expect(open?.numbers?.['gap']).toBeCloseTo(2, 9);
  });
});

describe('sides that stand out', () => {
  test('are parallel to their own, each by its distance', () => {
    fc.assert(
      fc.property(arbitrarySeed, (seed) => {
        const next = numbersFrom(seed);
        const [corners = [], ...courts] = withCourts(anySimple(3 + Math.floor(next() * 8), next), next);
        const plan = { corners, courts: courts.map((court) => court.toReversed()) };
        const count = [corners, ...courts].flat().length;
        const distances = Array.from({ length: count }, () => 4 * next());
        const out = standOut(plan, distances);
        if (!out.ok) return;
        const before = [corners, ...courts];
        const after = [out.value.corners, ...(out.value.courts ?? []).map((court) => court.toReversed())];
        let side = 0;
        for (const [r, ring] of before.entries()) {
          ring.forEach((p, i) => {
            const along = sub2(at(ring, i + 1), p);
            for (const q of [at(after[r] ?? [], i), at(after[r] ?? [], i + 1)]) {
              const away = cross2(sub2(q, p), along) / Math.hypot(...along);
              expect(away).toBeCloseTo(distances[side] ?? 0, 6);
            }
            side++;
          });
        }
      }),
      counts,
    );
  });

  test('may not close a court', () => {
    const corners: Vec2[] = [
      [0, 0],
      [60, 0],
      [60, 60],
      [0, 60],
    ];
    const court: Vec2[] = [
      [25, 25],
      [35, 25],
      [35, 35],
      [25, 35],
    ];
    const out = (by: number) =>
      standOut(
        { corners, courts: [court] },
        Array.from({ length: 8 }, () => by),
      );
    expect(out(4)).toMatchObject({ ok: true });
    expect(out(5).issues.map(({ code }) => code)).toEqual(['overhang-too-wide']);
  });
});

describe('names of sides', () => {
  const ell: Vec2[] = [
    [0, 0],
    [90, 0],
    [90, 40],
    [40, 40],
    [40, 80],
    [0, 80],
  ];

  test('are the winds they face, numbered in order where several face alike', () => {
    expect(sideNames([ell]).map(({ id }) => id)).toEqual(['south', 'east', 'north', 'east-2', 'north-2', 'west']);
    expect(sideNames([ell])[3]?.title).toBe('East 2');
  });

  test('of a court are those of the slopes into it', () => {
    const court: Vec2[] = [
      [10, 10],
      [10, 30],
      [30, 30],
      [30, 10],
    ];
    const names = sideNames([ell, court, court]).slice(6);
    expect(names.map(({ id }) => id).slice(0, 4)).toEqual(['court-east', 'court-south', 'court-west', 'court-north']);
    expect(names.map(({ title }) => title).slice(4, 5)).toEqual(['Court 2 east']);
    expect(new Set(names.map(({ id }) => id)).size).toBe(8);
  });
});

import { Clipper, EndType, JoinType, type Path64 } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  anyRectilinear,
  anySimple,
  arbitrarySeed,
  numbersFrom,
  type Rings,
  turned,
  withCourts,
} from '../../../../../tests/laws/arbitrary-outline.ts';
import { runs } from '../../../../../tests/laws/runs.ts';
import { at, boxOf, clipConvex, ringArea } from '../../../geometry/polygon.ts';
import { cross2, distance2, left2, length2, sub2, unit2, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import { fromDegrees, toDegrees } from '../../../units/units.ts';
import { buildSkeleton } from './build-skeleton.ts';
import { measureFaults } from './check-skeleton.ts';
import type { Skeleton, SkeletonInput, Stage } from './skeleton.ts';

const counts = { numRuns: runs(250) };
const edgesOf = (rings: Rings): number => rings.reduce((sum, ring) => sum + ring.length, 0);
const evenly = (rings: Rings, stages: readonly Stage[] = [{ level: 0, speed: 1 }]): SkeletonInput => ({
  rings,
  profiles: Array.from({ length: edgesOf(rings) }, () => stages),
});
const unevenly = (rings: Rings, next: () => number): SkeletonInput => ({
  rings,
  profiles: Array.from({ length: edgesOf(rings) }, () => [{ level: 0, speed: 0.3 + 2.7 * next() }]),
});
const simple = (next: () => number): Rings => [anySimple(4 + Math.floor(next() * 57), next)];
const rectilinear = (next: () => number): Rings => [anyRectilinear(4 + Math.floor(next() * 16), next)];
const courts = (next: () => number): Rings => withCourts(anySimple(6 + Math.floor(next() * 30), next), next);

function expectSound(input: SkeletonInput, loose = 1e-9): Skeleton {
  const found = buildSkeleton(input);
  if (!found) throw new Error('no roof');
  const box = boxOf(input.rings.flat());
  const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
  const { area, offPlane, open } = measureFaults(input, found);
  expect(open).toBe(0);
  expect(area).toBeLessThan(loose);
  expect(offPlane / size).toBeLessThan(loose);
  return found;
}

describe('a roof closes over', () => {
  const cases: readonly (readonly [what: string, make: (next: () => number) => SkeletonInput, loose?: number])[] = [
    ['any outline', (next) => evenly(simple(next))],
    ['any outline with a pitch for each side', (next) => unevenly(simple(next), next)],
    ['any outline with courts', (next) => evenly(courts(next))],
    ['any outline with courts and a pitch for each side', (next) => unevenly(courts(next), next)],
    ['right angles, where much happens at once', (next) => evenly(rectilinear(next))],
    ['right angles with a pitch for each side', (next) => unevenly(rectilinear(next), next)],
    ['right angles turned and scaled', (next) => evenly(turned(rectilinear(next), next() * 6, 10 ** (4 * next() - 2)))],
    [
      'right angles with a gable',
      (next) => {
        const input = evenly(rectilinear(next));
        return { ...input, profiles: [[{ level: 0, speed: 0 }], ...input.profiles.slice(1)] };
      },
    ],
    [
      'two pitches one over the other',
      (next) =>
        evenly(simple(next), [
          { level: 0, speed: 0.4 },
          { level: 20 + 40 * next(), speed: 1.7 },
        ]),
    ],
    [
      // A jitter of a hundred-thousandth of the side: what is meant to be square is not quite.
      'right angles that are not quite',
      (next) =>
        evenly(
          rectilinear(next).map((ring) =>
            ring.map(([x, y]): Vec2 => [x + (next() - 0.5) * 1e-3, y + (next() - 0.5) * 1e-3]),
          ),
        ),
      1e-5,
    ],
  ];
  test.each(cases.map(([what, make, loose]) => ({ what, make, loose })))('$what', ({ make, loose }) => {
    fc.assert(
      fc.property(arbitrarySeed, (seed) => {
        expectSound(make(numbersFrom(seed)), loose);
      }),
      counts,
    );
  });
});

describe('at equal pitch', () => {
  /** Area of the level section of the roof at a level: where the roof is higher. */
  const sectionArea = ({ nodes, faces }: Skeleton, level: number): number =>
    faces.reduce((sum, { loop }) => {
      const ring = loop.map((n) => nodes[n] as Vec3);
      const above = ring.flatMap((p, i) => {
        const q = at(ring, i + 1);
        const t = (level - p[2]) / (q[2] - p[2]);
        const cut: Vec2[] = p[2] > level !== q[2] > level ? [[p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t]] : [];
        return p[2] > level ? [[p[0], p[1]] as Vec2, ...cut] : cut;
      });
      return sum + (above.length < 3 ? 0 : ringArea(above));
    }, 0);

  test('the level sections are the mitred offsets of the outline, by the account of a polygon library', () => {
    const grid = 1e4;
    fc.assert(
      fc.property(arbitrarySeed, (seed) => {
        // Right angles along the axes, where the library's rounding to its grid moves nothing.
        const rings = rectilinear(numbersFrom(seed));
        const skeleton = expectSound(evenly(rings));
        const top = Math.max(...skeleton.nodes.map((n) => n[2]));
        let paths = rings.map((ring) => ring.map(([x, y]) => ({ x: x * grid, y: y * grid })) as Path64);
        // Level by level: over a long way its offsets turn inside out and take area off each other.
        for (let step = 1; step < 20; step++) {
          paths = Clipper.inflatePaths(paths, -Math.round((top / 20) * grid), JoinType.Miter, EndType.Polygon, 10);
          const theirs = paths.reduce((sum, path) => sum + Clipper.area(path), 0) / grid ** 2;
          const ours = sectionArea(skeleton, (top * step) / 20);
          expect(Math.abs(ours - theirs)).toBeLessThan(1e-6 * ringArea(rings[0] as readonly Vec2[]));
        }
      }),
      { numRuns: runs(100) },
    );
  });

  test('over a rectangle the ridge is length less width, and the hips run at 45 degrees', () => {
    // Miller, The Carpenters' Guide, fig. 23; Griffith, Carpentry (1916), App. IV; NAVEDTRA 14044.
    const { nodes } = expectSound(
      evenly([
        [
          [0, 0],
          [90, 0],
          [90, 34],
          [0, 34],
        ],
      ]),
    );
    const ridge = nodes.filter((n) => n[2] > 0);
    expect(ridge).toHaveLength(2);
    expect(distance2([ridge[0]?.[0] ?? 0, 0], [ridge[1]?.[0] ?? 0, 0])).toBeCloseTo(90 - 34, 9);
    for (const [, y, z] of ridge) expect([y, z]).toEqual([17, 17]);
  });

  test('over an L with unequal wings: the nodes and areas of the fixture', () => {
    const ring: Vec2[] = [
      [0, 0],
      [12, 0],
      [12, 6],
      [4, 6],
      [4, 10],
      [0, 10],
    ];
    const { nodes, faces } = expectSound(evenly([ring]));
    const inner = nodes.filter((n) => n[2] > 0).map((n) => n.map((v) => Number(v.toFixed(9))));
    expect(inner.sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0) || (a[1] ?? 0) - (b[1] ?? 0))).toEqual([
      [2, 4, 2],
      [2, 8, 2],
      [3, 3, 3],
      [9, 3, 3],
    ]);
    const areas = faces.map(
      ({ edge, loop }) => [edge, ringArea(loop.map((n) => [nodes[n]?.[0] ?? 0, nodes[n]?.[1] ?? 0]))] as const,
    );
    expect(areas.sort((a, b) => a[0] - b[0]).map(([, area]) => Number(area.toFixed(9)))).toEqual([27, 9, 23, 8, 4, 17]);
  });

  test('over an L with equal wings hip, valley and both ridges meet in one node', () => {
    const { nodes } = expectSound(
      evenly([
        [
          [0, 0],
          [10, 0],
          [10, 4],
          [4, 4],
          [4, 10],
          [0, 10],
        ],
      ]),
    );
    expect(nodes.filter((n) => n[2] > 0)).toHaveLength(3);
  });
});

test('over a convex outline the roof is the lower envelope of its planes', () => {
  fc.assert(
    fc.property(arbitrarySeed, (seed) => {
      const next = numbersFrom(seed);
      const angles = Array.from({ length: 3 + Math.floor(next() * 12) }, () => next() * 2 * Math.PI).sort(
        (a, b) => a - b,
      );
      const ring = angles.map((angle): Vec2 => [500 * Math.cos(angle), 300 * Math.sin(angle)]);
      if (ringArea(ring) < 10_000 || ring.some((p, i) => distance2(p, at(ring, i + 1)) < 5)) return;
      const input = unevenly([ring], next);
      const { nodes, faces } = expectSound(input);
      faces.forEach(({ edge, loop }) => {
        // The part of the outline where this plane is lowest, cut out plane by plane.
        const lineOf = (i: number): { normal: Vec2; start: number; speed: number } => {
          const normal = left2(unit2(sub2(at(ring, i + 1), at(ring, i))));
          return {
            normal,
            start: normal[0] * at(ring, i)[0] + normal[1] * at(ring, i)[1],
            speed: input.profiles[i]?.[0]?.speed ?? 1,
          };
        };
        const own = lineOf(edge);
        let region: readonly Vec2[] = ring;
        ring.forEach((_, i) => {
          if (i === edge || region.length === 0) return;
          const other = lineOf(i);
          const normal: Vec2 = [
            other.normal[0] / other.speed - own.normal[0] / own.speed,
            other.normal[1] / other.speed - own.normal[1] / own.speed,
          ];
          const size = length2(normal);
          region = clipConvex(region, {
            normal: [normal[0] / size, normal[1] / size],
            offset: (other.start / other.speed - own.start / own.speed) / size,
          });
        });
        const area = ringArea(loop.map((n) => [nodes[n]?.[0] ?? 0, nodes[n]?.[1] ?? 0]));
        expect(Math.abs(area - ringArea(region))).toBeLessThan(1e-6 * ringArea(ring));
      });
    }),
    counts,
  );
});

/**
 * Corners of unequal pitch: plan angle of the corner, the two pitches in 12, angle in plan between the first eave and the hip or
 * valley, and its slope, degrees, as printed. Source: roof framing geometry notes, geocities.ws/web_sketches, pages
 * irregular_valley_roof (1, measured from the ridge), jack_compound_calcs (2), plan_angle_formula (3, 4) and
 * hip_peak_sidecut_3d_model (5).
 */
const corners: readonly (readonly [
  corner: number,
  first: number,
  second: number,
  plan: string | null,
  slope: string | null,
])[] = [
  [90, 12, 8, '33.69007', '29.01714'],
  [90, 10, 11, '47.72631', '31.65868'],
  [120, 8, 10, '70.89339', null],
  [75, 5, 7, '44.78787', null],
  [90, 10, 7, null, '25.54245'],
];

describe('corners of unequal pitch, published', () => {
  test.each(corners)('%i°, %i in 12 and %i in 12', (angle, first, second, plan, slope) => {
    // A long corner at the origin; the far side is steep enough to stay away.
    const turn = fromDegrees(angle);
    const ring: Vec2[] = [
      [0, 0],
      [100, 0],
      [100 * Math.cos(turn), 100 * Math.sin(turn)],
    ];
    const input: SkeletonInput = {
      rings: [ring],
      profiles: [first, 12, second].map((rise) => [{ level: 0, speed: 12 / rise }]),
    };
    const { nodes } = expectSound(input);
    const [x, y, z] = nodes.find((n) => n[2] > 0) as Vec3;
    if (plan) expect(toDegrees(Math.atan2(cross2([1, 0], [x, y]), x)).toFixed(5)).toBe(plan);
    if (slope) expect(toDegrees(Math.atan2(z, Math.hypot(x, y))).toFixed(5)).toBe(slope);
  });
});

test('no roof closes between upright sides only, and a flat top ends one at its level', () => {
  const rings: Rings = [
    [
      [0, 0],
      [90, 0],
      [90, 34],
      [0, 34],
    ],
  ];
  expect(buildSkeleton(evenly(rings, [{ level: 0, speed: 0 }]))).toBeNull();
  const capped = buildSkeleton({ ...evenly(rings), cap: 5 });
  expect(capped?.faces.map(({ edge }) => edge).sort()).toEqual([-1, 0, 1, 2, 3]);
  const top = capped?.faces.find(({ edge }) => edge === -1);
  expect(ringArea((top?.loop ?? []).map((n) => [capped?.nodes[n]?.[0] ?? 0, capped?.nodes[n]?.[1] ?? 0]))).toBeCloseTo(
    80 * 24,
    9,
  );
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arbitraryPitches, arbitraryPlan } from '../../../tests/laws/arbitrary-plan.ts';
import { runs } from '../../../tests/laws/runs.ts';
import { overhangs } from '../fit/overhang.ts';
import { restHeight } from '../fit/rest.ts';
import { ringArea } from '../geometry/polygon.ts';
import type { Vec2, Vec3 } from '../geometry/vector.ts';
import type { Body, Overhang, ShapeValues } from '../project/project.ts';
import { checkSolid } from '../solid/check-solid.ts';
import { measureSolid } from '../solid/measure.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { fromDegrees, toDegrees } from '../units/units.ts';
import { hipAndValley } from './hip-and-valley.ts';

const solidOf = (shape: ShapeValues, body: Body | null = null): Solid => {
  const result = hipAndValley.build(shape, body);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  expect(checkSolid(result.value)).toEqual([]);
  return result.value;
};
const codesOf = (shape: ShapeValues): string[] =>
  hipAndValley.build(shape, null).issues.map(({ code, path }) => `${code} ${path}`);
const rolesOf = ({ edges }: Solid): Partial<Record<Edge['role'], number>> =>
  edges.reduce<Partial<Record<Edge['role'], number>>>(
    (counts, { role }) => Object.assign(counts, { [role]: (counts[role] ?? 0) + 1 }),
    {},
  );
const pitchOf = (solid: Solid, id: string): number =>
  toDegrees(measureSolid(solid).faces[solid.faces.findIndex((face) => face.id === id)]?.pitch ?? Number.NaN);

const ell: readonly Vec2[] = [
  [-48, -42],
  [48, -42],
  [48, 2],
  [-4, 2],
  [-4, 42],
  [-48, 42],
];
const yard: readonly Vec2[] = [
  [-55, -50],
  [55, -50],
  [55, 50],
  [-55, 50],
];
const court: readonly Vec2[] = [
  [-20, -15],
  [20, -15],
  [20, 15],
  [-20, 15],
];
const half = fromDegrees(45);

/** The roof over a body with an overhang. */
const over = (body: Body, overhang: Overhang, shape: ShapeValues) => {
  const outline = hipAndValley.outlineFromBody(body, overhang, shape);
  return outline.ok ? hipAndValley.build({ ...shape, ...outline.value }, body) : outline;
};

describe('a hip and valley', () => {
  test('over an L has one valley, two ridges and a hip at every outer corner', () => {
    const solid = solidOf({ corners: ell, pitch: half });
    // The wings are both 44 wide, so that their ridges meet in one point at 22 over the valley.
    expect(rolesOf(solid)).toEqual({ eave: 6, valley: 1, ridge: 2, hip: 5 });
    expect(measureSolid(solid).rise).toBeCloseTo(22, 9);
    expect(solid.faces.map(({ title }) => title)).toEqual(['South', 'East', 'North', 'East 2', 'North 2', 'West']);
  });

  test('round a court has as many eaves inside', () => {
    const solid = solidOf({ corners: yard, courts: [court], rise: 17.5 });
    expect(rolesOf(solid)).toEqual({ eave: 8, valley: 4, ridge: 4, hip: 4 });
    const inner = solid.faces.map(({ id }) => id).slice(4);
    expect(inner).toEqual(['court-south', 'court-west', 'court-north', 'court-east']);
    expect(measureSolid(solid).rise).toBeCloseTo(17.5, 9);
    // The plan of all panels is the yard without its court.
    const plan = solid.faces.reduce(
      (sum, { loop }) => sum + ringArea(loop.map((v) => (solid.vertices[v] as Vec3).slice(0, 2) as unknown as Vec2)),
      0,
    );
    expect(plan).toBeCloseTo(110 * 100 - 40 * 30, 6);
  });

  test('has single sides at their own pitch, and gables', () => {
    const solid = solidOf({ corners: ell, pitch: half, pitches: { west: fromDegrees(60), east: 'gable' } });
    expect(pitchOf(solid, 'west')).toBeCloseTo(60, 9);
    expect(pitchOf(solid, 'north-2')).toBeCloseTo(45, 9);
    expect(pitchOf(solid, 'east')).toBeCloseTo(90, 9);
    expect(solid.faces.find(({ id }) => id === 'east')).toMatchObject({ part: 'wall', title: 'East gable' });
    const open = solidOf({ corners: ell, pitch: half, pitches: { east: 'gable' }, ends: 'open' });
    expect(open.faces.some(({ part }) => part === 'wall')).toBe(false);
  });

  test('keeps rise and slant with gables', () => {
    const shape = { corners: ell, pitches: { east: 'gable' as const } };
    expect(measureSolid(solidOf({ ...shape, rise: 30 })).rise).toBeCloseTo(30, 9);
    const slant = solidOf({ ...shape, slant: 44 });
    const south = slant.faces.findIndex(({ id }) => id === 'south');
    expect(measureSolid(slant).faces[south]?.slant).toBeCloseTo(44, 9);
  });

  test('says which sides there are, and what it cannot be', () => {
    expect(codesOf({ corners: ell, pitch: half, pitches: { sout: 1 } })).toEqual(['no-such-side shape.pitches.sout']);
    expect(codesOf({ corners: ell, rise: 20, pitches: { south: 1 } })).toEqual(['pitch-needed shape.pitches']);
    // The wing's gable would run on over the roof of the other wing.
    expect(codesOf({ corners: ell, pitch: half, pitches: { 'east-2': 'gable' } })).toEqual([
      'gable-inside shape.pitches',
    ]);
    const all = Object.fromEntries(['south', 'east', 'north', 'west'].map((id) => [id, 'gable' as const]));
    expect(codesOf({ corners: yard, pitch: half, pitches: all })).toEqual(['no-roof shape']);
  });
});

describe('over a body', () => {
  const body: Body = { outline: ell, height: 60, rectangle: null };

  test('its gable walls stand flush on the walls, as low as the roof rests', () => {
    const shape = { pitch: half, pitches: { east: 'gable' as const, west: fromDegrees(60) } };
    const made = over(body, { eave: 5, verge: 3 }, shape);
    if (!made.ok) throw new Error(JSON.stringify(made.issues));
    const solid = made.value;
    const wall = solid.faces.find(({ id }) => id === 'east');
    const points = (wall?.loop ?? []).map((v) => solid.vertices[v] as Vec3);
    for (const [x] of points) expect(x).toBeCloseTo(48, 9);
    expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(2, 9);
    expect(Math.min(...points.map(([, y]) => y))).toBeCloseTo(-42, 9);
    expect(restHeight(solid, body) + Math.min(...points.map(([, , z]) => z))).toBeCloseTo(60, 9);
    expect(
      [
        ...new Set(
          overhangs(solid, body)
            .flatMap((wall) => wall.distances)
            .map((by) => Number(by.toFixed(9))),
        ),
      ].sort(),
    ).toEqual([3, 5]);
  });

  test('with a court stands out into it too', () => {
    const open: Body = { outline: yard, courts: [court], height: 40, rectangle: null };
    const made = over(open, { eave: 4, verge: 4 }, { pitch: half });
    if (!made.ok) throw new Error('no roof');
    for (const by of overhangs(made.value, open).flatMap((wall) => wall.distances)) expect(by).toBeCloseTo(4, 9);
    expect(restHeight(made.value, open)).toBeCloseTo(36, 9);
  });

  test('of any plan it rests on every wall alike where all pitches are one', () => {
    fc.assert(
      fc.property(arbitraryPlan(true), fc.double({ min: 0.2, max: 1.3, noNaN: true }), ({ corners, courts }, pitch) => {
        const any: Body = { outline: corners, height: 50, rectangle: null, ...(courts ? { courts } : {}) };
        const made = over(any, { eave: 3, verge: 3 }, { pitch });
        if (!made.ok) return;
        expect(restHeight(made.value, any)).toBeCloseTo(50 - 3 * Math.tan(pitch), 6);
        expect(Math.min(...overhangs(made.value, any).flatMap((wall) => wall.distances))).toBeCloseTo(3, 6);
      }),
      { numRuns: runs(150) },
    );
  });

  test('of any plan with gables its walls begin where it rests', () => {
    const cases = arbitraryPlan(false).chain((plan) =>
      arbitraryPitches(plan, { min: 0.3, max: 1.2 }).map((pitches) => ({ plan, pitches })),
    );
    fc.assert(
      fc.property(cases, ({ plan, pitches }) => {
        const any: Body = { outline: plan.corners, height: 50, rectangle: null };
        const made = over(any, { eave: 3, verge: 2 }, { pitch: 0.8, pitches });
        if (!made.ok) return;
        const { faces, vertices } = made.value;
        const feet = faces
          .filter(({ part }) => part === 'wall')
          .map(({ loop }) => Math.min(...loop.map((v) => (vertices[v] as Vec3)[2])));
        for (const foot of feet) expect(restHeight(made.value, any) + foot).toBeCloseTo(50, 6);
      }),
      { numRuns: runs(150) },
    );
  });
});

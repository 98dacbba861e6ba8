import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../geometry/vector.ts';
import type { Body, ShapeValues } from '../project/project.ts';
import { checkSolid } from '../solid/check-solid.ts';
import { measureSolid } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { fromDegrees, toDegrees } from '../units/units.ts';
import { findKind } from './catalogue.ts';
import { centroid } from './measured-plan.ts';

const built = (kind: string, shape: ShapeValues) => {
  const definition = findKind(kind);
  if (!definition) throw new Error(kind);
  return definition.build(shape, null);
};
const solidOf = (kind: string, shape: ShapeValues): Solid => {
  const result = built(kind, shape);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  expect(checkSolid(result.value)).toEqual([]);
  return result.value;
};
const codesOf = (kind: string, shape: ShapeValues): string[] => built(kind, shape).issues.map(({ code }) => code);

/** Out of square by up to five degrees. */
const crooked: readonly Vec2[] = [
  [-31, -27],
  [31, -27],
  [29, 28],
  [-34, 25],
];
const rectangle: readonly Vec2[] = [
  [-50, -30],
  [50, -30],
  [50, 30],
  [-50, 30],
];
const ell: readonly Vec2[] = [
  [-45, -40],
  [45, -40],
  [45, 0],
  [-5, 0],
  [-5, 40],
  [-45, 40],
];
const pitchesOf = (solid: Solid): number[] =>
  measureSolid(solid).faces.map(({ pitch }) => Number(toDegrees(pitch).toFixed(9)));

describe('a roof over a measured plan', () => {
  test('of right angles is that over its width and depth', () => {
    const cases: readonly (readonly [string, ShapeValues])[] = [
      ['pyramid', { rise: 40 }],
      ['pyramid', { slant: 60, peakX: 4, peakY: -3 }],
      ['hip', { pitch: 0.7 }],
      ['hip', { slant: 45 }],
      ['mansard', { rise: 40, breakRise: 25, lowerPitch: 1.2 }],
      ['frustum', { rise: 20, pitch: 1 }],
      ['bell-cast-pyramid', { rise: 50, flareRise: 5, flarePitch: 0.5 }],
    ];
    for (const [kind, shape] of cases) {
      const measured = solidOf(kind, { ...shape, corners: rectangle });
      const plain = solidOf(kind, { ...shape, width: 100, depth: 60 });
      expect(measured.faces.map(({ id }) => id).sort()).toEqual(plain.faces.map(({ id }) => id).sort());
      expect(measureSolid(measured).area).toBeCloseTo(measureSolid(plain).area, 6);
      expect(measureSolid(measured).rise).toBeCloseTo(measureSolid(plain).rise, 9);
    }
  });

  test('closes in one peak over the middle of its area, each panel its own', () => {
    const solid = solidOf('pyramid', { corners: crooked, rise: 50 });
    const [x, y] = centroid(crooked);
    expect(solid.vertices.filter(([, , z]) => z > 0)).toEqual([[x, y, 50]]);
    expect(new Set(pitchesOf(solid)).size).toBe(4);
    expect(solid.faces.map(({ id }) => id)).toEqual(['south', 'east', 'north', 'west']);
  });

  test('has the one pitch on every side, and the rise that is asked for', () => {
    expect(new Set(pitchesOf(solidOf('hip', { corners: crooked, pitch: fromDegrees(40) })))).toEqual(new Set([40]));
    const hip = solidOf('hip', { corners: ell, rise: 21 });
    expect(measureSolid(hip).rise).toBeCloseTo(21, 9);
    expect(new Set(pitchesOf(hip)).size).toBe(1);
    expect(hip.edges.filter(({ role }) => role === 'valley')).toHaveLength(1);
    expect(
      measureSolid(solidOf('mansard', { corners: ell, rise: 30, breakRise: 18, lowerPitch: 1.2 })).rise,
    ).toBeCloseTo(30, 9);
  });

  test('may have a flat top in several parts, each with its own name', () => {
    // Two squares joined by a neck that closes first.
    const dumbbell: Vec2[] = [
      [-60, -20],
      [-20, -20],
      [-20, -4],
      [20, -4],
      [20, -20],
      [60, -20],
      [60, 20],
      [20, 20],
      [20, 4],
      [-20, 4],
      [-20, 20],
      [-60, 20],
    ];
    const { faces } = solidOf('frustum', { corners: dumbbell, rise: 12, pitch: fromDegrees(45) });
    expect(faces.filter(({ side }) => side === 'top').map(({ id }) => id)).toEqual(['top', 'top-part-2']);
    expect(new Set(faces.map(({ id }) => id)).size).toBe(faces.length);
  });

  test('is refused where it has none', () => {
    expect(codesOf('pyramid', { corners: ell, rise: 30, peakX: 40, peakY: 40 })).toEqual(['peak-out-of-sight']);
    expect(codesOf('hip', { corners: crooked, pitch: 0.7, endPitch: 1 })).toEqual(['ends-unknown']);
    expect(codesOf('frustum', { corners: crooked, rise: 60, pitch: 0.7 })).toEqual(['no-top']);
    expect(codesOf('mansard', { corners: crooked, rise: 60, breakRise: 40, lowerPitch: 0.7 })).toEqual([
      'break-too-far-in',
    ]);
    expect(codesOf('bell-cast-pyramid', { corners: crooked, rise: 60, flareRise: 15, flarePitch: 0.4 })).toEqual([
      'flare-too-wide',
    ]);
  });
});

describe('the eave over a body', () => {
  const outlineOf = (kind: string, body: Omit<Body, 'height'>, eave: number) =>
    findKind(kind)?.outlineFromBody({ height: 60, ...body }, { eave, verge: eave }, {});

  test('is parallel to its walls', () => {
    const out = outlineOf('pyramid', { outline: crooked, rectangle: null }, 4);
    const corners = out?.ok ? (out.value['corners'] as readonly Vec2[]) : [];
    expect(corners[0]?.[1]).toBeCloseTo(-31, 9);
    expect(corners[1]?.[1]).toBeCloseTo(-31, 9);
    expect(corners).toHaveLength(4);
  });

  test('is none over a round body', () => {
    const round = { outline: crooked, rectangle: null, isRound: true } as const;
    for (const kind of ['pyramid', 'hip', 'hip-and-valley']) {
      expect(outlineOf(kind, round, 4)?.issues.map(({ code }) => code)).toEqual(['body-round']);
    }
  });

  test('of a spire is none over a rhombus, though its sides are equal', () => {
    const rhombus: readonly Vec2[] = [
      [-40, -20],
      [10, -20],
      [40, 20],
      [-10, 20],
    ];
    const out = findKind('spire')?.outlineFromBody(
      { outline: rhombus, height: 60, rectangle: null },
      { eave: 4, verge: 4 },
      { sides: 4 },
    );
    expect(out?.issues.map(({ code }) => code)).toEqual(['body-not-regular']);
  });

  test('over a rectangle is one', () => {
    const out = outlineOf('hip', { outline: rectangle, rectangle: { width: 100, depth: 60 } }, 4);
    expect(out).toMatchObject({ ok: true, value: { width: 108, depth: 68 } });
  });
});

import { describe, expect, test } from 'vitest';
import type { ShapeValues } from '../project/project.ts';
import { measureSolid } from '../solid/measure.ts';
import { fromDegrees, toDegrees } from '../units/units.ts';
import { findKind } from './catalogue.ts';

const built = (shape: ShapeValues) => {
  const result = findKind('hip')?.build(shape, null);
  if (!result) throw new Error('no hip');
  return result;
};
const measured = (shape: ShapeValues) => {
  const result = built(shape);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  const { rise, faces } = measureSolid(result.value);
  const pitches = Object.fromEntries(
    result.value.faces.map(({ id }, f) => [id, Number(toDegrees(faces[f]?.pitch ?? 0).toFixed(6))]),
  );
  return { rise, pitches, ridge: result.value.edges.find(({ role }) => role === 'ridge')?.length ?? 0 };
};

describe('a hip with ends of their own pitch', () => {
  test('has the ridge that those leave', () => {
    // A span of 60 at 45 degrees rises 30; ends at 60 degrees take 30 / tan 60 each off the length.
    const { rise, pitches, ridge } = measured({
      width: 100,
      depth: 60,
      pitch: fromDegrees(45),
      endPitch: fromDegrees(60),
    });
    expect(rise).toBeCloseTo(30, 9);
    expect(pitches).toEqual({ south: 45, east: 60, north: 45, west: 60 });
    expect(ridge).toBeCloseTo(100 - (2 * 30) / Math.sqrt(3), 9);
  });

  test('has them at the front where that is shorter, whose slant is then the end slant', () => {
    const shape = { width: 60, depth: 100, endPitch: fromDegrees(60) };
    expect(measured({ ...shape, rise: 30 }).pitches).toEqual({ south: 60, east: 45, north: 60, west: 45 });
    const { rise, pitches } = measured({ ...shape, slant: 40 });
    expect(rise).toBeCloseTo(40 * Math.sin(fromDegrees(60)), 9);
    expect(pitches['south']).toBe(60);
    expect(built({ ...shape, pitch: 1 }).issues.map(({ code }) => code)).toEqual(['front-pitch-twice']);
  });

  test('may end in a peak, but not in ends that meet below the ridge', () => {
    const shape = { width: 100, depth: 60, rise: 30 };
    expect(measured({ ...shape, endPitch: Math.atan2(30, 50) }).ridge).toBe(0);
    expect(built({ ...shape, endPitch: fromDegrees(30) }).issues[0]).toMatchObject({
      code: 'ends-meet',
      path: 'shape.endPitch',
      numbers: { leastDeg: toDegrees(Math.atan2(30, 50)) },
    });
  });

  test('has four equal pitches where nothing is said', () => {
    expect(measured({ width: 100, depth: 60, pitch: fromDegrees(40) }).pitches).toEqual({
      south: 40,
      east: 40,
      north: 40,
      west: 40,
    });
  });
});

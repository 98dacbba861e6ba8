import { expect, it } from 'vitest';
import type { Vec3 } from '../geometry/vector.ts';
import { cross, flatPart, sweeps } from './crossing.ts';

const square = (x: number, y: number, z: number, side = 10): readonly Vec3[] => [
  [x, y, z],
  [x + side, y, z],
  [x + side, y + side, z],
  [x, y + side, z],
];
const upright: readonly Vec3[] = [
  [5, -5, -5],
  [5, 5, -5],
  [5, 5, 5],
  [5, -5, 5],
];
const none: Vec3 = [0, 0, 0];

it('parts that go through each other cross, parts that touch or lie on each other do not', () => {
  const level = flatPart(square(0, 0, 0));
  expect(cross(level, none, flatPart(upright))).toBe(true);
  expect(cross(level, [0, 0, 5], flatPart(upright))).toBe(false);
  expect(cross(level, [0, 6, 0], flatPart(upright))).toBe(false);
  expect(cross(level, none, flatPart(square(3, 3, 0)))).toBe(false);
  expect(cross(level, [0, 0, 4.95], flatPart(upright))).toBe(false);
});

it('nothing crosses in a hole', () => {
  const court = flatPart(square(-20, -20, 0, 50), square(0, -10, 0, 20));
  expect(cross(flatPart(upright), none, court)).toBe(false);
  expect(cross(flatPart(upright), [18, 0, 0], court)).toBe(true);
});

it('a part that is moved through another between two looks is caught', () => {
  const [low, high] = [flatPart(square(2, 2, -3, 4)), flatPart(square(0, 0, 0))];
  expect(cross(low, [0, 0, 6], high)).toBe(false);
  expect(sweeps(low, [0, 0, 6], high)).toBe(true);
  expect(sweeps(high, [0, 0, -6], low)).toBe(true);
  expect(sweeps(low, [0, 0, 2], high)).toBe(false);
  expect(sweeps(low, [20, 0, 6], high)).toBe(false);
});

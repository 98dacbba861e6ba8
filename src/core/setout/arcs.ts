import { sub2, type Vec2 } from '../geometry/vector.ts';
import { CUT_MM } from '../tolerance.ts';

/** The point at a distance from a centre in a direction, radians, mm. */
export const pointAt = ([x, y]: Vec2, radius: number, direction: number): Vec2 => [
  x + radius * Math.cos(direction),
  y + radius * Math.sin(direction),
];

/** Points of an arc about a centre from one direction to another, both ends included; radians, mm. */
export function arcPoints(centre: Vec2, radius: number, from: number, by: number): readonly Vec2[] {
  const count = Math.max(
    2,
    Math.ceil(Math.abs(by) / (2 * Math.acos(Math.max(0, 1 - CUT_MM / 20 / Math.max(radius, CUT_MM))))),
  );
  return Array.from({ length: count + 1 }, (_, i) => pointAt(centre, radius, from + (by * i) / count));
}

/** How far the direction b lies on from a, turning one way only: 0 to 2 pi. */
export const turnBetween = (a: number, b: number, isClockwise: boolean): number => {
  const full = 2 * Math.PI;
  const by = isClockwise ? a - b : b - a;
  return ((by % full) + full) % full;
};

export const directionTo = (from: Vec2, to: Vec2): number => {
  const [x, y] = sub2(to, from);
  return Math.atan2(y, x);
};

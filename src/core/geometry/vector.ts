/** Points and directions as plain tuples, mm. Every function returns a new value. */

export type Vec2 = readonly [x: number, y: number];
export type Vec3 = readonly [x: number, y: number, z: number];

export const add2 = (a: Vec2, b: Vec2): Vec2 => [a[0] + b[0], a[1] + b[1]];
export const sub2 = (a: Vec2, b: Vec2): Vec2 => [a[0] - b[0], a[1] - b[1]];
export const scale2 = (a: Vec2, s: number): Vec2 => [a[0] * s, a[1] * s];
export const dot2 = (a: Vec2, b: Vec2): number => a[0] * b[0] + a[1] * b[1];
/** z of the 3D cross product; positive when b lies to the left of a. */
export const cross2 = (a: Vec2, b: Vec2): number => a[0] * b[1] - a[1] * b[0];
/** By the square root, which is exact to the last digit on every machine; `Math.hypot` need not be, and is slow. */
export const length2 = (a: Vec2): number => Math.sqrt(a[0] * a[0] + a[1] * a[1]);
export const distance2 = (a: Vec2, b: Vec2): number => {
  const x = a[0] - b[0];
  const y = a[1] - b[1];
  return Math.sqrt(x * x + y * y);
};
export const lerp2 = (a: Vec2, b: Vec2, t: number): Vec2 => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
/** A quarter turn counter-clockwise. */
export const left2 = (a: Vec2): Vec2 => [-a[1], a[0]];
/** A point turned counter-clockwise about the origin by so many quarters, exactly. */
export function quarterTurns([x, y]: Vec2, count: number): Vec2 {
  const turns = ((count % 4) + 4) % 4;
  if (turns === 0) return [x, y];
  if (turns === 1) return [0 - y, x];
  return turns === 2 ? [0 - x, 0 - y] : [y, 0 - x];
}
export const unit2 = (a: Vec2): Vec2 => scale2(a, 1 / length2(a));

export const add3 = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub3 = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale3 = (a: Vec3, s: number): Vec3 => [a[0] * s, a[1] * s, a[2] * s];
export const dot3 = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross3 = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length3 = (a: Vec3): number => Math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2]);
export const distance3 = (a: Vec3, b: Vec3): number => {
  const x = a[0] - b[0];
  const y = a[1] - b[1];
  const z = a[2] - b[2];
  return Math.sqrt(x * x + y * y + z * z);
};
export const lerp3 = (a: Vec3, b: Vec3, t: number): Vec3 => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];
export const unit3 = (a: Vec3): Vec3 => scale3(a, 1 / length3(a));

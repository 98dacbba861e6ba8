import type { Vec2 } from '../../core/geometry/vector.ts';

/** Places behind and beside the roof on the bench, in steps of one plot; nearest first. North only: nets lie south. */
const plots: readonly Vec2[] = [
  [-1.25, 0.85],
  [1.35, 1.15],
  [-0.2, 1.75],
  [-2.45, 1.55],
  [2.6, 1.9],
  [-1.35, 2.65],
  [1.1, 2.75],
];

/**
 * Where finished neighbours stand: the centres of as many plots as there is room for.
 * `size`: the largest plan size of any of the buildings, mm.
 */
export const settleTown = (count: number, size: number): readonly Vec2[] =>
  plots.slice(0, count).map(([x, y]) => [x * size * 1.3, y * size * 1.3]);

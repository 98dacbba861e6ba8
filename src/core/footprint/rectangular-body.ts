import type { Body } from '../project/project.ts';

/** A body over a rectangle round the origin, mm. */
export const rectangularBody = (width: number, depth: number, height: number): Body => ({
  outline: [
    [-width / 2, -depth / 2],
    [width / 2, -depth / 2],
    [width / 2, depth / 2],
    [-width / 2, depth / 2],
  ],
  height,
  rectangle: { width, depth },
});

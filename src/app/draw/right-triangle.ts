import type { Vec2 } from '../../core/geometry/vector.ts';

export interface TriangleDrawing {
  readonly width: number;
  readonly height: number;
  /** Eave, under the peak, peak; and the eave of the other side. Picture points, y down. */
  readonly eave: Vec2;
  readonly under: Vec2;
  readonly peak: Vec2;
  readonly other: Vec2;
}

const WIDTH = 308;
const MOST_HEIGHT = 220;
const MARGIN = { left: 16, right: 16, top: 22, bottom: 40 } as const;

/** The right triangle of rise, run and slant at true proportions, its mirror image beside it, inside one picture. */
export const drawTriangle = (rise: number, run: number): TriangleDrawing => {
  const inner = { width: WIDTH - MARGIN.left - MARGIN.right, height: MOST_HEIGHT - MARGIN.top - MARGIN.bottom };
  const scale = Math.min(inner.width / Math.max(2 * run, 1e-6), inner.height / Math.max(rise, 1e-6));
  const height = MARGIN.top + Math.max(rise * scale, 44) + MARGIN.bottom;
  const ground = height - MARGIN.bottom;
  const middle = WIDTH / 2;
  return {
    width: WIDTH,
    height,
    eave: [middle - run * scale, ground],
    under: [middle, ground],
    peak: [middle, ground - rise * scale],
    other: [middle + run * scale, ground],
  };
};

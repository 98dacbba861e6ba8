import { distance2 } from '../geometry/vector.ts';
import type { Net, SeamSide } from '../net/net.ts';
import type { MarkedSeam } from './closing.ts';

/** A seam's two sides, in the order of its edge's faces, mm. */
export interface SeamFit extends MarkedSeam {
  readonly layer: number;
  /** The letter on both sides. */
  readonly mark: string;
  /** As the pieces are drawn. */
  readonly lengths: readonly [number, number];
  /** Once every mark is rounded to the ruler. */
  readonly marked: readonly [number, number];
}

/** The seams of a layer's net measured on its pieces, beside what their marks make of them. */
export const seamFits = (net: Net, marked: readonly MarkedSeam[], layer: number): readonly SeamFit[] =>
  net.seams.map(({ edge, mark, sides: [a, b] }, i) => ({
    layer,
    edge,
    mark,
    lengths: [sideLength(a), sideLength(b)],
    marked: marked[i]?.lengths ?? [0, 0],
  }));

const sideLength = ({ ends, curve = ends }: SeamSide): number =>
  curve.slice(1).reduce((sum, p, i) => sum + distance2(p, curve[i] ?? p), 0);

import type { LayerKind } from '../project/project.ts';

/** A layer as the stack sees it: what it is, and its thickness that counts, mm. */
export interface StackedLayer {
  readonly as: LayerKind;
  readonly thickness: number;
}

/**
 * How far outside the shape each layer's panels are cut, mm; inside where it is negative. The shape is the outside of the
 * innermost layer: board is cut to its outside, card to its middle, which is folded; a cover alone lies on the shape. Every further
 * layer lies on those under it and is cut to its middle.
 */
export function layerOffsets(layers: readonly StackedLayer[]): readonly number[] {
  let outside = 0;
  return layers.map(({ as, thickness }, l) => {
    if (l === 0 && as === 'board') return 0;
    if (l === 0 && as === 'shell') return -thickness / 2;
    const middle = outside + thickness / 2;
    outside += thickness;
    return middle;
  });
}

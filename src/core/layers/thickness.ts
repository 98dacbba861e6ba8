import { LEAST_THICKNESS_THAT_COUNTS } from '../project/limits.ts';
import type { LayerSpec, Stock } from '../project/project.ts';

/** Thickness of a layer that counts, mm: thin paper counts as nothing unless its layer says `allow`; board always counts. */
export const countedThickness = (layer: LayerSpec, stock: Stock): number =>
  layer.as !== 'board' && layer.thickness === 'ignore' && stock.thickness < LEAST_THICKNESS_THAT_COUNTS
    ? 0
    : stock.thickness;

import type { MadeLayer, MadeRoof } from './make-roof.ts';

/** Every layer of a roof that is cut, as placements count them: those of the file from the inside out, then its seat. */
export const cutLayers = ({ made }: Pick<MadeRoof, 'made'>): readonly MadeLayer[] =>
  made ? [...made.layers, ...(made.seat ? [made.seat] : [])] : [];

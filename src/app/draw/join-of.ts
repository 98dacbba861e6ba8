import type { MadeLayer } from '../../core/make-roof.ts';
import type { HandJoin } from '../state/seam-edits.ts';

/** How an edge of a layer is joined now; null where nothing is joined there, or boards are glued, which is no choice. */
export const joinOf = ({ net, solid }: MadeLayer, edge: number): HandJoin | null => {
  if (net.pieces.some(({ folds }) => folds.some((fold) => fold.edge === edge))) return { join: 'fold' };
  const seam = net.seams.find((one) => one.edge === edge);
  if (seam === undefined || seam.join === 'glue') return null;
  // What is too short to join may still be folded; until then it is as good as taped.
  if (seam.join === 'none') return { join: 'tape' };
  if (seam.join !== 'flap') return { join: seam.join };
  const flap = net.pieces.flatMap(({ flaps, strip }) => (strip ? [] : flaps)).find((one) => one.edge === edge);
  return { join: 'flap', on: solid.faces[flap?.from ?? -1]?.id ?? '' };
};

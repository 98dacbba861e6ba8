import type { MadeLayer } from '../../core/make-roof.ts';
import { toDegrees } from '../../core/units/units.ts';

/** How an edge of a layer is joined: `seam A, flap on South`, `folded, mountain, 48°`, `open`. */
export const joinWords = ({ net, solid }: MadeLayer, edge: number): string => {
  const fold = net.pieces.flatMap(({ folds }) => folds).find((one) => one.edge === edge);
  if (fold !== undefined) {
    const turned = toDegrees(fold.angle);
    return turned === 0 ? 'goes straight on' : `folded, ${fold.kind}, turned ${Number(turned.toFixed(1))}°`;
  }
  const seam = net.seams.find((one) => one.edge === edge);
  if (seam === undefined) return 'open edge';
  if (seam.join === 'tape') return `seam ${seam.mark}, taped`;
  if (seam.join === 'none') return `seam ${seam.mark}, too short to join`;
  if (seam.join === 'strip') return `seam ${seam.mark}, with a strip of its own`;
  if (seam.join === 'glue') return `seam ${seam.mark}, glued edge to edge`;
  const flap = net.pieces.flatMap(({ flaps }) => flaps).find((one) => one.edge === edge);
  const on = solid.faces[flap?.from ?? -1]?.title;
  return `seam ${seam.mark}, flap${on === undefined ? '' : ` on ${on}`}`;
};

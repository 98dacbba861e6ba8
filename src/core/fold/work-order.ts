import type { Net } from '../net/net.ts';
import type { Solid } from '../solid/solid.ts';

/**
 * The order in which pieces go on, as indices into `net.pieces`: walls before the slopes that rest on them, then pieces with
 * most flaps first, so that plain ones close over the flaps; among equals in the order of the net.
 */
export function workOrder(solid: Solid, net: Net): readonly number[] {
  const rank = net.pieces.map((piece) => {
    const isWall = piece.panels.every(({ face }) => solid.faces[face]?.part === 'wall');
    const carriesAbutment = piece.flaps.some((flap) => solid.edges[flap.edge]?.role === 'abutment');
    return isWall && carriesAbutment ? Number.POSITIVE_INFINITY : piece.flaps.length;
  });
  return net.pieces
    .map((_, p) => p)
    .sort((a, b) => (rank[a] === rank[b] ? a - b : (rank[b] as number) - (rank[a] as number)));
}

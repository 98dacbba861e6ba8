import { at } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { NetPoint, Piece } from './net.ts';

/** Where an edge of a panel of board is cut on its outline: between the corners of the face moved to it. */
export function cutEnds(piece: Pick<Piece, 'panels' | 'board'>, index: number): readonly [NetPoint, NetPoint] {
  const cut = piece.board?.edges[index];
  return movedEdge(piece, index, cut ? Math.min(cut.outer, cut.inner) : 0);
}

/** Where an edge of a panel of board ends on its outside. */
export const outerEnds = (piece: Pick<Piece, 'panels' | 'board'>, index: number): readonly [NetPoint, NetPoint] =>
  movedEdge(piece, index, piece.board?.edges[index]?.outer ?? 0);

function movedEdge({ panels }: Pick<Piece, 'panels'>, index: number, far: number): readonly [NetPoint, NetPoint] {
  const polygon = panels[0]?.polygon ?? [];
  const [a, b] = [at(polygon, index), at(polygon, index + 1)];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const inwards: Vec2 = [(-(b[1] - a[1]) / length) * far, ((b[0] - a[0]) / length) * far];
  return [
    [a[0] + inwards[0], a[1] + inwards[1]],
    [b[0] + inwards[0], b[1] + inwards[1]],
  ];
}

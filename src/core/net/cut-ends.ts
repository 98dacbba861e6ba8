import { at } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { NetPoint, Piece } from './net.ts';

/** Where an edge of a panel of board is cut on its outline: between the corners of the face moved to it. */
export function cutEnds({ panels, board }: Piece, index: number): readonly [NetPoint, NetPoint] {
  const polygon = panels[0]?.polygon ?? [];
  const [a, b] = [at(polygon, index), at(polygon, index + 1)];
  const cut = board?.edges[index];
  const far = cut ? Math.min(cut.outer, cut.inner) : 0;
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const inwards: Vec2 = [(-(b[1] - a[1]) / length) * far, ((b[0] - a[0]) / length) * far];
  return [
    [a[0] + inwards[0], a[1] + inwards[1]],
    [b[0] + inwards[0], b[1] + inwards[1]],
  ];
}

import type { Intersection } from 'three';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { Net } from '../../core/net/net.ts';
import { nearestEdge, type PanelSide } from '../draw/lit-lines.ts';
import type { FlatPart } from './flat-part.ts';
import { firstOwners } from './net-parts.ts';

interface PointedNet {
  readonly net: Net;
  readonly sides: readonly PanelSide[];
  /** mm */
  readonly reach: number;
}

/**
 * The edge that is meant by a point on a net that may be folded or rolled: the point is taken back to where its triangle lies
 * flat on its piece. A flap means the seam that it glues.
 */
export const pointedEdge = (
  hit: Pick<Intersection, 'face' | 'barycoord'>,
  { positions, owners }: FlatPart,
  { net, sides, reach }: PointedNet,
): number | null => {
  const { face, barycoord } = hit;
  if (!face || !barycoord) return null;
  const owner = owners[face.a] ?? 0;
  const starts = firstOwners(net);
  const piece = starts.findLastIndex((start) => start <= owner);
  const member = owner - (starts[piece] ?? 0);
  const { panels = [], flaps = [] } = net.pieces[piece] ?? {};
  const flap = flaps[member - panels.length];
  if (flap !== undefined) return flap.edge;
  const weights = [barycoord.x, barycoord.y, barycoord.z];
  const point = [face.a, face.b, face.c].reduce<Vec2>(
    ([x, y], corner, i) => [
      x + (positions[3 * corner] ?? 0) * (weights[i] ?? 0),
      y + (positions[3 * corner + 1] ?? 0) * (weights[i] ?? 0),
    ],
    [0, 0],
  );
  return nearestEdge(sides, { piece, panel: member }, point, reach);
};

import { at } from '../../core/geometry/polygon.ts';
import { distance2, dot2, left2, lerp2, scale2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import type { Panel, Piece } from '../../core/net/net.ts';
import { edgesOfFaces } from '../../core/solid/measure.ts';
import type { Solid } from '../../core/solid/solid.ts';
import { SNAP_MM } from '../../core/tolerance.ts';

/** A line of a piece that a print can be centred on or set to; in the piece's own frame, mm. */
export interface Guide {
  /** A fold, the line straight down the middle of a panel, or a panel's lower edge. */
  readonly kind: 'fold' | 'fall' | 'eave';
  readonly ends: readonly [Vec2, Vec2];
}

const lowRoles: ReadonlySet<string> = new Set(['eave', 'foot', 'rim']);

/** What of a piece a print can be set to. */
export const guidesOf = (solid: Solid, piece: Piece): readonly Guide[] => {
  const edges = edgesOfFaces(solid);
  const folds = piece.folds.filter(({ angle }) => angle > 0).map(({ ends }): Guide => ({ kind: 'fold', ends }));
  const panels = piece.panels.flatMap((panel): Guide[] => {
    const eave = lowestOf(solid, panel, edges[panel.face] ?? []);
    if (eave === null) return [];
    const fall = fallLine(panel.polygon, eave);
    return [{ kind: 'eave', ends: eave }, ...(fall === null ? [] : [{ kind: 'fall' as const, ends: fall }])];
  });
  return [...panels, ...folds];
};

/** The longest straight eave or foot of a panel; null where it has none. */
const lowestOf = (solid: Solid, { polygon }: Panel, edges: readonly number[]): readonly [Vec2, Vec2] | null => {
  let longest: readonly [Vec2, Vec2] | null = null;
  polygon.forEach((p, i) => {
    const edge = solid.edges[edges[i] ?? -1];
    const ends = [p, at(polygon, i + 1)] as const;
    if (!edge || edge.via || !lowRoles.has(edge.role)) return;
    if (longest === null || distance2(...ends) > distance2(...longest)) longest = ends;
  });
  return longest;
};

/** From the eave straight up to the peak, or to the middle of the upper edge. */
const fallLine = (polygon: readonly Vec2[], [a, b]: readonly [Vec2, Vec2]): readonly [Vec2, Vec2] | null => {
  if (distance2(a, b) <= SNAP_MM) return null;
  const up = left2(unit2(sub2(b, a)));
  const heights = polygon.map((p) => dot2(sub2(p, a), up));
  const most = Math.max(...heights);
  const high = polygon.filter((_, i) => most - (heights[i] ?? 0) <= SNAP_MM);
  const top = high.length === 1 ? (high[0] as Vec2) : lerp2(high[0] as Vec2, high.at(-1) as Vec2, 0.5);
  return most <= SNAP_MM ? null : [sub2(top, scale2(up, most)), top];
};

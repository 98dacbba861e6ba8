import { distanceToSegment } from '../../core/geometry/polygon.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { Place } from '../../core/issue.ts';
import { outerSides, sidesToCut } from '../../core/net/board-body.ts';
import type { Net } from '../../core/net/net.ts';
import { edgesOfFaces } from '../../core/solid/measure.ts';
import type { Solid } from '../../core/solid/solid.ts';

/** A stretch of a panel's outline, or of a line on its inside, in the frame of its piece. */
export interface PanelSide {
  readonly piece: number;
  readonly panel: number;
  /** Index into `solid.edges`. */
  readonly edge: number;
  readonly ends: readonly [Vec2, Vec2];
  /** On the inside of the panel: a wall is glued there. */
  readonly isUnder: boolean;
}

/** Every side of every panel with its edge; a curved edge has several, one that nothing of a board is left at has none there. */
export const panelSides = (solid: Solid, net: Net): readonly PanelSide[] => {
  const edges = edgesOfFaces(solid);
  return net.pieces.flatMap(({ panels, glueLines, board }, piece) => [
    ...panels.flatMap((own, panel) =>
      (board ? outerSides(own, board) : sidesToCut(own, board)).flatMap(({ side, from, to }): PanelSide[] => {
        const edge = edges[own.face]?.[side] ?? -1;
        return edge < 0 ? [] : [{ piece, panel, edge, ends: [from, to], isUnder: false }];
      }),
    ),
    ...glueLines.map(({ edge, panel, ends }): PanelSide => ({ piece, panel, edge, ends, isUnder: true })),
  ]);
};

export interface LitParts {
  readonly sides: readonly PanelSide[];
  readonly panels: readonly { readonly piece: number; readonly panel: number }[];
}

/** What of a net is meant by a place: its edges wherever they lie, and its faces. */
export const litParts = (solid: Solid, net: Net, { edges = [], faces = [] }: Place): LitParts => {
  const meant = new Set(edges);
  const ids = new Set(faces);
  return {
    sides: panelSides(solid, net).filter(({ edge }) => meant.has(solid.edges[edge]?.id ?? '')),
    panels: net.pieces.flatMap(({ panels }, piece) =>
      panels.flatMap(({ face }, panel) => (ids.has(solid.faces[face]?.id ?? '') ? [{ piece, panel }] : [])),
    ),
  };
};

/** The edge nearest to a point of a piece, on one of its panels or on all; null where none is within reach (mm). */
export const nearestEdge = (
  sides: readonly PanelSide[],
  { piece, panel }: { readonly piece: number; readonly panel?: number },
  point: Vec2,
  reach: number,
): number | null => {
  let found: { edge: number; away: number } | null = null;
  for (const side of sides) {
    if (side.piece !== piece || side.isUnder || (panel !== undefined && side.panel !== panel)) continue;
    const away = distanceToSegment(point, ...side.ends);
    if (away <= reach && (found === null || away < found.away)) found = { edge: side.edge, away };
  }
  return found?.edge ?? null;
};

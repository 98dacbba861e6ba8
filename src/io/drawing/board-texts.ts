import { add2, left2, lerp2, scale2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import type { BoardEdgeCut } from '../../core/net/board-edges.ts';
import { cutEnds } from '../../core/net/cut-ends.ts';
import type { Piece } from '../../core/net/net.ts';
import { toDegrees } from '../../core/units/units.ts';

/** A text beside an edge of a panel of board, and where it may stand. */
export interface EdgeText {
  readonly text: string;
  /** Unit vector along the edge. */
  readonly along: Vec2;
  /** Places for the middle of a text of this height, best first, mm. */
  readonly centersFor: (height: number) => readonly Vec2[];
}

/** A text along an upright edge keeps the edge's direction. */
const UPRIGHT = 0.001;

const SHARES = [0.5, 0.4, 0.6, 0.3, 0.7] as const;

/** What stands beside every edge that is not simply cut square: its bevel with its sign, or which board laps. */
export const boardTexts = (piece: Piece): readonly EdgeText[] =>
  (piece.board?.edges ?? []).flatMap((cut, i): readonly EdgeText[] => {
    const text = edgeText(cut);
    if (text === null) return [];
    const [a, b] = cutEnds(piece, i);
    const way = unit2(sub2(b, a));
    const inside = left2(way);
    const centersFor = (height: number): readonly Vec2[] =>
      SHARES.map((share) => add2(lerp2(a, b, share), scale2(inside, height / 2 + 1)));
    // Never upside down.
    return [{ text, along: way[0] < -UPRIGHT ? scale2(way, -1) : way, centersFor }];
  });

/** `+32.8° outside wider`, `-12° inside wider`, `laps`, `lapped`. */
export function edgeText({ bevel, lap }: Pick<BoardEdgeCut, 'bevel' | 'lap'>): string | null {
  if (lap) return lap === 'over' ? 'laps' : 'lapped';
  const tilt = Number(toDegrees(bevel).toFixed(1));
  if (tilt === 0) return null;
  return tilt > 0 ? `+${tilt}° outside wider` : `${tilt}° inside wider`;
}

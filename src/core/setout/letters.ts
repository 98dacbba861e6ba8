import { isInside } from '../geometry/polygon.ts';
import { add2, left2, lerp2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { letterStretch, type Panel, type SeamSide } from '../net/net.ts';
import { type Edge, isJoinedAt } from '../solid/solid.ts';
import type { RowPiece } from './lay-row.ts';
import type { SheetItem } from './make-set-out.ts';
import { applyPose } from './pose.ts';
import type { SetOutLetter } from './set-out.ts';

/** Letters stand so far inside their line, mm. */
const INSIDE = 3;

/** Where along its line a letter may stand, the middle first. */
const SHARES = [0.5, 0.36, 0.64, 0.22, 0.78];

/**
 * The letters of a piece's seams where it lies on its strip. `numberOf`: the number of the mark at a corner on its mark, mm from
 * the origin of the piece. What ends under another layer is not joined to the panel below it, which has no letter for it.
 */
export function lettersOf(
  { item: { draft, placement, layer }, pose }: RowPiece<SheetItem>,
  numberOf: (corner: Vec2) => number | undefined,
): readonly SetOutLetter[] {
  const { piece, rounded, step } = draft;
  const lines = new Map(piece.glueLines.flatMap((line) => (line.mark ? [[line.mark, line] as const] : [])));
  const sides: readonly { readonly text: string; readonly side: Omit<SeamSide, 'piece'> }[] = [
    ...layer.net.seams.flatMap(({ edge, mark, sides: both }) => {
      const own = layer.solid.edges[edge] as Edge;
      return both.flatMap((side, s) =>
        side.piece === placement.piece && isJoinedAt(own, own.faces[s] as number) ? [{ text: mark, side }] : [],
      );
    }),
    ...[...lines].map(([text, side]) => ({ text, side })),
  ];
  const onStrip = (p: Vec2): Vec2 => applyPose(pose, sub2(p, rounded.origin));
  return sides.flatMap(({ text, side }) => {
    const panel: Panel | undefined = piece.panels[side.panel];
    if (!panel) return [];
    const numbers = side.ends.map((end) => numberOf(scale2(rounded.marks(end), step)));
    const [a, b] = numbers;
    return [
      {
        text,
        places: placesBeside(side, panel).map(onStrip),
        line: a === undefined || b === undefined || a === b ? null : ([a, b] as const),
      },
    ];
  });
}

/** A little way inside the panel, beside the line of a seam. */
function placesBeside(side: Omit<SeamSide, 'piece'>, { polygon }: Panel): readonly Vec2[] {
  return SHARES.map((share) => {
    const [a, b] = letterStretch({ ...side, piece: 0 }, share);
    const foot = lerp2(a, b, side.curve ? 0.5 : share);
    const inward = scale2(left2(unit2(sub2(b, a))), INSIDE);
    return isInside(add2(foot, inward), polygon) ? add2(foot, inward) : sub2(foot, inward);
  });
}

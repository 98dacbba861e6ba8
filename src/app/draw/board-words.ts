import type { MadeLayer } from '../../core/make-roof.ts';
import { toDegrees } from '../../core/units/units.ts';
import { edgeText } from '../../io/drawing/board-texts.ts';

/** How board is cut along an edge, panel by panel: `South: +21.4° outside wider, 22.6° off its fall line`; none for paper. */
export const boardWords = ({ net, solid }: MadeLayer, edge: number): readonly string[] =>
  net.pieces.flatMap(({ panels, board }) => {
    const cut = board?.edges.find((one) => one.edge === edge);
    if (cut === undefined) return [];
    const title = solid.faces[panels[0]?.face ?? -1]?.title ?? '';
    const slant = cut.mitre === null ? '' : `, ${Number(toDegrees(cut.mitre).toFixed(1))}° off its fall line`;
    return [`${title}: ${edgeText(cut) ?? 'cut square'}${slant}`];
  });

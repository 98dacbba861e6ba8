import { boxedRing, ringDepth } from '../geometry/convex-parts.ts';
import { ringDistance } from '../geometry/polygon.ts';
import type { Issue } from '../issue.ts';
import type { PositionSpec, Stock } from '../project/project.ts';
import { NOISE_MM } from '../tolerance.ts';
import { checkPlacement } from './check-layout.ts';
import { laySheets, type Spot } from './lay-sheets.ts';
import type { LaidSheet, PieceToLay, Placement } from './layout.ts';
import { laidRing } from './placed.ts';

/** A piece with the id of its roof. */
export interface NamedPiece extends PieceToLay {
  readonly roofId: string;
}

/**
 * The positions of a file as sheets with what lies on them. A position that says nothing of any use any more is left out with a
 * warning, and its piece is laid anew: the piece is not there or has changed, its paper is not for it, or it would lie off the
 * sheet, turned against the paper or on another piece.
 */
export function placePositions(
  pieces: readonly NamedPiece[],
  stock: readonly Stock[],
  positions: readonly PositionSpec[],
): { readonly fixed: readonly LaidSheet[]; readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const placed: Placed[] = [];
  positions.forEach((position, i) => {
    const found = placeOne(pieces, stock, position, placed);
    if ('code' in found) issues.push(staleIssue(found, `positions[${i}]`));
    else placed.push(found);
  });
  const spots = placed.map(({ spot }) => spot);
  return { fixed: laySheets({ pieces, stock }, spots).sheets, issues };
}

interface Placed {
  readonly spot: Spot;
  readonly piece: NamedPiece;
}

interface Refusal {
  readonly code: string;
  readonly message: string;
}

/** One position beside those that hold already. */
function placeOne(
  pieces: readonly NamedPiece[],
  stock: readonly Stock[],
  position: PositionSpec,
  placed: readonly Placed[],
): Placed | Refusal {
  const { x, y, rotation, locked, sheet: index } = position;
  const why = (code: string, message: string): Refusal => ({ code: `position-${code}`, message });
  const piece = pieces.find((one) => isPieceOf(one, position));
  if (!piece) return why('no-piece', `There is no piece ${position.piece} of ${position.roof} in that layer and copy.`);
  const { title } = piece;
  if ((position.fingerprint ?? piece.fingerprint) !== piece.fingerprint)
    return why('changed', `${title} has another outline than when it was laid.`);
  const s = stock.findIndex(({ id }) => id === position.stock);
  const paper = stock[s];
  if (!paper || !piece.stock.includes(s)) return why('no-stock', `${title} is not cut from "${position.stock}".`);
  if (paper.count !== null && index >= paper.count)
    return why('no-sheet', `${title} lies on a sheet of ${paper.name} that is not there.`);
  if (placed.some((one) => one.piece === piece)) return why('twice', `${title} is given two positions.`);
  const key = { roof: piece.roof, layer: piece.layer, piece: piece.piece, copy: piece.copy };
  const placement: Placement = { ...key, x, y, rotation, ...(locked ? { locked } : {}) };
  const [wrong] = checkPlacement(piece, placement, s, paper);
  if (wrong) return why('off', wrong.message);
  const ring = laidRing(piece, placement);
  const onIt = placed.find(
    ({ spot, piece: other }) =>
      spot.stock === s && spot.index === index && isTooNear(ring, laidRing(other, spot.placement), paper.gap),
  );
  if (onIt) return why('overlap', `${title} lies on ${onIt.piece.title}, or nearer to it than the gap.`);
  return { spot: { stock: s, index, placement }, piece };
}

const isPieceOf = (piece: NamedPiece, { roof, layer, piece: id, copy }: PositionSpec): boolean =>
  piece.roofId === roof && piece.layer === layer && piece.id === id && piece.copy === copy;

function isTooNear(a: PieceToLay['outline'], b: PieceToLay['outline'], gap: number): boolean {
  return ringDepth(boxedRing(a), boxedRing(b)) > NOISE_MM || (gap > 0 && ringDistance(a, b) < gap - NOISE_MM);
}

const staleIssue = ({ code, message }: Refusal, path: string): Issue => ({
  level: 'warning',
  code,
  path,
  message,
  remedy: 'The piece is laid anew; leave out the position, or put the piece where it can lie.',
});

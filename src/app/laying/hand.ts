import { boxOf } from '../../core/geometry/polygon.ts';
import type { PieceKey, PieceToLay } from '../../core/layout/layout.ts';
import type { Production } from '../../core/pipeline.ts';
import { bench, readNow } from '../bench.ts';
import { type LayingState, type Loose, laying } from './laying-store.ts';
import {
  hasAnother,
  isSamePiece,
  type Laid,
  movePiece,
  ringAt,
  type Spot,
  spotOf,
  troublesOf,
  turnAbout,
} from './lying.ts';
import { positionsOf, withPositions } from './positions.ts';
import type { Caught } from './snap.ts';
import { type LaidNow, piecesOf, withLoose } from './use-laid.ts';

/*
 * What a hand does with the pieces on the sheets. A piece is held (loose) while it moves; where it can lie it goes into the file, and
 * with it the places of all others, so that nothing else moves. Where it cannot lie it stays loose and the sentence says why.
 */

const now = (): LaidNow | null => {
  const { shown } = readNow();
  if (shown === null) return null;
  const { loose, moving, from } = laying.getState();
  const isHeld = moving !== null && from === shown.sheets;
  return {
    production: shown,
    pieces: piecesOf(shown),
    sheets: isHeld ? moving : shown.sheets,
    loose: isHeld ? loose : [],
  };
};

/** These pieces are held, and all others where the file says. */
const setLoose = (production: Production, loose: readonly Loose[], more: Partial<LayingState> = {}): void =>
  laying.setState({
    loose,
    moving: loose.length === 0 ? null : withLoose(production, loose),
    from: production.sheets,
    ...more,
  });

const pieceOf = ({ pieces }: LaidNow, key: PieceKey): PieceToLay | undefined =>
  pieces.find((one) => isSamePiece(one, key));

export const takeUp = (key: PieceKey | null): void => laying.setState({ inHand: key, caught: [] });

/** Holds a piece at a place; nothing is written yet. */
export const hold = (key: PieceKey, spot: Spot, caught: readonly Caught[] = []): void => {
  const at = now();
  if (at === null) return;
  const others = at.loose.filter((one) => !isSamePiece(one.key, key));
  setLoose(at.production, [...others, { key, spot }], { inHand: key, caught });
};

/** Lets go: pieces that can all lie where they are go into the file. `gesture`: moves of one name are one step to undo. */
export const settle = (gesture?: string): void => {
  laying.setState({ caught: [] });
  const at = now();
  if (at === null || at.loose.length === 0) return;
  const { stock } = at.production.project;
  const isStuck = at.loose.some(({ key }) => troublesOf(at.sheets, at.pieces, stock, key).length > 0);
  if (!isStuck) write(at, at.sheets, gesture);
};

const write = ({ production, pieces }: LaidNow, sheets: Laid, gesture?: string): void => {
  setLoose(production, []);
  const positions = positionsOf(production.project, pieces, sheets);
  bench.edit((file) => withPositions(file, positions), gesture);
};

/** Back to where the file says; others that were only in its way go into the file. */
export const putBack = (key: PieceKey): void => {
  const at = now();
  if (at === null) return;
  const others = at.loose.filter((one) => !isSamePiece(one.key, key));
  setLoose(at.production, others, { caught: [] });
  settle();
};

/** Keeps a piece where it is while all else is laid anew, or lets it be laid with the rest again. */
export const lock = (key: PieceKey, isLocked: boolean): void => {
  const at = now();
  const [piece, spot] = at ? [pieceOf(at, key), spotOf(at.sheets, key)] : [];
  if (!at || !piece || !spot) return;
  write(at, movePiece(at.sheets, piece, spot, isLocked));
};

/** Turns a piece about its middle, radians counter-clockwise. */
export const turn = (key: PieceKey, by: number): void => {
  const at = now();
  const [piece, spot] = at ? [pieceOf(at, key), spotOf(at.sheets, key)] : [];
  if (!piece || !spot) return;
  hold(key, turnAbout(piece.outline, spot, by));
  settle();
};

/** Moves a piece by so much, mm; it is written once the keys are let go. */
export const nudge = (key: PieceKey, right: number, up: number): void => {
  const at = now();
  const spot = at && spotOf(at.sheets, key);
  if (spot) hold(key, { ...spot, x: spot.x + right, y: spot.y + up });
};

/** Where a piece comes to with the leftmost and the lowest of it at these places, mm. */
export const placedAt = (piece: PieceToLay, spot: Spot, { left, low }: { left?: number; low?: number }): Spot => {
  const { minX, minY } = boxOf(ringAt(piece.outline, spot));
  return { ...spot, x: spot.x + (left ?? minX) - minX, y: spot.y + (low ?? minY) - minY };
};

/** The sheets that a piece may lie on, and after them one that may be begun, as `stock/index`. */
export const sheetsFor = (
  { production, sheets }: Pick<LaidNow, 'production' | 'sheets'>,
  piece: PieceToLay,
): readonly SheetChoice[] =>
  piece.stock.flatMap((stock): SheetChoice[] => {
    const paper = production.project.stock[stock];
    if (paper === undefined) return [];
    const begun = sheets.filter((sheet) => sheet.stock === stock).map(({ index }) => ({ stock, index, isNew: false }));
    const next = 1 + Math.max(-1, ...begun.map(({ index }) => index));
    return hasAnother(paper, sheets, stock) ? [...begun, { stock, index: next, isNew: true }] : begun;
  });

export interface SheetChoice {
  readonly stock: number;
  readonly index: number;
  readonly isNew: boolean;
}

/** Onto another sheet: at the same place of it, on a new one in its corner. */
export const toSheet = (key: PieceKey, choice: SheetChoice): void => {
  const at = now();
  const [piece, spot] = at ? [pieceOf(at, key), spotOf(at.sheets, key)] : [];
  const margin = at?.production.project.stock[choice.stock]?.margin ?? 0;
  if (!piece || !spot) return;
  const there = { ...spot, stock: choice.stock, index: choice.index };
  hold(key, choice.isNew ? placedAt(piece, there, { left: margin, low: margin }) : there);
  settle();
};

/** To the next or the last sheet that it may lie on; after the last one a new one. */
export const toNextSheet = (key: PieceKey, by: 1 | -1): void => {
  const at = now();
  const [piece, spot] = at ? [pieceOf(at, key), spotOf(at.sheets, key)] : [];
  if (!at || !piece || !spot) return;
  const choices = sheetsFor(at, piece);
  const here = choices.findIndex(({ stock, index }) => stock === spot.stock && index === spot.index);
  const next = choices[here + by];
  if (next) toSheet(key, next);
};

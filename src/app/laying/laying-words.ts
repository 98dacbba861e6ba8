import { boxOf } from '../../core/geometry/polygon.ts';
import type { PieceToLay } from '../../core/layout/layout.ts';
import type { Production } from '../../core/pipeline.ts';
import { toDegrees } from '../../core/units/units.ts';
import { isSamePiece, ringAt, type Spot, type Trouble } from './lying.ts';

type Show = (mm: number) => string;

/** `Gate tower: South`, and which copy where there are several. */
export const pieceTitle = ({ project }: Production, { title, roof, copy }: PieceToLay): string =>
  (project.roofs[roof]?.copies ?? 1) > 1 ? `${title}, copy ${copy + 1}` : title;

export const sheetTitle = ({ project }: Production, { stock, index }: Pick<Spot, 'stock' | 'index'>): string =>
  `${project.stock[stock]?.name ?? 'Paper'}, sheet ${index + 1}`;

/** `upright`, `turned half round`, `turned 15° to the left`. */
export const turnWords = (rotation: number): string => {
  const degrees = Math.round(toDegrees(rotation) * 10) / 10;
  if (degrees === 0) return 'upright';
  if (Math.abs(degrees) === 180) return 'upside down';
  return `turned ${Math.abs(degrees)}° to the ${degrees > 0 ? 'left' : 'right'}`;
};

/** Where a piece lies, from the edges of its sheet. */
export const placeWords = (piece: PieceToLay, spot: Spot, show: Show): string => {
  const { minX, minY } = boxOf(ringAt(piece.outline, spot));
  const far = (mm: number, edge: string, from: string): string =>
    Math.abs(mm) < SEEN ? `at the ${edge} edge` : `${show(mm)} from ${from}`;
  return `${far(minX, 'left', 'the left')}, ${far(minY, 'lower', 'below')}, ${turnWords(spot.rotation)}`;
};

/** Less than any ruler shows, mm. */
const SEEN = 0.01;

/** Why a piece cannot lie where it is. */
export const troubleWords = (
  { kind, other, by = 0 }: Trouble,
  pieces: readonly PieceToLay[],
  production: Production,
  show: Show,
): string => {
  const found = other && pieces.find((piece) => isSamePiece(piece, other));
  const name = found ? pieceTitle(production, found) : 'another piece';
  if (kind === 'overlap') return `It lies on ${name}.`;
  if (kind === 'gap') return `It is ${show(by)} too near to ${name}.`;
  if (kind === 'off-sheet') return `It stands out over the paper by ${show(by)}.`;
  return 'Its layer is not cut from this paper.';
};

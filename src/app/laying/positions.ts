import { keyOf, type PieceToLay } from '../../core/layout/layout.ts';
import type { Project } from '../../core/project/project.ts';
import { toDegrees } from '../../core/units/units.ts';
import { type Json, type JsonObject, setAt } from '../state/file-path.ts';
import type { Laid } from './lying.ts';

/** Figures of a length in the file that are more than a hand or a saw can follow, and few enough that pieces still touch. */
const FIGURES = 12;

const exact = (value: number): number => Number(value.toPrecision(FIGURES));

/** Where every piece lies, as the file says it. Sheets that nothing lies on are not counted. */
export const positionsOf = (project: Project, pieces: readonly PieceToLay[], sheets: Laid): readonly Json[] => {
  const known = new Map(pieces.map((piece) => [keyOf(piece), piece]));
  const begun = new Map<number, number>();
  return sheets.flatMap(({ stock, placements }) => {
    if (placements.length === 0) return [];
    const sheet = begun.get(stock) ?? 0;
    begun.set(stock, sheet + 1);
    return placements.flatMap((placement): JsonObject[] => {
      const piece = known.get(keyOf(placement));
      const roof = project.roofs[placement.roof];
      const paper = project.stock[stock];
      if (!piece || !roof || !paper) return [];
      const { x, y, rotation, locked } = placement;
      return [
        {
          roof: roof.id,
          layer: placement.layer,
          piece: piece.id,
          ...(placement.copy > 0 ? { copy: placement.copy } : {}),
          stock: paper.id,
          ...(sheet > 0 ? { sheet } : {}),
          x: exact(x),
          y: exact(y),
          ...(rotation === 0 ? {} : { rotation: exact(toDegrees(rotation)) }),
          ...(locked ? { locked: true } : {}),
          fingerprint: piece.fingerprint,
        },
      ];
    });
  });
};

/** The file with its pieces lying so. */
export const withPositions = (file: JsonObject, positions: readonly Json[]): JsonObject =>
  setAt(file, ['positions'], positions.length === 0 ? undefined : positions) as JsonObject;

/** The file with only what is locked kept where it is; all else is laid by the program. */
export const keepLocked = (file: JsonObject): JsonObject => {
  const positions = file['positions'];
  if (!Array.isArray(positions)) return file;
  const locked = (positions as readonly JsonObject[]).filter((position) => position['locked'] === true);
  return locked.length === positions.length ? file : withPositions(file, locked);
};

/** How many pieces the file says a place of, and how many of those are locked. */
export const countPositions = (file: JsonObject): { readonly all: number; readonly locked: number } => {
  const positions = Array.isArray(file['positions']) ? (file['positions'] as readonly JsonObject[]) : [];
  return { all: positions.length, locked: positions.filter((position) => position['locked'] === true).length };
};

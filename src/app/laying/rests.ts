import { type Box, boxOf } from '../../core/geometry/polygon.ts';
import { keyOf, type LaidSheet, type PieceToLay } from '../../core/layout/layout.ts';
import { exactText } from '../fields/typed-text.ts';
import { freeId } from '../state/file-edits.ts';
import { type FilePath, getAt, type JsonObject, setAt } from '../state/file-path.ts';
import { ringAt } from './lying.ts';

/** What one straight cut from edge to edge leaves of a sheet, mm from its lower left. */
export type Rest = Box;

/** Shorter than this a rest is a strip that nobody keeps, mm. */
const LEAST = 20;

/** The largest part of a sheet that one straight cut beside all its pieces leaves; null for one not worth keeping, or an offcut. */
export const restOf = (sheet: LaidSheet, pieces: readonly PieceToLay[]): Rest | null => {
  const { width, height, outline, placements } = sheet;
  if (outline !== undefined || placements.length === 0) return null;
  const outlines = new Map(pieces.map((piece) => [keyOf(piece), piece.outline]));
  const used = boxOf(placements.flatMap((placement) => ringAt(outlines.get(keyOf(placement)) ?? [], placement)));
  const rests: readonly Rest[] = [
    { minX: used.maxX, minY: 0, maxX: width, maxY: height },
    { minX: 0, minY: used.maxY, maxX: width, maxY: height },
    { minX: 0, minY: 0, maxX: used.minX, maxY: height },
    { minX: 0, minY: 0, maxX: width, maxY: used.minY },
  ];
  const size = ({ minX, minY, maxX, maxY }: Rest): number => (maxX - minX) * (maxY - minY);
  const [best] = rests.toSorted((a, b) => size(b) - size(a));
  return best && Math.min(best.maxX - best.minX, best.maxY - best.minY) >= LEAST ? best : null;
};

/** The rest of a sheet as a paper of its own, printed like the sheet. */
export const keepRest = (file: JsonObject, stock: number, rest: Rest): JsonObject => {
  const at: FilePath = ['stock'];
  const all = (getAt(file, at) ?? []) as readonly JsonObject[];
  const from = all[stock];
  if (from === undefined) return file;
  const units = getAt(file, ['units']) === 'mm' ? 'mm' : 'in';
  const text = (mm: number): string => exactText(mm, units);
  const [width, height] = [text(rest.maxX - rest.minX), text(rest.maxY - rest.minY)];
  const id = freeId(
    `${from['id']}-rest`,
    all.map((one) => String(one['id'])),
  );
  const { width: _, height: __, count: ___, price: ____, name, ...like } = from;
  const outline = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  const kept = { ...like, id, name: `${name ?? from['id']}, rest`, outline };
  return setAt(file, at, [...all, kept]) as JsonObject;
};

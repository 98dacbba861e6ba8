import type { Units } from '../../core/units/units.ts';
import { getAt, isObject, type Json, type JsonObject } from './file-path.ts';
import { omit } from './roof-edits.ts';

export type SeatFits = 'inside' | 'outside';

/** Walls of board as they are usual. */
const usualWalls = (units: Units): string => (units === 'in' ? '1/16in' : '2mm');

/**
 * The roof with a seat that fits so, or with none. Candidates: glued to the slopes, and where they leave no room for it, to a
 * level plate.
 */
export const seatLike = (typed: JsonObject, fits: SeatFits | 'none', units: Units): JsonObject[] => {
  const { seat: before, ...rest } = typed;
  if (fits === 'none') return [rest];
  const kept = isObject(before) ? omit(before, ['fits', 'walls', 'inside', 'plate']) : {};
  const stock: Json = kept['stock'] ?? getAt(typed, ['layers', 0, 'stock']) ?? '';
  const walls =
    fits === 'inside' ? { walls: (isObject(before) ? before['walls'] : undefined) ?? usualWalls(units) } : {};
  const seat: JsonObject = { fits, ...walls, ...kept, stock };
  return [seat, { ...seat, plate: true }].map((one) => ({ ...rest, seat: one }));
};

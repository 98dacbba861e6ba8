import type { Units } from '../../core/units/units.ts';
import { type JsonObject, setAt } from './file-path.ts';

/** Shows lengths in other units, with that unit's usual ruler; every length stays as it was typed. */
export const showIn = (file: JsonObject, units: Units, ruler: string): JsonObject =>
  setAt(setAt(file, ['units'], units), ['ruler'], ruler) as JsonObject;

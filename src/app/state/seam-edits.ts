import { getAt, isObject, type JsonObject, setAt } from './file-path.ts';
import { omit } from './roof-edits.ts';

/** How two panels are joined along an edge, as a hand chooses it. */
export type HandJoin =
  | { readonly join: 'fold' | 'tape' | 'strip' }
  /** `on`: id of the face that carries the flap. */
  | { readonly join: 'flap'; readonly on: string };

const seamPath = (layer: number, edge: string) => ['layers', layer, 'seams', edge] as const;

/** Whether a hand has chosen how this edge is joined. */
export const isChosenByHand = (typed: JsonObject, layer: number, edge: string): boolean =>
  getAt(typed, seamPath(layer, edge)) !== undefined;

/** The roof with one edge joined so, the last of those chosen, so that the others hold; null: as its pieces and flaps have it. */
export const joinByHand = (typed: JsonObject, layer: number, edge: string, join: HandJoin | null): JsonObject => {
  const chosen = getAt(typed, ['layers', layer, 'seams']);
  const others = omit(isObject(chosen) ? chosen : {}, [edge]);
  const next = join === null ? others : { ...others, [edge]: { ...join } };
  return setAt(typed, ['layers', layer, 'seams'], Object.keys(next).length === 0 ? undefined : next) as JsonObject;
};

/** The layer with none of its edges chosen by hand. */
export const forgetHandJoins = (typed: JsonObject, layer: number): JsonObject =>
  setAt(typed, ['layers', layer, 'seams'], undefined) as JsonObject;

/** How many edges of a layer are joined as a hand has chosen. */
export const countHandJoins = (typed: JsonObject, layer: number): number => {
  const seams = getAt(typed, ['layers', layer, 'seams']);
  return isObject(seams) ? Object.keys(seams).length : 0;
};

import type { JsonObject } from './file-path.ts';

/** Layers that can be made now; board comes with offset surfaces. */
export type AddedLayer = 'shell' | 'cover';

const layersOf = (typed: JsonObject): readonly JsonObject[] => {
  const layers = typed['layers'];
  return Array.isArray(layers) ? (layers as readonly JsonObject[]) : [];
};

const flapsLike = (layers: readonly JsonObject[], as: AddedLayer): JsonObject => {
  const flaps = layers.find((layer) => layer['as'] === as)?.['flaps'] ?? layers[0]?.['flaps'];
  return flaps === undefined ? {} : { flaps };
};

/**
 * One more layer, listed from the inside out: a shell inside every cover, a cover outside everything. Candidates: one for
 * each paper, those that no layer of this roof is cut from first.
 */
export const addLayer = (typed: JsonObject, as: AddedLayer, stock: readonly string[]): JsonObject[] => {
  const layers = layersOf(typed);
  const used = new Set(layers.flatMap((layer) => [layer['stock'] ?? []].flat().map(String)));
  const byChoice = [...stock.filter((id) => !used.has(id)), ...stock.filter((id) => used.has(id))];
  const firstCover = layers.findIndex((layer) => layer['as'] === 'cover');
  const place = as === 'shell' && firstCover >= 0 ? firstCover : layers.length;
  const pieces = as === 'shell' ? 'one-piece' : 'per-panel';
  return byChoice.map((id) => ({
    ...typed,
    layers: layers.toSpliced(place, 0, { as, stock: id, pieces, ...flapsLike(layers, as) }),
  }));
};

/** The last layer stays: a roof is made of something. */
export const removeLayer = (typed: JsonObject, index: number): JsonObject => {
  const layers = layersOf(typed);
  return layers.length > 1 ? { ...typed, layers: layers.toSpliced(index, 1) } : typed;
};

import type { LayerKind } from '../../core/project/project.ts';
import type { JsonObject } from './file-path.ts';

const layersOf = (typed: JsonObject): readonly JsonObject[] => {
  const layers = typed['layers'];
  return Array.isArray(layers) ? (layers as readonly JsonObject[]) : [];
};

const flapsLike = (layers: readonly JsonObject[], as: LayerKind): JsonObject => {
  const flaps = layers.find((layer) => layer['as'] === as)?.['flaps'] ?? layers[0]?.['flaps'];
  return flaps === undefined ? {} : { flaps };
};

/** Where a further layer lies, from the inside out: board inside everything, a shell inside every cover, a cover outside all. */
const placeFor = (as: LayerKind, layers: readonly JsonObject[]): number => {
  if (as === 'board') return 0;
  const firstCover = layers.findIndex((layer) => layer['as'] === 'cover');
  return as === 'shell' && firstCover >= 0 ? firstCover : layers.length;
};

/** Every face of board is cut by itself, and nothing of it is folded into a flap. */
const cutAs = (as: LayerKind, layers: readonly JsonObject[]): JsonObject =>
  as === 'board' ? {} : { pieces: as === 'shell' ? 'one-piece' : 'per-panel', ...flapsLike(layers, as) };

/** One more layer. Candidates: one for each paper, those that no layer of this roof is cut from first. */
export const addLayer = (typed: JsonObject, as: LayerKind, stock: readonly string[]): JsonObject[] => {
  const layers = layersOf(typed);
  const used = new Set(layers.flatMap((layer) => [layer['stock'] ?? []].flat().map(String)));
  const byChoice = [...stock.filter((id) => !used.has(id)), ...stock.filter((id) => used.has(id))];
  return byChoice.map((id) => ({
    ...typed,
    layers: layers.toSpliced(placeFor(as, layers), 0, { as, stock: id, ...cutAs(as, layers) }),
  }));
};

/** The last layer stays: a roof is made of something. */
export const removeLayer = (typed: JsonObject, index: number): JsonObject => {
  const layers = layersOf(typed);
  return layers.length > 1 ? { ...typed, layers: layers.toSpliced(index, 1) } : typed;
};

/** One place further out (1) or in (-1); at the end of the list nothing changes. */
export const moveLayer = (typed: JsonObject, index: number, by: 1 | -1): JsonObject => {
  const layers = layersOf(typed);
  const moved = layers[index];
  const place = index + by;
  if (moved === undefined || place < 0 || place >= layers.length) return typed;
  return { ...typed, layers: layers.toSpliced(index, 1).toSpliced(place, 0, moved) };
};

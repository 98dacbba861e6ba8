import type { Issue } from '../../core/issue.ts';
import type { Project } from '../../core/project/project.ts';
import { type JsonObject, setAt } from '../state/file-path.ts';

/** A change of the file that may help against an issue, as a key says it. */
export interface Remedy {
  readonly title: string;
  readonly change: (file: JsonObject) => JsonObject;
}

/** What a key can do where pieces find no place: sheets more, or a layer cut in more pieces. */
export const remediesFor = ({ code, path, numbers = {} }: Issue, { roofs, stock }: Project): readonly Remedy[] => {
  const [, roof, layer] = /^roofs\[(\d+)\]\.layers\[(\d+)\]$/.exec(path) ?? [];
  const spec = roofs[Number(roof ?? -1)]?.layers[Number(layer ?? -1)];
  if (spec === undefined) return [];
  if (code === 'stock-too-small') {
    const s = stock.findLastIndex(({ id, count }) => spec.stock.includes(id) && count !== null);
    const more = numbers['moreCount'] ?? 1;
    const paper = stock[s];
    if (!paper || paper.count === null) return [];
    const count = paper.count + more;
    const title = more === 1 ? `One sheet more of ${paper.name}` : `${more} sheets more of ${paper.name}`;
    return [{ title, change: (file) => setAt(file, ['stock', s, 'count'], count) as JsonObject }];
  }
  // A single panel stays as large as it is, however its layer is cut.
  if (code !== 'piece-too-large' || spec.as === 'board' || numbers['foldsCount'] === 0) return [];
  const pieces = (value: string) => (file: JsonObject) =>
    setAt(file, ['roofs', Number(roof), 'layers', Number(layer), 'pieces'], value) as JsonObject;
  const ways = [
    { title: 'As few pieces as fit', value: 'fewest' },
    { title: 'A piece for each side', value: 'per-panel' },
  ];
  return ways
    .filter(({ value }) => value !== spec.pieces)
    .map(({ title, value }) => ({ title, change: pieces(value) }));
};

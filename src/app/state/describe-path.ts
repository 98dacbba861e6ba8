import { type FilePath, getAt, isObject, type Json } from './file-path.ts';

/** The inverse of `formatPath` for the keys that a project file uses. */
export const parsePath = (text: string): FilePath =>
  [...text.matchAll(/\[(\d+)\]|([^.[\]]+)/g)].map((found) =>
    found[1] === undefined ? (found[2] ?? '') : Number(found[1]),
  );

const words: Readonly<Record<string, string>> = {
  shape: 'Shape',
  body: 'Body',
  page: 'Printed page',
  units: 'Units',
  ruler: 'Ruler',
  overhang: 'Overhang',
  fascia: 'Fascia',
  copies: 'Copies',
  flaps: 'Flaps',
};

const spoken = (key: string): string => words[key] ?? key.charAt(0).toUpperCase() + key.slice(1);

/** Where an issue is, in a maker's words: `Gate tower, Shape, Rise`; empty path: `The project`. */
export const describePath = (text: string, file: Json): string => {
  const path = parsePath(text);
  if (path.length === 0) return 'The project';
  const parts: string[] = [];
  for (let i = 0; i < path.length; i++) {
    const key = path[i] ?? '';
    if (typeof key === 'string') {
      if (typeof path[i + 1] !== 'number') parts.push(spoken(key));
      continue;
    }
    if (typeof path[i - 1] === 'number') {
      // Within a corner its place across and up; within a court its corner.
      const isCorner = path[i - 2] === 'courts';
      parts.push(isCorner ? `Corner ${key + 1}` : key === 0 ? 'to the right' : 'to the back');
      continue;
    }
    const list = String(path[i - 1] ?? '');
    const item = getAt(file, path.slice(0, i + 1));
    const name = isObject(item) ? (item['title'] ?? item['name']) : undefined;
    const one = list === 'stock' ? 'Stock' : list.endsWith('s') ? spoken(list.slice(0, -1)) : spoken(list);
    parts.push(typeof name === 'string' && name !== '' ? name : `${one} ${key + 1}`);
  }
  return parts.join(', ');
};

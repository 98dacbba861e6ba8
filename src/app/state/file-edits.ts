import type { Units } from '../../core/units/units.ts';
import { getAt, type Json, type JsonObject, setAt } from './file-path.ts';
import type { NewRoof } from './new-roof.ts';

/** Changes of a whole roof or project; each takes a file and returns the next. */

const roofsOf = (file: JsonObject): readonly JsonObject[] => {
  const roofs = getAt(file, ['roofs']);
  return Array.isArray(roofs) ? (roofs as readonly JsonObject[]) : [];
};

const withRoofs = (file: JsonObject, roofs: readonly Json[]): JsonObject => setAt(file, ['roofs'], roofs) as JsonObject;

/** The base itself where it is free, otherwise `base-2`, `base-3` and so on. */
const freeId = (base: string, taken: readonly string[]): string => {
  let id = base;
  for (let n = 2; taken.includes(id); n++) id = `${base}-${n}`;
  return id;
};

const idsOf = (file: JsonObject): string[] => roofsOf(file).map((roof) => String(roof['id']));

/** What a further roof is called and cut from. */
export const nextRoof = (file: JsonObject): NewRoof => {
  const number = roofsOf(file).length + 1;
  const stock = String(getAt(file, ['stock', 0, 'id']) ?? '');
  return { id: freeId(`roof-${number}`, idsOf(file)), title: `Roof ${number}`, stock };
};

export const addRoof = (file: JsonObject, roof: JsonObject): JsonObject => withRoofs(file, [...roofsOf(file), roof]);

export const duplicateRoof = (file: JsonObject, index: number): JsonObject => {
  const roofs = roofsOf(file);
  const roof = roofs[index];
  if (roof === undefined) return file;
  const id = freeId(String(roof['id']), idsOf(file));
  const title = freeId(
    String(roof['title'] ?? 'Roof'),
    roofs.map((one) => String(one['title'])),
  ).replace(/-(\d+)$/, ' $1');
  const copy: JsonObject = { ...roof, id, title };
  return withRoofs(file, [...roofs.slice(0, index + 1), copy, ...roofs.slice(index + 1)]);
};

/** The last roof stays: a project has at least one. */
export const removeRoof = (file: JsonObject, index: number): JsonObject => {
  const roofs = roofsOf(file);
  return roofs.length > 1
    ? withRoofs(
        file,
        roofs.filter((_, i) => i !== index),
      )
    : file;
};

/** A further paper, of the size of the first. */
export const addStock = (file: JsonObject): JsonObject => {
  const found = getAt(file, ['stock']);
  const stock = Array.isArray(found) ? (found as readonly JsonObject[]) : [];
  const id = freeId(
    `paper-${stock.length + 1}`,
    stock.map((one) => String(one['id'])),
  );
  const { width = 210, height = 297 } = stock[0] ?? {};
  return setAt(
    file,
    ['stock'],
    [...stock, { id, name: `Paper ${stock.length + 1}`, width, height, direction: 'any' }],
  ) as JsonObject;
};

/** A board to begin with, where the maker owns none: of a sheet that is sold everywhere, always editable. */
export const addBoard = (file: JsonObject, units: Units): { readonly file: JsonObject; readonly id: string } => {
  const found = getAt(file, ['stock']);
  const stock = Array.isArray(found) ? (found as readonly JsonObject[]) : [];
  const id = freeId(
    'board',
    stock.map((one) => String(one['id'])),
  );
  const sheet =
    units === 'in'
      ? { width: '12in', height: '12in', thickness: '1/16in' }
      : { width: '297mm', height: '420mm', thickness: '2mm' };
  const board: JsonObject = { id, name: 'Greyboard', ...sheet, direction: 'any' };
  return { file: setAt(file, ['stock'], [...stock, board]) as JsonObject, id };
};

/** Ids of the papers that some layer of these roofs is cut from. */
export const usedStock = (roofs: Json | undefined): ReadonlySet<string> => {
  const layers = (Array.isArray(roofs) ? (roofs as readonly JsonObject[]) : []).flatMap((roof) => {
    const found = getAt(roof, ['layers']);
    return Array.isArray(found) ? (found as readonly JsonObject[]) : [];
  });
  return new Set(layers.flatMap((layer) => [layer['stock'] ?? []].flat().map(String)));
};

export const removeStock = (file: JsonObject, index: number): JsonObject =>
  setAt(file, ['stock', index], undefined) as JsonObject;

/** Puts one member of a group of keys in the place of the one that is given, so that the order of keys is kept. */
export const giveInstead = (shape: JsonObject, group: readonly string[], key: string, value: Json): JsonObject => {
  const entries = Object.entries(shape);
  const place = entries.findIndex(([name]) => group.includes(name));
  const rest = entries.filter(([name]) => !group.includes(name));
  const at = place < 0 ? rest.length : entries.slice(0, place).filter(([name]) => !group.includes(name)).length;
  return Object.fromEntries([...rest.slice(0, at), [key, value] as const, ...rest.slice(at)]);
};

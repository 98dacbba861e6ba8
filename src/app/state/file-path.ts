/**
 * Places in the project file as typed. The file is plain JSON; an edit returns a new file that shares every untouched
 * part and keeps the order of keys, so that saving writes back what the maker wrote.
 */

export type Json = null | boolean | number | string | readonly Json[] | JsonObject;
export interface JsonObject {
  readonly [key: string]: Json;
}

export type FilePath = readonly (string | number)[];

export const isObject = (value: Json | undefined): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export const getAt = (value: Json | undefined, path: FilePath): Json | undefined => {
  let found: Json | undefined = value;
  for (const key of path) {
    if (Array.isArray(found) && typeof key === 'number') found = found[key];
    else if (isObject(found) && typeof key === 'string') found = found[key];
    else return undefined;
  }
  return found;
};

/** Sets one value; `undefined` removes the key (or the list's entry). Missing objects on the way are made. */
export const setAt = (value: Json | undefined, path: FilePath, next: Json | undefined): Json => {
  const [key, ...rest] = path;
  if (key === undefined) return next ?? null;
  if (typeof key === 'number') {
    const list = Array.isArray(value) ? [...(value as readonly Json[])] : [];
    if (rest.length === 0 && next === undefined) list.splice(key, 1);
    else list[key] = setAt(list[key], rest, next);
    return list;
  }
  const object = isObject(value) ? value : {};
  if (rest.length === 0 && next === undefined) {
    return Object.fromEntries(Object.entries(object).filter(([name]) => name !== key));
  }
  return { ...object, [key]: setAt(object[key], rest, next) };
};

/** As issues name it: `roofs[0].shape.rise`. */
export const formatPath = (path: FilePath): string =>
  path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}[${key}]` : text === '' ? key : `${text}.${key}`),
    '',
  );

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json | undefined };

/** Decimals kept: a thousandth of a millionth of a millimetre or degree. */
const DECIMALS = 9;

/**
 * A number as plain decimals: at most nine places, never `-0`, never an exponent, so that the same figure is the same
 * text everywhere.
 *
 * @throws RangeError for NaN and infinities: they have no JSON form, and a writer that met one has a bug behind it.
 */
export const formatNumber = (value: number): string => {
  if (!Number.isFinite(value)) throw new RangeError(`a report holds finite numbers only, got ${value}`);
  const text = value.toFixed(DECIMALS);
  // toFixed turns to exponents from 1e21 on; a whole number of that size prints exactly as a BigInt.
  const plain = text.includes('e') ? BigInt(value).toString() : text.replace(/\.?0+$/, '');
  return plain === '-0' ? '0' : plain;
};

const isScalar = (value: Json): boolean => value === null || typeof value !== 'object';

const isList = (value: Json): value is readonly Json[] => Array.isArray(value);

/**
 * JSON with two spaces a level, except that a list of single values (a point, a loop) stays on one line.
 * Keys whose value is undefined are left out, as JSON.stringify does.
 */
export const writeJson = (value: Json, indent = ''): string => {
  if (typeof value === 'number') return formatNumber(value);
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  const inner = `${indent}  `;
  if (isList(value)) {
    if (value.length === 0) return '[]';
    if (value.every(isScalar)) return `[${value.map((item) => writeJson(item)).join(', ')}]`;
    return `[\n${value.map((item) => inner + writeJson(item, inner)).join(',\n')}\n${indent}]`;
  }
  const lines = Object.entries(value).flatMap(([key, item]) =>
    item === undefined ? [] : [`${inner}${JSON.stringify(key)}: ${writeJson(item, inner)}`],
  );
  return lines.length === 0 ? '{}' : `{\n${lines.join(',\n')}\n${indent}}`;
};

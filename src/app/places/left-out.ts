import type { Param } from '../../core/roofs/definition.ts';

/** Longest that fits into an empty box. */
const LONGEST = 24;

/** A size or pitch that the kind derives from the others where the file leaves it out. */
export const isOptional = (param: Param): boolean => param.optional === true;

/**
 * What stands in the empty box of a parameter that may be left out: the last clause of its help where it says so, as in
 * `How steep the ends are; as the others unless said otherwise.`
 */
export const leftOutWords = (help: string): string => {
  const clause = /[;,:]\s*((?:as|the same as|like|from|follows)\b[^;,:.]*)\.?$/.exec(help)?.[1] ?? '';
  const words = clause.replace(/\s+(unless|when|where|if|while)\b.*$/, '').trim();
  return words === '' || words.length > LONGEST ? 'follows' : words;
};

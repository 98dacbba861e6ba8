import type { RoofDefinition } from '../../core/roofs/definition.ts';

const plain = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

/**
 * The kinds whose title, other names, summary or parameters hold every one of these words, or the beginnings of them;
 * those that are called so before those that are only described so.
 */
export const findKinds = (kinds: readonly RoofDefinition[], words: string): readonly RoofDefinition[] => {
  const wanted = plain(words)
    .split(/[\s,]+/)
    .filter((word) => word !== '')
    .map((word) => new RegExp(`(^|[^a-z])${word.replace(/[^a-z0-9]/g, '.')}`));
  const holds = (...texts: readonly string[]): boolean => {
    const known = plain(texts.join(' '));
    return wanted.every((word) => word.test(known));
  };
  const called = kinds.filter(({ title, alsoCalled = [] }) => holds(title, ...alsoCalled));
  const described = kinds.filter(({ title, alsoCalled = [], summary, params }) =>
    holds(title, ...alsoCalled, summary, ...params.map((param) => param.label)),
  );
  return [...called, ...described.filter((kind) => !called.includes(kind))];
};

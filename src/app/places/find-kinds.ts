import type { RoofDefinition } from '../../core/roofs/definition.ts';

const plain = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

/** The kinds whose title, summary or parameters hold every one of these words, or the beginnings of them. */
export const findKinds = (kinds: readonly RoofDefinition[], words: string): readonly RoofDefinition[] => {
  const wanted = plain(words)
    .split(/[\s,]+/)
    .filter((word) => word !== '');
  return kinds.filter(({ title, summary, params }) => {
    const known = plain([title, summary, ...params.map((param) => param.label)].join(' '));
    return wanted.every((word) => new RegExp(`(^|[^a-z])${word.replace(/[^a-z0-9]/g, '.')}`).test(known));
  });
};

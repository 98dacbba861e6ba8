import { describe, expect, it } from 'vitest';
import { kinds } from '../../core/roofs/catalogue.ts';
import { findKinds } from './find-kinds.ts';

describe('finding a kind by words', () => {
  it('finds every kind by its title, written anyhow', () => {
    for (const kind of kinds) {
      expect(findKinds(kinds, kind.title)).toContain(kind);
      expect(findKinds(kinds, `  ${kind.title.toUpperCase()} `)).toContain(kind);
    }
  });

  it.each([
    ['barn', 'gambrel'],
    ['skillion', 'shed'],
    ['tented', 'pyramid'],
    ['jerkinhead', 'half-hip'],
    ['bellcast', 'bell-cast-pyramid'],
  ])('knows what else a kind is called: %s', (word, id) => {
    expect(findKinds(kinds, word)[0]?.id).toBe(id);
  });

  it('gives every kind another name to be found by', () => {
    expect(kinds.filter(({ alsoCalled = [] }) => alsoCalled.length === 0).map(({ id }) => id)).toEqual([]);
  });

  it('puts what is called so before what is only described so', () => {
    const ids = findKinds(kinds, 'gable').map(({ id }) => id);
    expect(ids[0]).toBe('gable');
    expect(ids).toContain('gambrel');
    expect(ids.indexOf('gambrel')).toBeGreaterThan(ids.indexOf('half-hip'));
  });

  it('takes beginnings of words, all of them, and every kind where nothing is typed', () => {
    expect(findKinds(kinds, 'bell pyr').map(({ id }) => id)).toEqual(['bell-cast-pyramid']);
    expect(findKinds(kinds, 'amid')).toEqual([]);
    expect(findKinds(kinds, ' ')).toEqual(kinds);
    expect(findKinds(kinds, '((')).toBeInstanceOf(Array);
  });
});

import { describe, expect, it } from 'vitest';
import { blankProject } from './blank-project.ts';
import {
  addRoof,
  addStock,
  duplicateRoof,
  giveInstead,
  nextRoof,
  removeRoof,
  removeStock,
  usedStock,
} from './file-edits.ts';
import { getAt, type JsonObject } from './file-path.ts';
import { showIn } from './show-in.ts';

const ids = (file: JsonObject): unknown[] => (getAt(file, ['roofs']) as JsonObject[]).map((roof) => roof['id']);
const oneMore = (file: JsonObject): JsonObject => addRoof(file, { ...nextRoof(file) });

describe('edits of a project', () => {
  it('adds, copies and removes roofs without ever using an id twice', () => {
    let file = blankProject('mm');
    for (let i = 0; i < 4; i++) file = duplicateRoof(oneMore(file), 0);
    expect(new Set(ids(file)).size).toBe(9);
    file = removeRoof(file, 3);
    expect(ids(file)).toHaveLength(8);
    file = oneMore(file);
    expect(new Set(ids(file)).size).toBe(9);
  });

  it('puts a copy right after its original', () => {
    const file = duplicateRoof(oneMore(blankProject('in')), 0);
    expect(ids(file)).toEqual(['roof-1', 'roof-1-2', 'roof-2']);
    expect(getAt(file, ['roofs', 1, 'title'])).toBe('First roof 2');
  });

  it('keeps the last roof', () => {
    const file = blankProject('in');
    expect(removeRoof(file, 0)).toBe(file);
  });

  it('adds a paper of the same size and puts away one that nothing is cut from', () => {
    const file = addStock(blankProject('in'));
    expect(getAt(file, ['stock', 1, 'width'])).toBe('8 1/2in');
    expect([...usedStock(getAt(file, ['roofs']))]).toEqual(['paper']);
    expect(getAt(removeStock(file, 1), ['stock'])).toHaveLength(1);
  });

  it('leaves typed lengths alone when other units are shown', () => {
    const file = showIn(blankProject('in'), 'mm', '0.5mm');
    expect([file['units'], file['ruler']]).toEqual(['mm', '0.5mm']);
    expect(getAt(file, ['roofs', 0, 'shape', 'rise'])).toBe('2in');
  });

  it('gives the pitch where the rise stood', () => {
    const next = giveInstead({ width: '2in', rise: '3in', peakX: 4 }, ['rise', 'pitch', 'slant'], 'pitch', '50deg');
    expect(Object.entries(next)).toEqual([
      ['width', '2in'],
      ['pitch', '50deg'],
      ['peakX', 4],
    ]);
    expect(giveInstead({ width: '2in' }, ['rise', 'pitch'], 'rise', 9)).toEqual({ width: '2in', rise: 9 });
  });
});

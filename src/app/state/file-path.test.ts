import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describePath, parsePath } from './describe-path.ts';
import { type FilePath, formatPath, getAt, type Json, setAt } from './file-path.ts';

const file: Json = {
  title: 'Harbour',
  roofs: [
    { id: 'gate', title: 'Gatehouse', shape: { width: '2in', rise: '3in' } },
    { id: 'loft', title: '', shape: { width: '5in' }, layers: [{ as: 'cover' }] },
  ],
};

describe('a place in the file', () => {
  it('gives back what was set, whatever the path', () => {
    const key = fc.oneof(fc.constantFrom('a', 'bee', 'c1'), fc.nat(3));
    fc.assert(
      fc.property(fc.array(key, { minLength: 1, maxLength: 5 }), fc.string(), (path: FilePath, text) => {
        expect(getAt(setAt(null, path, text), path)).toBe(text);
      }),
    );
  });

  it('reads its own text again', () => {
    const path: FilePath = ['roofs', 12, 'layers', 0, 'flaps', 'width'];
    expect(formatPath(path)).toBe('roofs[12].layers[0].flaps.width');
    expect(parsePath(formatPath(path))).toEqual(path);
  });

  it('keeps key order and every untouched part', () => {
    const next = setAt(file, ['roofs', 0, 'shape', 'width'], '4in');
    expect(Object.keys(getAt(next, ['roofs', 0, 'shape']) as object)).toEqual(['width', 'rise']);
    expect(getAt(next, ['roofs', 1])).toBe(getAt(file, ['roofs', 1]));
    expect(getAt(file, ['roofs', 0, 'shape', 'width'])).toBe('2in');
  });

  it('removes a key and a list entry', () => {
    expect(getAt(setAt(file, ['roofs', 0, 'shape', 'rise'], undefined), ['roofs', 0, 'shape'])).toEqual({
      width: '2in',
    });
    expect(getAt(setAt(file, ['roofs', 0], undefined), ['roofs', 0, 'id'])).toBe('loft');
  });

  it('is told in a maker’s words', () => {
    expect(describePath('roofs[0].shape.rise', file)).toBe('Gatehouse, Shape, Rise');
    expect(describePath('roofs[1].layers[0].flaps.width', file)).toBe('Roof 2, Layer 1, Flaps, Width');
    expect(describePath('', file)).toBe('The project');
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readProject } from './read-project.ts';
import { repeatedKeys } from './repeated-keys.ts';
import { gateFile } from './testing/gate-file.ts';

describe('repeatedKeys', () => {
  it.each([
    ['{ "a": 1, "b": 2, "a": 3 }', ['a']],
    ['{ "a": { "b": 1 }, "c": [{ "b": 1 }, { "b": 2, "d": "x", "b": 3 }] }', ['c[1].b']],
    ['[1, [{ "a": ":", "a": "," }]]', ['[1][0].a']],
    ['{ "a": "{ \\"b\\": 1, \\"b\\": 2 }" }', []],
    ['{ "a": 1, "\\u0061": 2 }', ['a']],
  ])('finds them in %s', (text, paths) => {
    expect(repeatedKeys(text)).toEqual(paths);
  });

  it('finds none in what a program wrote', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(repeatedKeys(JSON.stringify(value))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it('makes a file refused', () => {
    const text = JSON.stringify(gateFile()).replace('"copies":2', '"copies":2,"copies":3');
    expect(readProject(text).issues).toMatchObject([{ code: 'repeated-key', path: 'roofs[0].copies' }]);
  });
});

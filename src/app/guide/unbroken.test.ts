import { expect, test } from 'vitest';
import { unbroken } from './unbroken.ts';

test('a length keeps its number, its fraction and its unit on one line, and may part before its brackets', () => {
  const parts = (text: string): readonly string[] => unbroken(text).split(' ');
  expect(parts('66.7 mm (2 5/8 in)')).toEqual(['66.7\u00a0mm', '(2\u00a05/8\u00a0in)']);
  expect(parts('4 hips, 12 in')).toEqual(['4', 'hips,', '12\u00a0in']);
  expect(parts('304.8 mm × 1 11/16 in')).toEqual(['304.8\u00a0mm', '×', '1\u00a011/16\u00a0in']);
});

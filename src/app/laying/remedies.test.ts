import { expect, it } from 'vitest';
import type { Issue } from '../../core/issue.ts';
import type { Project } from '../../core/project/project.ts';
import { remediesFor } from './remedies.ts';

const project = {
  stock: [
    { id: 'offcut', name: 'Offcut', count: 1 },
    { id: 'slate', name: 'Slate', count: 3 },
    { id: 'any', name: 'Any', count: null },
  ],
  roofs: [{ layers: [{ as: 'cover', stock: ['offcut', 'slate'], pieces: 'one-piece' }] }],
} as unknown as Project;
const issue = (code: string, numbers: Issue['numbers'] = {}): Issue => ({
  level: 'error',
  code,
  path: 'roofs[0].layers[0]',
  message: '',
  numbers,
});
const file = { stock: [{ id: 'offcut' }, { id: 'slate', count: 3 }], roofs: [{ layers: [{ pieces: 'one-piece' }] }] };

it('takes as many sheets more of the last paper as are missing', () => {
  const [remedy] = remediesFor(issue('stock-too-small', { moreCount: 2 }), project);
  expect(remedy?.title).toBe('2 sheets more of Slate');
  expect(remedy?.change(file)).toMatchObject({ stock: [{ id: 'offcut' }, { count: 5 }] });
});

it('cuts a layer in other pieces than it is cut in', () => {
  const found = remediesFor(issue('piece-too-large'), project);
  expect(found.map(({ title }) => title)).toEqual(['As few pieces as fit', 'A piece for each side']);
  expect(remediesFor(issue('piece-too-large', { foldsCount: 0 }), project)).toEqual([]);
  expect(found[1]?.change(file)).toMatchObject({ roofs: [{ layers: [{ pieces: 'per-panel' }] }] });
});

it('has no key against anything else', () => {
  expect(remediesFor(issue('print-askew'), project)).toEqual([]);
  expect(remediesFor({ ...issue('piece-too-large'), path: 'roofs[0].seat' }, project)).toEqual([]);
});

import { expect, test } from 'vitest';
import { produceSample } from '../../io/testing/samples.ts';
import { makeSetOut } from './make-set-out.ts';
import { noRoomSentence } from './words.ts';

const notesOf = (sample: string): readonly string[] => {
  const production = produceSample(sample);
  return production.sheets.flatMap((sheet) => makeSetOut(production, sheet).strips.flatMap(({ notes }) => notes));
};

test('the figures of a compass name their piece where a strip has several', () => {
  const notes = notesOf('round-yard').filter((note) => note.includes('sector'));
  expect(notes.length).toBeGreaterThan(3);
  expect(notes).toContainEqual(expect.stringMatching(/^Round lookout: Whole roof\. A sector of /));
});

test('a piece that has its strip to itself is not named again', () => {
  expect(notesOf('harbour-gate')).toContainEqual(expect.stringMatching(/^8 slopes round one peak\./));
});

test('pieces that find no room on a sheet are told once', () => {
  const production = produceSample('salt-store');
  const issues = production.sheets.flatMap((sheet) => makeSetOut(production, sheet, { ruler: '1/8in' }).issues);
  const told = issues.filter(({ code }) => code === 'set-out-crowded');
  expect(told.map(({ message, numbers }) => [message, numbers])).toEqual([
    [expect.stringMatching(/2 pieces find no room.* Salt store: South; North\. Where/), { pieces: 2 }],
  ]);
});

test('pieces without room are told roof by roof, what is there several times with its count', () => {
  const pieces = [
    ['Net loft', 'Broach, left'],
    ['Weaving shed', 'East wall 3'],
    ['Net loft', 'North slope'],
    ['Net loft', 'Broach, left'],
  ] as const;
  expect(noRoomSentence(pieces)).toBe(
    'Once all marks are rounded, 4 pieces find no room beside their neighbours. Net loft: 2 × Broach, left; North slope. Weaving shed: East wall 3.',
  );
  expect(noRoomSentence(pieces.slice(0, 1))).toBe(
    'Once all marks are rounded, one piece finds no room beside its neighbours. Net loft: Broach, left.',
  );
});

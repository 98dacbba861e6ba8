import { expect, test } from 'vitest';
import { produceSample } from '../../io/testing/samples.ts';
import { makeSetOut } from './make-set-out.ts';

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

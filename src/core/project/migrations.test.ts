import { describe, expect, it } from 'vitest';
import { checkHistory, type FileHistory, fileHistory, type Migration, migrateFile } from './migrations.ts';

// Steps of a made-up format: they show that the machinery works, and mean nothing for project files.
const namesToTitles: Migration = {
  from: 1,
  name: 'names-to-titles',
  up: ({ name, ...rest }) => ({ ...rest, version: 2, title: name }),
  example: { before: { version: 1, name: 'Quay', size: 4 }, after: { version: 2, title: 'Quay', size: 4 } },
};
const sizesInPairs: Migration = {
  from: 2,
  name: 'sizes-in-pairs',
  up: ({ size, ...rest }) => ({ ...rest, version: 3, sizes: [size, size] }),
  example: { before: { version: 2, title: 'Mole', size: 7 }, after: { version: 3, title: 'Mole', sizes: [7, 7] } },
};
const madeUp: FileHistory = { current: 3, migrations: [sizesInPairs, namesToTitles] };

/** What every migration has to show. */
function exercise({ migrations }: FileHistory): number {
  for (const { up, example } of migrations) {
    const before = structuredClone(example.before);
    expect(up(example.before)).toEqual(example.after);
    expect(example.before).toEqual(before);
  }
  return migrations.length;
}

describe('the history of the project file', () => {
  it('leads from every version to the current one, each step exercised', () => {
    expect(checkHistory(fileHistory)).toEqual([]);
    expect(exercise(fileHistory)).toBe(fileHistory.current - 1);
  });
});

describe('migrations', () => {
  it('are exercised by their examples', () => {
    expect(checkHistory(madeUp)).toEqual([]);
    expect(exercise(madeUp)).toBe(2);
  });

  it('run in order from the version found, and a note names them', () => {
    const result = migrateFile({ version: 1, name: 'Slip', size: 9 }, madeUp);
    expect(result.ok && result.value).toEqual({ version: 3, title: 'Slip', sizes: [9, 9] });
    expect(result.issues).toMatchObject([{ level: 'note', code: 'migrated', path: 'version' }]);
    expect(result.issues[0]?.message).toBe(
      'Read as version 3; the file is version 1 (names-to-titles, sizes-in-pairs).',
    );
  });

  it('start where the file stands', () => {
    const result = migrateFile({ version: 2, title: 'Slip', size: 5 }, madeUp);
    expect(result.ok && result.value).toEqual({ version: 3, title: 'Slip', sizes: [5, 5] });
    expect(result.issues[0]?.message).toContain('(sizes-in-pairs)');
  });

  it('leave a file of the current version as it is', () => {
    const file = { version: 3, title: 'Slip' };
    const result = migrateFile(file, madeUp);
    expect(result.ok && result.value).toBe(file);
    expect(result.issues).toEqual([]);
  });

  it.each([
    [4, 'version-newer'],
    [0, 'version-unknown'],
    [1.5, 'version-unknown'],
    ['2', 'version-unknown'],
    [undefined, 'version-unknown'],
  ])('refuse version %s as %s', (version, code) => {
    const result = migrateFile({ version }, madeUp);
    expect(result.ok).toBe(false);
    expect(result.issues[0]?.code).toBe(code);
  });

  it.each<[string, FileHistory, string]>([
    ['a gap', { current: 3, migrations: [sizesInPairs] }, '0 migrations from version 1'],
    ['two ways', { current: 2, migrations: [namesToTitles, { ...namesToTitles, name: 'again' }] }, '2 migrations'],
    ['a step too far', { current: 2, migrations: madeUp.migrations }, 'sizes-in-pairs leads nowhere'],
    [
      'one name twice',
      { current: 3, migrations: [namesToTitles, { ...sizesInPairs, name: 'names-to-titles' }] },
      'twice',
    ],
    ['no proper name', { current: 2, migrations: [{ ...namesToTitles, name: 'Step 1' }] }, 'not a kebab-case name'],
    [
      'an example of another version',
      { current: 2, migrations: [{ ...namesToTitles, example: sizesInPairs.example }] },
      'the example before is not version 1',
    ],
  ])('are found wrong with %s', (_, history, wrong) => {
    expect(checkHistory(history).join('; ')).toContain(wrong);
  });
});

import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { BadInput } from './terminal.ts';
import { writeFolder } from './write-folder.ts';

let place = '';
beforeEach(async () => {
  place = await mkdtemp(join(tmpdir(), 'spirewright-folder-'));
});
afterEach(async () => {
  await rm(place, { recursive: true });
});

const report = { name: 'report.json', data: '{"format":"spirewright-report"}' };
const write = async (folder: string, ...files: { name: string; data: string }[]): Promise<void> =>
  await writeFolder(join(place, folder), folder, files);

describe('writeFolder', () => {
  it('writes the files, making folders on the way, and leaves nothing else', async () => {
    await write('a/b/made', report, { name: 'x.svg', data: '<svg/>' });
    expect(await readdir(join(place, 'a/b'))).toEqual(['made']);
    expect((await readdir(join(place, 'a/b/made'))).sort()).toEqual(['report.json', 'x.svg']);
    expect(await readFile(join(place, 'a/b/made/x.svg'), 'utf8')).toBe('<svg/>');
  });

  it('fills an empty folder, and replaces what it wrote before', async () => {
    await mkdir(join(place, 'made'));
    await write('made', report, { name: 'x.svg', data: 'old' });
    await write('made', report, { name: 'x.svg', data: 'new' });
    expect(await readFile(join(place, 'made/x.svg'), 'utf8')).toBe('new');
    expect(await readdir(place)).toEqual(['made']);
  });

  it.each([
    ['a file of the maker', { 'notes.txt': 'mine' }],
    ['another report', { 'report.json': '{"format":"other"}' }],
    ['a report that is none', { 'report.json': 'gone' }],
    ['a file beside our report', { 'report.json': report.data, 'photo.jpg': 'mine' }],
  ])('never touches a folder with %s', async (_, present) => {
    await mkdir(join(place, 'made'));
    for (const [name, text] of Object.entries(present)) await writeFile(join(place, 'made', name), text);
    await expect(write('made', report)).rejects.toBeInstanceOf(BadInput);
    expect(await readdir(place)).toEqual(['made']);
    for (const [name, text] of Object.entries(present))
      expect(await readFile(join(place, 'made', name), 'utf8')).toBe(text);
  });

  it('leaves nothing behind when a file cannot be written', async () => {
    const bad = { name: 'no/such/folder.svg', data: '' };
    await expect(write('deep/made', report, bad)).rejects.toThrow('Nothing was written.');
    await expect(write('made', report, bad)).rejects.toThrow('Nothing was written.');
    expect(await readdir(place)).toEqual([]);
  });

  it('says so where a file is in the way', async () => {
    await writeFile(join(place, 'made'), 'a file');
    await expect(write('made', report)).rejects.toThrow('made: ');
    await expect(write('made/deeper', report)).rejects.toThrow('made/deeper: ');
    expect(await readFile(join(place, 'made'), 'utf8')).toBe('a file');
  });
});

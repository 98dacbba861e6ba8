import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { withHelp } from '../scripts/readme-help.ts';

const read = (name: string): string => readFileSync(fileURLToPath(new URL(`../${name}`, import.meta.url)), 'utf8');
const readme = read('README.md');

describe('the README', () => {
  it('holds the help of every command as the program prints it (node scripts/run.mjs scripts/readme-help.ts)', () => {
    expect(readme).toBe(withHelp(readme));
    expect(readme).toContain('--out DIR');
  });

  it.each(['README.md', 'DEVELOPERS.md'])('%s links and points only to files that are there', (page) => {
    const text = read(page);
    const links = [...text.matchAll(/\]\((?!https?:)([^)#]+)\)/g)].map(([, path = '']) => path);
    const samples = [...text.matchAll(/shared\/samples\/[\w-]+\.roofs\.json/g)].map(([path]) => path);
    const folders = [...text.matchAll(/`((?:src|tests|scripts|shared)\/[\w./-]+)`/g)].map(([, path = '']) => path);
    const missing = [...links, ...samples, ...folders].filter(
      (path) => !existsSync(fileURLToPath(new URL(`../${path}`, import.meta.url))),
    );
    expect(missing).toEqual([]);
  });

  it('names only commands that package.json has', () => {
    const { scripts } = JSON.parse(read('package.json'));
    const named = [...(readme + read('DEVELOPERS.md')).matchAll(/npm (?:run )?([a-z:]+)/g)].map(
      ([, name = '']) => name,
    );
    expect(named.filter((name) => !(name in scripts) && !['ci'].includes(name))).toEqual([]);
  });
});

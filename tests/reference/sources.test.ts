import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { publishedRoofs } from './published-roofs.ts';
import { roundDevelopments } from './round-developments.ts';

const folder = fileURLToPath(new URL('.', import.meta.url));
const rows = [...readFileSync(`${folder}README.md`, 'utf8').matchAll(/^\| ([^|]+) \| [^|]+ \| (.+) \|$/gm)].slice(2);
const sources = rows.map(([, source = '', files = '']) => ({
  source,
  files: [...files.matchAll(/`([^`]+)`/g)].map(([, file = '']) => file),
}));

test.each([...publishedRoofs, ...roundDevelopments].map(({ name, source }) => [name, source] as const))(
  'the source of %s is in the list of sources',
  (_, source) => {
    expect(sources.filter((one) => source.startsWith(one.source))).toHaveLength(1);
  },
);

test('the list names the files that are there, and each of them that holds published figures', () => {
  const named = new Set(sources.flatMap(({ files }) => files));
  const there = readdirSync(folder).filter((name) => name.endsWith('.ts'));
  expect([...named].filter((name) => !there.includes(name))).toEqual([]);
  const own = ['board.test.ts', 'common-practice.test.ts', 'jacks.test.ts', 'set-out.test.ts', 'sources.test.ts'];
  expect(there.filter((name) => !named.has(name) && !own.includes(name))).toEqual([]);
});

test('every word of a source stands in the files it is said to be in', () => {
  // The first words are enough: data say page and example too, and a name may break over two lines of a comment.
  const missing = sources.flatMap(({ source, files }) => {
    const word = source.split(/[ ,]/).find((one) => one.length > 4) ?? source;
    return files
      .filter(
        (file) =>
          !readFileSync(folder + file, 'utf8')
            .toLowerCase()
            .includes(word.toLowerCase()),
      )
      .map((file) => `${word} in ${file}`);
  });
  expect(missing).toEqual([]);
});

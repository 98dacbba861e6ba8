import { describe, expect, it } from 'vitest';
import { kinds } from '../roofs/catalogue.ts';
import { readProject } from './read-project.ts';
import { writeProject } from './write-project.ts';

const texts = import.meta.glob<string>('../../../shared/samples/*.roofs.json', {
  query: '?raw',
  import: 'default',
  eager: true,
});
const samples = Object.entries(texts).map(([path, text]) => [path.replace(/^.*\//, ''), text] as const);

describe('the sample projects', () => {
  it.each(samples)('%s reads without a word and is kept as typed', (_, text) => {
    const read = readProject(text);
    expect(read.issues).toEqual([]);
    if (!read.ok) return;
    expect(JSON.parse(writeProject(read.value.file))).toEqual(JSON.parse(text));
  });

  it('have a roof of every kind between them, in inches and in millimetres', () => {
    const projects = samples.flatMap(([, text]) => {
      const read = readProject(text);
      return read.ok ? [read.value.project] : [];
    });
    const found = projects.flatMap(({ roofs }) => roofs.map((roof) => roof.kind));
    expect(new Set(found)).toEqual(new Set(kinds.map((kind) => kind.id)));
    expect(new Set(projects.map(({ units }) => units))).toEqual(new Set(['in', 'mm']));
  });
});

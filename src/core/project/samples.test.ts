import { describe, expect, it } from 'vitest';
import { kinds } from '../roofs/catalogue.ts';
import { writeProject } from './read-known.ts';
import { readProject } from './read-project.ts';

const texts = import.meta.glob<string>('../../../shared/samples/*.roofs.json', {
  query: '?raw',
  import: 'default',
  eager: true,
});
const samples = Object.entries(texts).map(([path, text]) => [path.replace(/^.*\//, ''), text] as const);

describe('the sample projects', () => {
  it('show inches and millimetres', () => {
    const units = samples.map(([, text]) => (JSON.parse(text) as { units: string }).units);
    expect(units.toSorted()).toEqual(['in', 'mm']);
  });

  it.each(samples)('%s reads without a word and is kept as typed', (_, text) => {
    const read = readProject(text);
    expect(read.issues).toEqual([]);
    if (!read.ok) return;
    expect(JSON.parse(writeProject(read.value.file))).toEqual(JSON.parse(text));
  });

  it.each(samples)('%s has a roof of every kind', (_, text) => {
    const read = readProject(text);
    const found = read.ok ? read.value.project.roofs.map((roof) => roof.kind) : [];
    expect(new Set(found)).toEqual(new Set(kinds.map((kind) => kind.id)));
  });
});

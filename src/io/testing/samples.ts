import { readFileSync } from 'node:fs';
import { type Production, produce } from '../../core/pipeline.ts';
import type { PageSpec } from '../../core/project/project.ts';
import { readProject } from '../../core/project/read-project.ts';

const folder = new URL('../../../', import.meta.url);

export const sampleNames = ['harbour-gate', 'chapel-hill'] as const;

export const sampleFont = (): Uint8Array =>
  new Uint8Array(readFileSync(new URL('assets/fonts/ibm-plex-sans-regular.ttf', folder)));

/** A sample project, made; on another page where one is given. */
export const produceSample = (name: string, page?: PageSpec): Production => {
  const read = readProject(readFileSync(new URL(`shared/samples/${name}.roofs.json`, folder), 'utf8'));
  if (!read.ok) throw new Error(`${name}: ${read.issues.map((issue) => issue.message).join(' ')}`);
  const { project } = read.value;
  return produce(page === undefined ? project : { ...project, page });
};

export const pages: Readonly<Record<'a4' | 'a3' | 'a6' | 'a7' | 'letter' | 'square', PageSpec>> = {
  a4: { name: 'A4', width: 210, height: 297, margin: 6, overlap: 10 },
  a3: { name: 'A3', width: 297, height: 420, margin: 6, overlap: 10 },
  a6: { name: 'A6', width: 105, height: 148, margin: 6, overlap: 10 },
  a7: { name: 'A7', width: 74, height: 105, margin: 6, overlap: 10 },
  letter: { name: 'Letter', width: 215.9, height: 279.4, margin: 6.35, overlap: 10 },
  square: { name: '12x12in', width: 304.8, height: 304.8, margin: 6, overlap: 10 },
};

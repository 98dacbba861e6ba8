import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { withWays } from '../core/guide/ways-on.ts';
import type { Issue } from '../core/issue.ts';
import type { LayoutEffort } from '../core/layout/effort.ts';
import { type Production, produce } from '../core/pipeline.ts';
import { readProject } from '../core/project/read-project.ts';
import { fileTrouble } from './file-trouble.ts';
import type { ProduceOptions } from './read-words.ts';
import { BadInput, type Terminal } from './terminal.ts';

/** An issue on one line, with the place it is about. */
export const issueLine = (file: string, { path, message, remedy }: Issue): string =>
  [`${[file, path].filter((part) => part !== '').join(': ')}: ${message}`, remedy]
    .filter((part) => part !== undefined)
    .join(' ')
    .replaceAll(/\s*\n\s*/g, ' ');

/**
 * Reads a project file and works out everything that follows from it.
 * @throws BadInput where the file cannot be read, is no project, or asks for a roof that cannot be.
 */
export async function loadProduction(
  file: string,
  { cwd, now }: Terminal,
  {
    seed,
    rounds = null,
    effort = null,
  }: { readonly seed: number | null } & Partial<Pick<ProduceOptions, 'rounds' | 'effort'>>,
): Promise<Production> {
  const reading = readProject(await readText(file, cwd));
  if (!reading.ok) throw new BadInput(reading.issues.map((issue) => issueLine(file, issue)));
  const { project } = reading.value;
  const layout: LayoutEffort | 'usual' =
    effort === null ? (rounds === null ? 'usual' : { rounds }) : byClock(effort, now);
  const made = produce(seed === null ? project : { ...project, seed }, {
    ...(rounds === null ? {} : { rounds }),
    layout,
  });
  const production = withWays({ ...made, issues: [...reading.issues, ...made.issues] });
  const impossible = production.roofs.filter(({ made }) => made === null).flatMap(({ issues }) => issues);
  const errors = impossible.filter(({ level }) => level === 'error');
  if (errors.length > 0) throw new BadInput(errors.map((issue) => issueLine(file, issue)));
  return production;
}

/** A layout is searched for until so many seconds have passed since now. */
function byClock(seconds: number, now: () => number): LayoutEffort {
  const begun = now();
  return { rounds: Number.POSITIVE_INFINITY, share: () => (now() - begun) / (1000 * seconds) };
}

async function readText(file: string, cwd: string): Promise<string> {
  try {
    return await readFile(resolve(cwd, file), 'utf8');
  } catch (error) {
    throw new BadInput([`${file}: ${fileTrouble(error)}`]);
  }
}

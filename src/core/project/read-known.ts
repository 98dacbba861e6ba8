import { fail, hasError, type Result, succeed } from '../issue.ts';
import { kinds } from '../roofs/catalogue.ts';
import type { Project } from './project.ts';
import type { ProjectFile } from './project-file.ts';
import { resolveFile } from './resolve-project.ts';

export interface ReadProject {
  /** As typed, with its keys in their order. */
  readonly file: ProjectFile;
  readonly project: Project;
}

/**
 * What a file says whose structure is known to be right, as that of a sample or of one read before: only its meaning is
 * checked. Anything from outside goes through `readProject`.
 */
export function resolveKnown(file: Readonly<Record<string, unknown>>): Result<ReadProject> {
  const { project, issues } = resolveFile(file, kinds);
  return hasError(issues) ? fail(...issues) : succeed({ file: file as unknown as ProjectFile, project }, issues);
}

/** The text of a project file: two spaces deep, keys in their order, texts as typed. */
export const writeProject = (file: ProjectFile): string => `${JSON.stringify(file, null, 2)}\n`;

import type { Project } from './project.ts';
import type { ProjectFile } from './project-file.ts';

export interface ReadProject {
  /** As typed, with its keys in their order. */
  readonly file: ProjectFile;
  readonly project: Project;
}

/** The text of a project file: two spaces deep, keys in their order, texts as typed. */
export const writeProject = (file: ProjectFile): string => `${JSON.stringify(file, null, 2)}\n`;

import { fail, type Result, succeed } from '../core/issue.ts';
import type { Project } from '../core/project/project.ts';
import type { ReadProject } from '../core/project/write-project.ts';
import { type FirstProject, firstProject } from './first-project.ts';
import type { JsonObject } from './state/file-path.ts';

/** What the page begins with, read while it was built. */
export const first: FirstProject = firstProject(navigator.language);

type Resolve = (file: JsonObject) => Result<{ readonly project: Project }>;

let resolve: Resolve | null = null;
let asked: Promise<typeof import('../core/project/read-project.ts')> | null = null;

/** The reader of files comes after the first table has been laid; nothing on the bench can be changed before. */
export const loadReader = (): NonNullable<typeof asked> => {
  asked ??= import('../core/project/read-project.ts').then((reader) => {
    resolve = reader.resolveProject;
    return reader;
  });
  return asked;
};

export const resolveTyped: Resolve = (file) => {
  if (resolve !== null) return resolve(file);
  return file === first.file ? succeed({ project: first.project }, first.issues) : fail();
};

/** Makes a change that has to be read: at once where the reader is there. */
export const whenReadable = (change: () => void): void => {
  if (resolve !== null) change();
  else void loadReader().then(change);
};

/** Reads the text of a file from outside. */
export const readText = async (text: string): Promise<Result<ReadProject>> => (await loadReader()).readProject(text);

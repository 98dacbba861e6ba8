import type { Result } from '../core/issue.ts';
import { type ReadProject, resolveKnown } from '../core/project/read-known.ts';
import type { JsonObject } from './state/file-path.ts';

/**
 * The reader that checks a file from top to bottom comes after the first paint: the page begins with a project of its own,
 * and the reader is there by the time a hand reaches for a field or a file.
 */
const wholeReader = import('../core/project/read-project.ts');

let resolve: (file: JsonObject) => Result<ReadProject> = resolveKnown;
void wholeReader.then((reader) => {
  resolve = reader.resolveProject;
});

export const resolveTyped = (file: JsonObject): Result<ReadProject> => resolve(file);

/** Reads the text of a file from outside. */
export const readText = async (text: string): Promise<Result<ReadProject>> => (await wholeReader).readProject(text);

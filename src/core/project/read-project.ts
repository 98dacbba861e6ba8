import { fail, hasError, type Result, succeed } from '../issue.ts';
import { kinds } from '../roofs/catalogue.ts';
import { buildFileSchema } from './file-schema.ts';
import { fileHistory, migrateFile } from './migrations.ts';
import { isRecord } from './path.ts';
import type { ProjectFile } from './project-file.ts';
import { repeatedKeys } from './repeated-keys.ts';
import { resolveFile } from './resolve-project.ts';
import { projectIssue, showFound } from './sentences.ts';
import { structureIssues } from './structure-issues.ts';
import type { ReadProject } from './write-project.ts';

const FORMAT = 'spirewright-project';

const fileSchema = buildFileSchema(kinds);

/** Reads the text of a project file. Fails with every issue found. */
export function readProject(text: string): Result<ReadProject> {
  let file: unknown;
  try {
    file = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return fail(projectIssue('not-json', '', { found: whereBroken(text, error) }));
  }
  const repeated = repeatedKeys(text).map((path) => projectIssue('repeated-key', path));
  const result = resolveProject(file);
  return repeated.length > 0 ? fail(...repeated, ...result.issues) : result;
}

/** Checks a project file that has been parsed, in any version, and works out what it says. Changes nothing in it. */
export function resolveProject(file: unknown): Result<ReadProject> {
  if (!isRecord(file) || file['format'] !== FORMAT) {
    const found = showFound(isRecord(file) ? file['format'] : file);
    return fail(projectIssue('not-a-project', isRecord(file) ? 'format' : '', { found }));
  }
  const migrated = migrateFile(file, fileHistory);
  if (!migrated.ok) return migrated;
  const structure = fileSchema.safeParse(migrated.value);
  const { project, issues: meaning } = resolveFile(migrated.value, kinds);
  const issues = [
    ...migrated.issues,
    ...(structure.success ? [] : structureIssues(structure.error.issues, migrated.value)),
    ...meaning,
  ];
  if (hasError(issues)) return fail(...issues);
  return succeed({ file: migrated.value as unknown as ProjectFile, project }, issues);
}

/** ` at line 3, column 7`, where the engine says where it stopped. */
function whereBroken(text: string, error: unknown): string {
  const position = /position (\d+)/.exec(error instanceof Error ? error.message : '')?.[1];
  if (position === undefined) return '';
  const before = text.slice(0, Number(position)).split('\n');
  return ` at line ${before.length}, column ${(before[before.length - 1] ?? '').length + 1}`;
}

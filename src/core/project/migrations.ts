import { fail, type Result, succeed } from '../issue.ts';
import { projectIssue, showFound } from './sentences.ts';

type JsonObject = Readonly<Record<string, unknown>>;

/** One step from a version of the project file to the next. */
export interface Migration {
  /** The version it starts from; it leads to the next whole number. */
  readonly from: number;
  /** Kebab-case, tells what changed, as `flaps-per-layer`. */
  readonly name: string;
  /** The file in the next version, its `version` included. Changes nothing in what it is given. */
  readonly up: (file: JsonObject) => JsonObject;
  /** A whole file before and after; the tests run it. */
  readonly example: { readonly before: JsonObject; readonly after: JsonObject };
}

export interface FileHistory {
  readonly current: number;
  readonly migrations: readonly Migration[];
}

/** The history of the project file: version 1 is the first, so nothing leads to it yet. */
export const fileHistory: FileHistory = { current: 1, migrations: [] };

/** The file in the current version; a note names the steps taken. Fails on versions that cannot be read. */
export function migrateFile(file: JsonObject, history: FileHistory = fileHistory): Result<JsonObject> {
  const { current, migrations } = history;
  const found = file['version'];
  if (found === current) return succeed(file);
  const allowed = Array.from({ length: current }, (_, i) => String(i + 1)).join(', ');
  if (typeof found !== 'number' || !Number.isInteger(found) || found < 1) {
    return fail(projectIssue('version-unknown', 'version', { found: showFound(found), allowed }));
  }
  if (found > current) return fail(projectIssue('version-newer', 'version', { found: String(found), allowed }));
  const steps = migrations.filter((step) => step.from >= found).toSorted((a, b) => a.from - b.from);
  const migrated = steps.reduce((before, step) => step.up(before), file);
  const label = steps.map((step) => step.name).join(', ');
  const note = projectIssue('migrated', 'version', { found: String(found), allowed: String(current), label });
  return succeed(migrated, [note]);
}

/** What is wrong with a history; empty where every version leads to the current one in named steps. */
export function checkHistory({ current, migrations }: FileHistory): readonly string[] {
  const wrong: string[] = [];
  for (let version = 1; version < current; version++) {
    const steps = migrations.filter((step) => step.from === version);
    if (steps.length !== 1) wrong.push(`${steps.length} migrations from version ${version}`);
  }
  const names = new Set<string>();
  for (const { from, name, example } of migrations) {
    if (from < 1 || from >= current) wrong.push(`${name} leads nowhere: it starts from version ${from}`);
    if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(name)) wrong.push(`${name} is not a kebab-case name`);
    if (names.has(name)) wrong.push(`${name} is named twice`);
    names.add(name);
    if (example.before['version'] !== from) wrong.push(`${name}: the example before is not version ${from}`);
    if (example.after['version'] !== from + 1) wrong.push(`${name}: the example after is not version ${from + 1}`);
  }
  return wrong;
}

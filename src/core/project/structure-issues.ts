import type { Issue } from '../issue.ts';
import { nearMiss } from './near-miss.ts';
import { formatPath, isRecord, type PathPart, valueAt } from './path.ts';
import { projectIssue, showFound } from './sentences.ts';

/** What the schema found, as far as sentences need it. */
export interface StructureFinding {
  readonly code?: string | undefined;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly keys?: readonly string[];
  readonly errors?: readonly (readonly StructureFinding[])[];
}

/** The schema's findings about `file` as issues with our sentences. */
export function structureIssues(findings: readonly StructureFinding[], file: unknown): readonly Issue[] {
  return findings.flatMap((finding) => issuesOf(finding, file, []));
}

function issuesOf(finding: StructureFinding, file: unknown, before: readonly PathPart[]): readonly Issue[] {
  const path = [...before, ...finding.path.map((part) => (typeof part === 'number' ? part : String(part)))];
  const found = valueAt(file, path);
  if (finding.code === 'unrecognized_keys') {
    return (finding.keys ?? []).map((key) => unknownKey(path, key, finding.message));
  }
  if (finding.code === 'invalid_union') {
    // The form that was meant is the one that gets further than the outermost type.
    const meantForm = finding.errors?.find(
      (errors) => !errors.some((inner) => inner.path.length === 0 && isType(inner)),
    );
    if (meantForm && (isRecord(found) || Array.isArray(found))) {
      return meantForm.flatMap((inner) => issuesOf(inner, file, path));
    }
  }
  return [wrongValue(path, found, finding)];
}

const isType = (finding: StructureFinding): boolean =>
  finding.code === 'invalid_type' || finding.code === 'invalid_union';

function unknownKey(path: readonly PathPart[], key: string, allowed: string): Issue {
  const at = [...path, key];
  const suggestion = nearMiss(key, allowed.split(', '));
  return projectIssue('unknown-key', formatPath(at), { found: JSON.stringify(key), allowed, suggestion });
}

function wrongValue(path: readonly PathPart[], found: unknown, finding: StructureFinding): Issue {
  const at = formatPath(path);
  const key = path[path.length - 1];
  const allowed = finding.message;
  if (found === undefined) {
    return projectIssue('missing-key', at, { label: typeof key === 'string' ? `"${key}"` : 'An entry', allowed });
  }
  const choices = [...allowed.matchAll(/"([^"]+)"/g)].map((match) => match[1] ?? '');
  const meant = typeof found === 'string' ? nearMiss(found, choices) : undefined;
  const suggestion = meant && `"${meant}"`;
  return projectIssue('wrong-type', at, { found: showFound(found), allowed, suggestion });
}

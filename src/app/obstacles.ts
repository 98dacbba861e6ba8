import type { Issue } from '../core/issue.ts';
import { makeRoof } from '../core/make-roof.ts';
import { resolveTyped } from './load-workshop.ts';
import type { JsonObject } from './state/file-path.ts';

/** What keeps a roof of this file from being made; null where it can be made. */
export const obstacles = (file: JsonObject, index: number): readonly Issue[] | null => {
  const resolved = resolveTyped(file);
  if (!resolved.ok) return resolved.issues;
  const { project } = resolved.value;
  const spec = project.roofs[index];
  if (spec === undefined) return [];
  const { made, issues } = makeRoof(spec, project, index);
  return made === null ? issues : null;
};

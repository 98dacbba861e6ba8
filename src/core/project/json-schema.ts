import * as z from 'zod/mini';
import type { RoofDefinition } from '../roofs/definition.ts';
import { buildFileSchema } from './file-schema.ts';

/** The JSON Schema of the project file (draft 2020-12), as the text of `shared/project.schema.json`. */
export function writeJsonSchema(kinds: readonly RoofDefinition[]): string {
  const schema = z.toJSONSchema(buildFileSchema(kinds), { io: 'input', reused: 'inline' });
  return `${JSON.stringify({ title: 'Spirewright project', ...schema }, null, 2)}\n`;
}

import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { writeJsonSchema } from '../src/core/project/json-schema.ts';
import { kinds } from '../src/core/roofs/catalogue.ts';

/** Writes `shared/project.schema.json` anew from the schema in the code: `node scripts/run.mjs scripts/write-schema.ts`. */
export async function main(): Promise<number> {
  writeFileSync(fileURLToPath(new URL('../shared/project.schema.json', import.meta.url)), writeJsonSchema(kinds));
  return 0;
}

import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { kindsPages } from './kinds-page.ts';
import { roofShapesPage } from './roof-shapes-page.ts';

const folder = fileURLToPath(new URL('../../docs', import.meta.url));

/** Writes the pages on kinds and on names of roof shapes anew from the definitions: `node scripts/run.mjs scripts/docs/write-docs.ts`. */
export async function main(): Promise<number> {
  rmSync(join(folder, 'kinds'), { recursive: true, force: true });
  for (const [path, text] of [...kindsPages(), ['roof-shapes.md', roofShapesPage()] as const]) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return 0;
}

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('../shared/samples', import.meta.url));

export interface SampleFile {
  /** File name without its ending. */
  readonly name: string;
  readonly path: string;
  readonly text: string;
}

/** The sample projects that come with the product, by file name. */
export const sampleFiles = (): readonly SampleFile[] =>
  readdirSync(folder)
    .filter((file) => file.endsWith('.roofs.json'))
    .sort()
    .map((file) => {
      const path = join(folder, file);
      return { name: file.replace(/\.roofs\.json$/, ''), path, text: readFileSync(path, 'utf8') };
    });

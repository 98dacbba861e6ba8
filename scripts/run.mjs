/** Runs a TypeScript file of this repository: `node scripts/run.mjs scripts/write-schema.ts`. It exports `main`. */
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runnerImport } from 'vite';

const root = fileURLToPath(new URL('..', import.meta.url));
const [file = '', ...words] = process.argv.slice(2);
const { module } = await runnerImport(resolve(root, file), { root, configFile: false, logLevel: 'error' });
const { main } = /** @type {{ main: (words: readonly string[]) => Promise<number> }} */ (module);
process.exitCode = await main(words);

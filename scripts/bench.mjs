/** Runs the benches on built sources, as the page and the command line run them: `npm run bench -- nets`. */
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';

const root = fileURLToPath(new URL('..', import.meta.url));
const outDir = join(root, 'node_modules', '.cache', 'spirewright-bench');

/** Files are found from where a source lies, not from where its built form does. */
const sourceUrls = {
  name: 'source-urls',
  /** @param {string} code @param {string} id */
  transform: (code, id) => code.replaceAll('import.meta.url', JSON.stringify(pathToFileURL(id).href)),
};

await build({
  root,
  configFile: false,
  logLevel: 'error',
  plugins: [sourceUrls],
  build: { ssr: 'scripts/bench/bench.ts', outDir, target: 'node20', emptyOutDir: true, minify: false },
});
/** @type {{ main: (words: readonly string[]) => Promise<number> }} */
const { main } = await import(pathToFileURL(join(outDir, 'bench.js')).href);
process.exitCode = await main(process.argv.slice(2));

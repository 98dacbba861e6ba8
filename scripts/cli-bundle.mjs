/**
 * The command line as plain JavaScript. It is bundled once for each state of its sources, kept below node_modules/.cache
 * and found again by a key of their names, sizes and times: later starts take a fraction of a second.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const cache = join(root, 'node_modules', '.cache', 'spirewright');

/** @param {string} path @returns {string[]} */
const filesBelow = (path) =>
  statSync(path).isDirectory()
    ? readdirSync(path)
        .sort()
        .flatMap((name) => filesBelow(join(path, name)))
    : [path];

const sourceKey = () => {
  const sources = ['src/core', 'src/io', 'src/cli', 'shared', 'package-lock.json'].map((path) => join(root, path));
  const hash = createHash('sha256');
  for (const file of sources.filter((path) => existsSync(path)).flatMap(filesBelow)) {
    if (/\.test\.tsx?$/.test(file)) continue;
    const { size, mtimeMs } = statSync(file);
    hash.update(`${relative(root, file)} ${size} ${mtimeMs}\n`);
  }
  return hash.digest('hex').slice(0, 16);
};

/** @param {string} folder */
const bundleInto = async (folder) => {
  const { build } = await import('vite');
  await build({
    root,
    configFile: false,
    logLevel: 'error',
    build: { ssr: 'src/cli/main.ts', outDir: folder, target: 'node20', emptyOutDir: false, minify: false },
  });
};

const DAY = 24 * 60 * 60 * 1000;

/** Bundles of older sources; one in use by a run that still goes on is never that old. */
const clearOld = () => {
  for (const name of readdirSync(cache)) {
    const path = join(cache, name);
    if (Date.now() - statSync(path).mtimeMs > DAY) rmSync(path, { recursive: true, force: true });
  }
};

/**
 * @typedef {import('../src/cli/terminal.ts').Terminal} Terminal
 * @returns {Promise<{ run: (words: readonly string[], terminal: Terminal) => Promise<number> }>}
 */
export const loadCommandLine = async () => {
  const folder = join(cache, sourceKey());
  const main = join(folder, 'main.js');
  if (existsSync(main)) return await import(pathToFileURL(main).href);
  mkdirSync(cache, { recursive: true });
  const fresh = mkdtempSync(join(cache, 'new-'));
  try {
    await bundleInto(fresh);
    clearOld();
    renameSync(fresh, folder);
  } catch (error) {
    rmSync(fresh, { recursive: true, force: true });
    // Another run may have been quicker with the same sources.
    if (!existsSync(main)) throw error;
  }
  return await import(pathToFileURL(main).href);
};

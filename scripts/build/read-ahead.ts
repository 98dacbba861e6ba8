import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Plugin, runnerImport } from 'vite';

type Reader = typeof import('../../src/core/project/read-project.ts');

const reader = fileURLToPath(new URL('../../src/core/project/read-project.ts', import.meta.url));
const ending = '?read-ahead';
const mark = '\0read-ahead:';

/**
 * `import first from './some.roofs.json?read-ahead'` gives a project file with what it says, worked out while the page is
 * built: the page can lay its first table before the reader of files is there.
 */
export const readAhead = (): Plugin => ({
  name: 'read-ahead',
  enforce: 'pre',
  resolveId: (id, importer) =>
    id.endsWith(ending) && importer !== undefined
      ? `${mark}${join(dirname(importer), id.slice(0, -ending.length))}.js`
      : null,
  async load(id) {
    if (!id.startsWith(mark)) return null;
    const path = id.slice(mark.length, -'.js'.length);
    this.addWatchFile(path);
    const { module } = await runnerImport<Reader>(reader);
    const read = module.readProject(readFileSync(path, 'utf8'));
    if (!read.ok) throw new Error(`${path} cannot be read: ${read.issues.map(({ message }) => message).join(' ')}`);
    return `export default ${JSON.stringify({ ...read.value, issues: read.issues })};`;
  },
});

/**
 * Runs `npm ci` where the installed packages are not those of package-lock.json. Node built-ins only, since it runs
 * before anything is installed. npm records what it installed in node_modules/.package-lock.json, written last, so a
 * broken-off install is noticed too.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));

/**
 * @param {string} file
 * @returns {Record<string, { version?: string, optional?: boolean, link?: boolean }> | null}
 */
const packagesIn = (file) => {
  try {
    return JSON.parse(readFileSync(join(root, file), 'utf8')).packages ?? null;
  } catch {
    return null;
  }
};

const isInstalled = () => {
  const wanted = packagesIn('package-lock.json');
  const present = packagesIn('node_modules/.package-lock.json');
  if (!wanted || !present) return false;
  return Object.entries(wanted).every(
    ([path, entry]) => path === '' || (entry.optional && !present[path]) || present[path]?.version === entry.version,
  );
};

if (!isInstalled()) {
  process.stderr.write('Installing the packages of package-lock.json …\n');
  const npm = process.env['npm_execpath'];
  const words = ['ci', '--include=dev', '--no-audit', '--no-fund', '--prefer-offline'];
  // Its report goes to stderr: what the command itself prints must stay readable by programs.
  const { status } = npm
    ? spawnSync(process.execPath, [npm, ...words], { cwd: root, stdio: ['ignore', 2, 2] })
    : spawnSync('npm', words, { cwd: root, stdio: ['ignore', 2, 2], shell: process.platform === 'win32' });
  if (status !== 0) {
    process.stderr.write('npm ci failed: see its message above. Spirewright needs Node 20.19 or newer and npm.\n');
    process.exit(1);
  }
}

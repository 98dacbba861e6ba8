import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const vite = fileURLToPath(new URL('../../node_modules/vite/bin/vite.js', import.meta.url));

/**
 * Builds a page as `npm start` does, in a process of its own: the NODE_ENV of a test runner or of this script's loader
 * would put the development build of React into the bundle.
 *
 * @param folder that holds the page's index.html; missing: the bench
 */
export function buildPage(folder: string = root): void {
  const env = { ...process.env, NODE_ENV: 'production' };
  const words = [vite, 'build', '--logLevel', 'error'];
  execFileSync(process.execPath, words, { cwd: folder, env, stdio: ['ignore', 2, 2] });
}

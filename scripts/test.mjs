/**
 * All tests: the ones that drive a browser, of which one at a time is enough for a machine, beside all others. What the browser
 * tests say is kept until the others are through.
 */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const vitest = fileURLToPath(new URL('../node_modules/vitest/vitest.mjs', import.meta.url));

/**
 * Runs the tests of a project of vitest.config.ts; resolves to its exit code.
 * @param {string} project
 * @param {(said: Buffer) => void} listen Gets what they say.
 * @returns {Promise<number>}
 */
const run = (project, listen) =>
  new Promise((resolve) => {
    const words = [vitest, 'run', '--project', project];
    const tests = spawn(process.execPath, words, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] });
    tests.stdout.on('data', listen);
    tests.stderr.on('data', listen);
    tests.on('close', (code) => resolve(code ?? 1));
  });

/** @type {Buffer[]} */
const kept = [];
const [unit, browser] = await Promise.all([
  run('unit', (said) => process.stdout.write(said)),
  run('browser', (said) => kept.push(said)),
]);
process.stdout.write(Buffer.concat(kept));
process.exitCode = unit || browser;

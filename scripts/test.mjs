/**
 * All tests: the ones that drive a browser, of which one at a time is enough for a machine, beside all others. What the browser
 * tests say is kept until the others are through.
 */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const vitest = fileURLToPath(new URL('../node_modules/vitest/vitest.mjs', import.meta.url));

/** Runs the tests of a project of vitest.config.ts; resolves to its exit code. */
const run = (project, listen) =>
  new Promise((resolve) => {
    const tests = spawn(process.execPath, [vitest, 'run', '--project', project], {
      cwd: root,
      stdio: ['ignore', listen ? 'pipe' : 'inherit', listen ? 'pipe' : 'inherit'],
    });
    tests.stdout?.on('data', listen);
    tests.stderr?.on('data', listen);
    tests.on('close', (code) => resolve(code ?? 1));
  });

const kept = [];
const [unit, browser] = await Promise.all([run('unit'), run('browser', (said) => kept.push(said))]);
process.stdout.write(Buffer.concat(kept));
process.exitCode = unit || browser;

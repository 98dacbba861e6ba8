/** The same laws as `npm test`, tried many times more and from a new seed: SPIREWRIGHT_RUNS times (20 where not set). */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const env = { SPIREWRIGHT_RUNS: '20', SPIREWRIGHT_SEED: 'random', ...process.env };
const vitest = fileURLToPath(new URL('../node_modules/vitest/vitest.mjs', import.meta.url));
const words = [vitest, 'run', '--project', 'unit', '--testTimeout', '1200000', ...process.argv.slice(2)];
const { status } = spawnSync(process.execPath, words, { cwd: root, env, stdio: 'inherit' });
process.exitCode = status ?? 1;

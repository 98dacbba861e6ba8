#!/usr/bin/env node
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
if (!existsSync(`${root}node_modules/vite`)) await import('../scripts/ensure-install.mjs');

const { loadCommandLine } = await import('../scripts/cli-bundle.mjs');
const { run } = await loadCommandLine();
try {
  process.exitCode = await run(process.argv.slice(2), {
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
    cwd: process.cwd(),
    assets: `${root}assets`,
    now: () => performance.now(),
  });
} catch (error) {
  const trace = error instanceof Error ? error.stack : String(error);
  process.stderr.write(`spirewright: this should not have happened, and nothing was written.\n${trace}\n`);
  process.exitCode = 3;
}

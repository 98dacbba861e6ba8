/** Finds the two programs that the tests need besides Node, and installs by apt those that are missing. */
import { spawnSync } from 'node:child_process';
import { findChromium, findPdftoppm, findProgram } from './find-program.mjs';

/** @param {readonly string[]} words */
const run = (words) => {
  const asRoot = process.getuid?.() === 0 ? [] : ['sudo', '-n'];
  const [program = '', ...rest] = [...asRoot, ...words];
  process.stderr.write(`$ ${[program, ...rest].join(' ')}\n`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  return spawnSync(program, rest, { stdio: ['ignore', 2, 2], env }).status === 0;
};

const needed = [
  { debian: 'chromium', find: findChromium, otherwise: 'Install Chromium or Chrome, or set CHROMIUM to its path.' },
  { debian: 'poppler-utils', find: findPdftoppm, otherwise: 'Install poppler (its program pdftoppm).' },
];

const missing = needed.filter(({ find }) => !find());
if (missing.length > 0) {
  const packages = missing.map(({ debian }) => debian);
  if (findProgram(['apt-get'])) {
    run(['apt-get', 'update']);
    run(['apt-get', 'install', '-y', '--no-install-recommends', ...packages]);
  }
  const still = missing.filter(({ find }) => !find());
  for (const { debian, otherwise } of still) process.stderr.write(`The tests need ${debian}. ${otherwise}\n`);
  if (still.length > 0) process.exit(1);
}

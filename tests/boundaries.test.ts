import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
const bin = (name: string): string => join(root, 'node_modules', '.bin', name);

interface Verdict {
  readonly status: number | null;
  readonly said: string;
}

/** Lays the files in a temporary folder, runs the program there and takes all of it away again. */
const judge = (files: Readonly<Record<string, string>>, program: string, words: readonly string[]): Verdict => {
  const place = mkdtempSync(join(tmpdir(), 'spirewright-boundary-'));
  try {
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(place, path)), { recursive: true });
      writeFileSync(join(place, path), text);
    }
    for (const path of ['biome.json', 'scripts/lint']) cpSync(join(root, path), join(place, path), { recursive: true });
    const { status, stdout, stderr } = spawnSync(bin(program), words, { cwd: place, encoding: 'utf8' });
    return { status, said: stdout + stderr };
  } finally {
    rmSync(place, { recursive: true });
  }
};

const lint = (path: string, code: string): Verdict => judge({ [path]: code }, 'biome', ['lint', '--colors=off', path]);

/** What the compiler says about one file under the rules of a folder. */
const compile = (folder: string, code: string): Verdict => {
  const config = {
    extends: join(root, folder, 'tsconfig.json'),
    compilerOptions: {
      composite: false,
      noEmit: true,
      emitDeclarationOnly: false,
      rootDir: '/',
      tsBuildInfoFile: null,
      typeRoots: [join(root, 'node_modules', '@types')],
    },
    include: ['probe.ts'],
    references: [],
  };
  return judge({ 'tsconfig.json': JSON.stringify(config), 'probe.ts': code }, 'tsc', ['-p', '.']);
};

describe('the linter keeps the folders apart', () => {
  it.each([
    ['src/core/probe.ts', "import { Vector3 } from 'three';\nexport const v: unknown = Vector3;\n", 'src/core is pure'],
    ['src/core/probe.ts', "import type { FC } from 'react';\nexport type F = FC;\n", 'src/core is pure'],
    ['src/core/probe.ts', "import { sep } from 'node:path';\nexport const s = sep;\n", 'src/core runs in browsers'],
    ['src/core/probe.ts', "import { a } from '../io/a.ts';\nexport const b = a;\n", 'data flows out of it'],
    ['src/io/probe.ts', "import { a } from '../app/a.ts';\nexport const b = a;\n", 'src/io uses src/core only'],
    ['src/app/probe.ts', "import { run } from '../cli/main.ts';\nexport const b = run;\n", 'never use each other'],
    ['src/cli/probe.ts', "import { a } from '../app/a.ts';\nexport const b = a;\n", 'never use each other'],
    ['src/core/probe.ts', 'export const n = (): number => Math.random();\n', 'no clock and no chance'],
    ['src/core/probe.ts', 'export const n = (): Date => new Date();\n', 'no clock and no chance'],
    ['src/core/probe.ts', 'export const n = (a: number): boolean => Math.abs(a) < 1e-9;\n', 'core/tolerance.ts'],
  ])('%s may not hold %s', (path, code, message) => {
    const { status, said } = lint(path, code);
    expect(said).toContain(message);
    expect(status).toBe(1);
  });

  it('and lets plain code through', () => {
    const code =
      "import { add2 } from './geometry/vector.ts';\n\nexport const sum = (): unknown => add2([1, 2], [3, 5]);\n";
    expect(lint('src/core/probe.ts', code)).toMatchObject({ status: 0 });
  });
});

describe('the compiler keeps the platform out', () => {
  it.each([
    ['src/core', 'window'],
    ['src/core', 'fetch'],
    ['src/core', 'console'],
    ['src/core', 'performance'],
    ['src/core', 'process'],
    ['src/io', 'document'],
    ['src/io', 'Buffer'],
    ['src/cli', 'document'],
  ])('%s has no %s', (folder, name) => {
    const { status, said } = compile(folder, `export const probe: unknown = ${name};\n`);
    expect(said).toContain(`Cannot find name '${name}'`);
    expect(status).not.toBe(0);
  });

  it('and lets plain code through', () => {
    expect(compile('src/core', 'export const probe: number = Math.hypot(3, 4);\n')).toEqual({ status: 0, said: '' });
  });
});

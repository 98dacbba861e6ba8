import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';

export interface LoadedFile {
  /** Path inside the built folder. */
  readonly name: string;
  /** Bytes as a server that packs would send them. */
  readonly gz: number;
}

/**
 * The scripts and styles a built page asks for before any of its code has run: those named in its HTML and all that
 * they import statically. What is imported on demand (the stage, the exports) is not among them.
 */
export function firstLoad(folder: string): readonly LoadedFile[] {
  const html = readFileSync(join(folder, 'index.html'), 'utf8');
  const named = [...html.matchAll(/<(?:script|link)\b[^>]*?(?:src|href)="([^"]+\.(?:js|css))"/g)].map((tag) => tag[1]);
  const waiting = named.filter((name) => name !== undefined).map((name) => join(name));
  const found = new Map<string, number>();
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    if (found.has(name)) continue;
    const bytes = readFileSync(join(folder, name));
    found.set(name, gzipSync(bytes, { level: 9 }).length);
    if (!name.endsWith('.js')) continue;
    for (const [, path = ''] of bytes.toString('utf8').matchAll(/\b(?:from|import)\s*["'](\.{1,2}\/[^"']+\.js)["']/g))
      waiting.push(join(dirname(name), path));
  }
  return [...found].map(([name, gz]) => ({ name, gz }));
}

export const totalGz = (files: readonly LoadedFile[]): number => files.reduce((sum, { gz }) => sum + gz, 0);

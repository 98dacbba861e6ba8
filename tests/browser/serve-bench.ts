import { fileURLToPath } from 'node:url';
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';
import { buildPage } from '../../scripts/bench/build-page.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Address of the built bench, with a closing slash. */
    benchUrl: string;
  }
}

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Builds the bench once and serves it on a free port for all browser tests. */
export default async function serveBench(project: TestProject): Promise<() => Promise<void>> {
  const { url, close } = await startBench();
  project.provide('benchUrl', url);
  return close;
}

/** The built bench, served from this machine. */
export async function startBench(): Promise<{ readonly url: string; readonly close: () => Promise<void> }> {
  buildPage();
  const server = await preview({
    root,
    logLevel: 'error',
    preview: { port: 4190, strictPort: false, host: '127.0.0.1', open: false },
  });
  const url = server.resolvedUrls?.local[0];
  if (url === undefined) throw new Error('the preview server has no local address');
  return { url, close: () => server.close() };
}

import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { type PreviewServer, preview } from 'vite';
import { launchBrowser } from '../../tests/browser/harness.ts';
import { buildPage } from './build-page.ts';
import { median } from './median.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const emptyRoot = fileURLToPath(new URL('./empty-stage', import.meta.url));
const emptyDist = fileURLToPath(new URL('../../node_modules/.cache/spirewright-empty-stage', import.meta.url));

/** Median time to first paint of the built bench and of the empty stage, ms; pages loaded in turn with nothing cached. */
export async function firstPaints(rounds = 9): Promise<{ readonly bench: number; readonly empty: number }> {
  buildPage(emptyRoot);
  const servers = [await serve(root, 'dist'), await serve(emptyRoot, emptyDist)];
  const browser = await launchBrowser();
  try {
    const times: [number[], number[]] = [[], []];
    for (let round = 0; round < rounds; round++) {
      times[0].push(await firstPaint(browser, addressOf(servers[0])));
      times[1].push(await firstPaint(browser, addressOf(servers[1])));
    }
    return { bench: median(times[0]), empty: median(times[1]) };
  } finally {
    await browser.close();
    for (const server of servers) await server.close();
  }
}

const serve = async (from: string, outDir: string): Promise<PreviewServer> =>
  await preview({
    root: from,
    configFile: false,
    base: './',
    logLevel: 'error',
    build: { outDir },
    preview: { port: 4290, host: '127.0.0.1' },
  });

function addressOf(server: PreviewServer | undefined): string {
  const url = server?.resolvedUrls?.local[0];
  if (url === undefined) throw new Error('the preview server has no local address');
  return url;
}

async function firstPaint(browser: Browser, url: string): Promise<number> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  await page.goto(url);
  const read = (): number | undefined =>
    performance.getEntriesByType('paint').find(({ name }) => name === 'first-paint')?.startTime;
  await page.waitForFunction(() => performance.getEntriesByName('first-paint').length > 0);
  const time = await page.evaluate(read);
  await context.close();
  return time ?? Number.NaN;
}

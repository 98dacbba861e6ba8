import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterEach, beforeEach, expect, inject } from 'vitest';
import { findChromium } from '../../scripts/find-program.mjs';
import type {} from '../../src/app/test-handle.ts';

/** Software WebGL, no network of the browser's own. */
const flags = [
  '--no-sandbox',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
const softwareWebgl = ['--use-angle=swiftshader', '--enable-unsafe-swiftshader'];
const noWebgl = ['--disable-gpu', '--disable-3d-apis'];

/** Console lines that are known, and not ours to mend. */
const allowedLines = [/THREE\.Clock.*deprecated/i, /GPU stall due to ReadPixels/i];

export interface Trouble {
  readonly kind: 'console' | 'exception' | 'request';
  readonly text: string;
}

export interface OpenBench {
  readonly page: Page;
  /** Everything that must not happen: console errors and warnings, exceptions, requests that leave this machine. */
  readonly troubles: readonly Trouble[];
  readonly close: () => Promise<void>;
}

export const launchBrowser = async (options: { readonly webgl: boolean } = { webgl: true }): Promise<Browser> => {
  const executablePath = findChromium();
  if (executablePath === null) throw new Error('No Chromium found: run npm test, or set CHROMIUM to its path.');
  return await chromium.launch({ executablePath, args: [...flags, ...(options.webgl ? softwareWebgl : noWebgl)] });
};

const browsers = new Map<boolean, Promise<Browser>>();

/** One browser for the tests of all files, and one with WebGL; they end with the process. */
export function sharedBrowser({ webgl }: { readonly webgl: boolean } = { webgl: false }): Promise<Browser> {
  const browser = browsers.get(webgl) ?? launchBrowser({ webgl });
  browsers.set(webgl, browser);
  return browser;
}

/** A new page of its own with nothing remembered, watched from the first request on. */
export async function openPage(
  browser: Browser,
  url: string,
  options: BrowserContextOptions = { viewport: { width: 1280, height: 800 } },
): Promise<OpenBench> {
  const context = await browser.newContext({ acceptDownloads: true, reducedMotion: 'reduce', ...options });
  const page = await context.newPage();
  // Where much else runs, drawing in software takes its time.
  page.setDefaultTimeout(90_000);
  const troubles: Trouble[] = [];
  const { origin } = new URL(url);
  page.on('console', (message) => {
    const text = message.text();
    if (message.type() !== 'error' && message.type() !== 'warning') return;
    if (!allowedLines.some((line) => line.test(text))) troubles.push({ kind: 'console', text });
  });
  page.on('pageerror', (error) => troubles.push({ kind: 'exception', text: String(error.stack ?? error) }));
  await context.route('**/*', async (route) => {
    const asked = route.request().url();
    if (asked.startsWith(`${origin}/`) || asked.startsWith('blob:') || asked.startsWith('data:'))
      return route.continue();
    troubles.push({ kind: 'request', text: asked });
    return route.abort();
  });
  await page.goto(url);
  return { page, troubles, close: () => context.close() };
}

const desk: BrowserContextOptions = { viewport: { width: 1280, height: 800 }, locale: 'en-US' };

/**
 * For the tests of a file or of a group in it: for each test a bench of its own that `begin` brings to where they begin. A test
 * during which anything went wrong on its page has failed. `options` are those of its window.
 */
export function onTheBench(begin: (page: Page) => Promise<void>, options: BrowserContextOptions = {}): void {
  let bench: OpenBench;
  beforeEach(async () => {
    bench = await openPage(await sharedBrowser(), inject('benchUrl'), { ...desk, ...options });
    await begin(bench.page);
  });
  afterEach(async () => {
    expect(bench.troubles).toEqual([]);
    await bench.close();
  });
}

let table: Promise<OpenBench> | null = null;

/**
 * The same on the 3D table, which takes long to start where it is drawn in software: one page for all such tests, as the last one
 * left it but in the first place, which `begin` brings to where they begin. After a test that failed the next one gets a new page.
 * A smaller window is sooner drawn.
 */
export function onTheTable(begin: (page: Page) => Promise<void>, window = { width: 1280, height: 800 }): void {
  let bench: OpenBench;
  let known = 0;
  beforeEach(async () => {
    table ??= sharedBrowser({ webgl: true }).then((browser) => openPage(browser, inject('benchUrl'), desk));
    bench = await table;
    known = bench.troubles.length;
    await bench.page.setViewportSize(window);
    await bench.page.getByRole('tab', { name: 'Body' }).click();
    await begin(bench.page);
  });
  afterEach(async ({ task }) => {
    const troubles = bench.troubles.slice(known);
    if (task.result?.state === 'fail' || troubles.length > 0) {
      table = null;
      await bench.close();
    }
    expect(troubles).toEqual([]);
  });
}

/** What axe finds on a page, rule by rule; of the impact that keeps somebody from using it, or of any. */
export async function axeFaults(page: Page, least: 'serious' | 'any' = 'serious'): Promise<readonly string[]> {
  // It is run in the page alone: there is no frame in it that would have to be asked.
  expect(page.frames().length).toBe(1);
  const axe = new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ['violations'] });
  return (await axe.analyze()).violations
    .filter(({ impact }) => least === 'any' || impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`);
}

/** Waits until nothing moves: fonts and chunks are there and the picture has stood still for some frames. */
export async function settled(page: Page): Promise<void> {
  await page.waitForLoadState('networkidle');
  await page.evaluate(async () => {
    await document.fonts.ready;
    for (let frame = 0; frame < 6; frame++) await new Promise((resolve) => requestAnimationFrame(resolve));
  });
}

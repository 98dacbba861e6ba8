import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { preview } from 'vite';
import { launchBrowser, openPage } from '../../tests/browser/harness.ts';
import { sampleFiles } from '../samples.ts';
import { buildPage } from './build-page.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
export interface LayingTasks {
  readonly pieces: number;
  /** How long was searched, s. */
  readonly seconds: number;
  /** Longest task of the page meanwhile, ms by the clock; 0 where none took 50 ms. */
  readonly longest: number;
  readonly tasks: number;
  /** Longest task of the page when the search is stopped and what it found is written down, ms; 0 where none took 50 ms. */
  readonly atEnd: number;
}

/** How long the end of a search is watched, s. */
const SETTLED = 3;

/** Lengths of the page's tasks of 50 ms and more within so many seconds. */
const longTasks = (page: Page, seconds: number): Promise<readonly number[]> =>
  page.evaluate(async (wait) => {
    const tasks: number[] = [];
    const observer = new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) tasks.push(duration);
    });
    observer.observe({ type: 'longtask' });
    await new Promise((resolve) => setTimeout(resolve, wait * 1000));
    observer.disconnect();
    return tasks;
  }, seconds);

/**
 * Tasks of 50 ms and more on the page while a worker beside it looks for layouts of so many copies of a row of nine houses, in
 * Chromium without a 3D table.
 */
export async function layingTasks(copies: number, seconds = 10): Promise<LayingTasks> {
  buildPage();
  const server = await preview({
    root,
    logLevel: 'error',
    preview: { port: 4390, host: '127.0.0.1' },
  });
  const browser = await launchBrowser({ webgl: false });
  try {
    const { page } = await openPage(browser, server.resolvedUrls?.local[0] ?? '');
    page.setDefaultTimeout(120_000);
    const sample = sampleFiles().find(({ name }) => name === 'harbour-row');
    const file = JSON.parse(sample?.text ?? '{}');
    const roofs = file.roofs.map((roof: object) => ({ ...roof, copies }));
    const stock = file.stock.map(({ count: _, ...paper }: { readonly count?: number }) => paper);
    await page.evaluate((text) => window.spirewright?.open(text), JSON.stringify({ ...file, stock, roofs }));
    await page.getByRole('tab', { name: 'Paper' }).click();
    await page.getByRole('radio', { name: 'Laid on paper' }).check();
    await page.locator('.laid-piece').first().waitFor();
    // What the search makes of a change of the file is done in the click; from then on the page only listens.
    await page.getByRole('button', { name: 'Lay', exact: true }).click();
    await page.waitForTimeout(1000);
    const found = await longTasks(page, seconds);
    // The layout that was found is written down.
    const atEnd = longTasks(page, SETTLED);
    // Looking for the button by its name would be a long task of the page itself.
    await page.evaluate(() => {
      const keys = [...document.querySelectorAll('button')];
      keys.find(({ textContent }) => textContent.startsWith('Enough'))?.click();
    });
    return {
      pieces: await page.locator('.laid-piece').count(),
      seconds,
      longest: Math.max(0, ...found),
      tasks: found.length,
      atEnd: Math.max(0, ...(await atEnd)),
    };
  } finally {
    await browser.close();
    await server.close();
  }
}

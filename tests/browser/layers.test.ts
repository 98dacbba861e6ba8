import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, inject, it } from 'vitest';
import { launchBrowser, type OpenBench, openPage, settled } from './harness.ts';

let browser: Browser;
let bench: OpenBench;
let page: Page;

type Roof = Readonly<Record<string, unknown>> & { readonly layers: readonly Readonly<Record<string, unknown>>[] };

const roofNow = async (): Promise<Roof> =>
  (await page.evaluate(
    () => (window.spirewright?.getState().file['roofs'] as readonly unknown[] | undefined)?.[0],
  )) as Roof;

const isMade = async (): Promise<boolean> =>
  await page.evaluate(() => {
    const { production, isCurrent } = window.spirewright?.getState() ?? {};
    return isCurrent === true && production?.roofs[0]?.made != null;
  });

const goTo = async (place: string): Promise<void> => {
  await page.getByRole('tab', { name: place, exact: true }).click();
};

beforeAll(async () => {
  browser = await launchBrowser({ webgl: false });
});
afterAll(async () => {
  await browser.close();
});
beforeEach(async () => {
  bench = await openPage(browser, inject('benchUrl'), { viewport: { width: 1280, height: 800 }, locale: 'en-US' });
  page = bench.page;
  await settled(page);
});
afterEach(async () => {
  expect(bench.troubles).toEqual([]);
  await bench.close();
});

describe('the seat', () => {
  it('is put under the roof in the walls or over them, and has its own net and its place in the fit', async () => {
    await page.getByRole('radio', { name: 'Seat inside the walls' }).check();
    expect(await isMade()).toBe(true);
    expect((await roofNow())['seat']).toMatchObject({ fits: 'inside', walls: '1/16in' });
    const seat = page.getByRole('region', { name: 'Seat', exact: true });
    await seat.getByLabel('Play', { exact: true }).fill('1/32');
    await seat.getByLabel('Play', { exact: true }).press('Enter');
    expect((await roofNow())['seat']).toMatchObject({ play: '1/32in' });
    await goTo('Paper');
    await page.getByRole('group', { name: 'Layer' }).getByRole('radio', { name: 'Seat' }).check();
    expect(await page.locator('.sheet .net').getAttribute('aria-label')).toContain('1 pieces');
    await goTo('Build');
    await page.getByRole('button', { name: /^The seat stands in the walls/ }).click();
    await goTo('Body');
    await page.getByRole('radio', { name: 'Seat over the walls' }).check();
    expect((await roofNow())['seat']).not.toHaveProperty('walls');
    expect(await isMade()).toBe(true);
    await seat.getByRole('radio', { name: 'None' }).check();
    expect(await roofNow()).not.toHaveProperty('seat');
  });
});

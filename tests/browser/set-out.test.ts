import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { type OpenBench, openPage, settled, sharedBrowser } from './harness.ts';
import { pdfPages } from './pdf-pages.ts';

let opened: OpenBench;
let page: Page;

beforeAll(async () => {
  opened = await openPage(await sharedBrowser(), inject('benchUrl'));
  ({ page } = opened);
  await page.waitForFunction(() => window.spirewright !== undefined);
  const file = new URL('../../shared/samples/harbour-gate.roofs.json', import.meta.url);
  await page.evaluate((text) => window.spirewright?.open(text), readFileSync(file, 'utf8'));
  await page.getByRole('tab', { name: 'Set out' }).click();
  await page.getByRole('heading', { name: 'Set out by ruler' }).waitFor();
});
afterAll(async () => opened.close());

const steps = (): Locator => page.locator('.set-out-steps button');
const chooseStrip = async (label: string): Promise<void> => {
  await page.getByRole('combobox', { name: 'Strip' }).selectOption({ label });
};
const drawnNow = (): Locator => page.locator('.set-out-art .is-now');

it('goes step by step: the step at hand stands out in the picture, those after it wait', async () => {
  await chooseStrip('Strip 2 of 2');
  const first = await steps().allInnerTexts();
  expect(first[1]).toMatch(/edge, from the (left|right): tick .+\. Marks? /);
  expect(await drawnNow().count()).toBe(0);
  await page.getByRole('button', { name: 'Next' }).click();
  expect(await page.locator('[aria-current="step"]').innerText()).toBe(first[0]);
  expect(await drawnNow().locator('path').count()).toBeGreaterThan(0);
  expect(await page.locator('.set-out-art .is-later').count()).toBe(first.length - 1);
  await page.getByRole('button', { name: 'Next' }).click();
  expect(await page.locator('.set-out-art .is-done').count()).toBe(1);
  // By the keys, and said aloud.
  await steps().nth(1).focus();
  await page.keyboard.press('ArrowDown');
  expect(await page.locator('[aria-current="step"]').innerText()).toBe(first[2]);
  expect(await page.locator('.set-out-words [aria-live]').innerText()).toBe(`Step 3 of ${first.length}. ${first[2]}`);
  await page.getByRole('button', { name: 'All', exact: true }).click();
  expect(await page.locator('.set-out-art .is-later').count()).toBe(0);
});

it('shows the piece of a step enlarged where marks are many, whole, its numbers as high as other small texts', async () => {
  await chooseStrip('Strip 1 of 2');
  expect(await page.getByText(/^Many marks: choose a step/).count()).toBe(1);
  await steps().nth(6).click();
  const art = page.getByRole('img', { name: /^Gatehouse tower: (East|West), enlarged, of Strip 1 of 2/ });
  const texts = await art.locator('text').evaluateAll((all) => all.map((text) => text.getBoundingClientRect()));
  const picture = await page.getByRole('region', { name: 'The drawing' }).boundingBox();
  expect(texts.length).toBeGreaterThan(8);
  for (const { top, bottom, height } of texts) {
    expect(height).toBeGreaterThan(11);
    expect(Math.min(top - (picture?.y ?? 0), (picture?.y ?? 0) + (picture?.height ?? 0) - bottom)).toBeGreaterThan(0);
  }
  await page.getByRole('button', { name: 'All', exact: true }).click();
});

it('is turned over for the printed side: mountains in place of valleys', async () => {
  const told = async (): Promise<string> => (await steps().allInnerTexts()).join(' ');
  expect(await told()).toContain('valleys on this side');
  const wrong = await page.locator('.set-out-art').innerHTML();
  await page.getByRole('radio', { name: 'Printed side up' }).check();
  expect(await told()).toContain('mountains on this side');
  expect(await told()).not.toContain('valleys on this side');
  expect(await page.locator('.set-out-art').innerHTML()).not.toBe(wrong);
  await page.getByRole('radio', { name: 'Wrong side up' }).check();
});

it('sets slopes round one peak out by compass, and says what rounding leaves at its seam', async () => {
  await page.getByRole('combobox', { name: 'Sheet' }).selectOption({ index: 1 });
  await page.getByText(/^From \d+ step 1 1\/4 8 times along that arc\./).waitFor();
  expect(await page.getByText(/^8 slopes round one peak/).count()).toBe(1);
  expect(await page.getByText('1 seam is of one length on both sides.').count()).toBe(1);
});

it('follows another ruler, and millimetres', async () => {
  await page.getByLabel('Smallest mark of the ruler').first().selectOption('1/8in');
  await page.getByText(/^Compass on \d+, opened 3 7\/8: draw an arc in pencil/).waitFor();
  expect((await steps().allInnerTexts()).join(' ')).not.toMatch(/\d\/(16|32)/);
  await page.getByRole('radio', { name: 'millimetres' }).check();
  await page.getByLabel('Smallest mark of the ruler').first().selectOption('1mm');
  await page.getByText(/^Compass on \d+, opened 98: draw an arc in pencil/).waitFor();
  expect((await steps().allInnerTexts()).join(' ')).not.toMatch(/\d\/\d/);
  for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByText(/^From \d+ step 1 1\/4 8 times/).waitFor();
});

it('stays as it was while a measure is mistyped', async () => {
  const before = await steps().allInnerTexts();
  await page.getByRole('tab', { name: 'Roof' }).click();
  const rise = page.getByLabel('Rise', { exact: true });
  await rise.fill('3 lb');
  await rise.press('Enter');
  expect(await rise.getAttribute('aria-invalid')).toBe('true');
  await page.getByRole('tab', { name: 'Set out' }).click();
  await page.getByRole('combobox', { name: 'Sheet' }).selectOption({ index: 1 });
  expect(await steps().allInnerTexts()).toEqual(before);
});

it('letters on the back give every printed page a page for its wrong side', async () => {
  await page.getByRole('tab', { name: 'Build' }).click();
  const countPages = async (): Promise<number> => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: /PDF/ }).first().click(),
    ]);
    return (await pdfPages(new Uint8Array(await readFile(await download.path())))).length;
  };
  const before = await countPages();
  await page.getByLabel('Letters', { exact: true }).selectOption('both');
  await settled(page);
  expect(await countPages()).toBe(2 * before);
  expect(opened.troubles).toEqual([]);
});

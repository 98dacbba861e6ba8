import { readFile } from 'node:fs/promises';
import type { Download, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { MM_PER_INCH } from '../../src/core/units/units.ts';
import { onTheBench, onTheTable, settled } from './harness.ts';
import { pdfPages } from './pdf-pages.ts';

let page: Page;

/** The inch sample on the table. */
const begin = async (opened: Page): Promise<void> => {
  page = opened;
  await openSample('the harbour gate');
  await page.getByRole('tab', { name: 'Roof' }).click();
};

const openSample = async (name: string): Promise<void> => {
  await page.getByRole('button', { name: 'Project' }).click();
  await page.getByRole('button', { name }).click();
};

const riseBox = () => page.getByLabel('Rise', { exact: true });

const typeRise = async (text: string): Promise<void> => {
  await riseBox().fill(text);
  await riseBox().press('Enter');
};

/** Rise of the roof on the table, in inches: taken from its solid, not from what was typed. */
const riseOnTable = async (): Promise<number> => {
  const heights = await page.evaluate(
    () => window.spirewright?.getState().production?.roofs[0]?.made?.solid.vertices.map(([, , z]) => z) ?? [],
  );
  return Math.max(...heights) / MM_PER_INCH;
};

const bytesOf = async (download: Download): Promise<Uint8Array> =>
  new Uint8Array(await readFile(await download.path()));

const downloadBy = async (act: () => Promise<void>): Promise<Download> => {
  const [download] = await Promise.all([page.waitForEvent('download'), act()]);
  return download;
};

describe('from a sample to a print, on the 3D table', () => {
  onTheTable(begin);

  it('takes a typed rise, folds the roof up and saves a PDF of the right page', async () => {
    await typeRise('3 1/4"');
    expect(await riseOnTable()).toBeCloseTo(3.25, 9);
    // An edge is pointed at on the roof itself: across it one has to be crossed.
    const tag = page.getByRole('region', { name: 'The edge at hand' });
    for (let x = 500; x < 680 && !(await tag.isVisible()); x += 20) await page.mouse.click(x, 330);
    expect(await tag.innerText()).toMatch(/^(Hip|Eave), /);
    await page.mouse.click(300, 620);
    expect(await tag.count()).toBe(0);
    await page.getByRole('button', { name: 'Folded' }).click();
    await page.waitForFunction(() => window.spirewright?.getState().t === 0.6);
    await settled(page);
    await page.getByRole('tab', { name: 'Build' }).click();
    const download = await downloadBy(() => page.getByRole('button', { name: /PDF/ }).click());
    expect(download.suggestedFilename()).toMatch(/^samphire-staithe-.*\.pdf$/);
    const pages = await pdfPages(await bytesOf(download));
    expect(pages.length).toBeGreaterThan(1);
    // Letter: 8 1/2 by 11 in of 72 points each.
    for (const size of pages) expect([...size].sort((a, b) => a - b)).toEqual([612, 792]);
    await page.getByLabel('Pieces', { exact: true }).selectOption('as-laid');
    await settled(page);
    const laid = await bytesOf(await downloadBy(() => page.getByRole('button', { name: /PDF/ }).click()));
    // A sheet of 12 by 12 in takes two pages across and two up.
    expect((await pdfPages(laid)).length).toBeGreaterThan(pages.length);
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('radio', { name: 'millimetres' }).check();
    await settled(page);
    expect(await riseOnTable()).toBeCloseTo(2.875, 9);
  });
});

/** The same bench without its 3D table, which takes seconds to start where it is drawn in software. */
describe('on the flat table', () => {
  onTheBench(begin);

  it('shows what is wrong with a text, and keeps the roof that stood', async () => {
    const before = await riseOnTable();
    await typeRise('3 lb');
    const problem = page.locator(`[id="${await riseBox().getAttribute('aria-describedby')}"]`);
    expect(await riseBox().getAttribute('aria-invalid')).toBe('true');
    expect((await problem.innerText()).length).toBeGreaterThan(10);
    expect(await riseOnTable()).toBe(before);
    await riseBox().press('Escape');
    expect(await riseBox().getAttribute('aria-invalid')).toBe('false');
    expect(await riseBox().inputValue()).toBe('2 7/8in');
  });

  it('takes a change back and makes it again', async () => {
    await typeRise('3 1/4"');
    await typeRise('4in');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await riseBox().inputValue()).toBe('3 1/4"');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await riseOnTable()).toBeCloseTo(2.875, 9);
    await page.getByRole('button', { name: 'Redo' }).click();
    expect(await riseOnTable()).toBeCloseTo(3.25, 9);
  });

  it('saves what was typed as it was typed, and opens it again', async () => {
    await typeRise('3-1/4 in');
    const download = await downloadBy(() => page.getByRole('button', { name: 'Save', exact: true }).click());
    const text = new TextDecoder().decode(await bytesOf(download));
    expect(JSON.parse(text).roofs[0].shape).toEqual({ rise: '3-1/4 in' });
    await openSample('chapel hill');
    const chosen = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Project' }).click();
    await page.getByRole('button', { name: /^Open/ }).click();
    await (await chosen).setFiles({ name: 'mine.roofs.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    await page.waitForFunction(() => window.spirewright?.getState().file['title'] !== 'Samphire Staithe: chapel hill');
    expect(await riseOnTable()).toBeCloseTo(3.25, 9);
    expect(await riseBox().inputValue()).toBe('3-1/4 in');
  });

  it('says why a file is not opened, and keeps the project', async () => {
    const chosen = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Project' }).click();
    await page.getByRole('button', { name: /^Open/ }).click();
    await (await chosen).setFiles({
      name: 'x.json',
      mimeType: 'application/json',
      buffer: Buffer.from('{"format":1}'),
    });
    await page.getByText('was not opened').waitFor();
    expect(await riseOnTable()).toBeCloseTo(2.875, 9);
  });

  it('shows every length in the other units, and leaves the roof as it is', async () => {
    const before = await riseOnTable();
    await page.getByRole('tab', { name: 'Build' }).click();
    await page.getByRole('tab', { name: 'Roof' }).click();
    const words = async (): Promise<string> => await page.getByRole('main').innerText();
    expect(await words()).not.toMatch(/\d mm\b/);
    await page.getByRole('radio', { name: 'millimetres' }).check();
    await page.waitForFunction(() => window.spirewright?.getState().file['units'] === 'mm');
    expect(await words()).toMatch(/\d mm\b/);
    expect(await riseOnTable()).toBe(before);
    expect(await riseBox().inputValue()).toBe('2 7/8in');
  });

  it('goes through the five places by keyboard alone', async () => {
    await page.getByRole('tab', { name: 'Roof' }).focus();
    for (const place of ['Paper', 'Set out', 'Build', 'Body', 'Roof']) {
      await page.keyboard.press('ArrowRight');
      const tab = page.getByRole('tab', { name: place });
      expect(await tab.getAttribute('aria-selected')).toBe('true');
      expect(await tab.evaluate((element) => element === document.activeElement)).toBe(true);
      await settled(page);
    }
  });
});

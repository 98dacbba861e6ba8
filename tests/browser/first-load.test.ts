import type { Browser, Page } from 'playwright-core';
import { afterEach, beforeAll, beforeEach, describe, expect, inject, it } from 'vitest';
import { settled, sharedBrowser } from './harness.ts';

let browser: Browser;
let page: Page;
let release: () => void = () => undefined;

/** A page whose workshop (reader of files, kinds, geometry) stays away until it is released. */
beforeAll(async () => {
  browser = await sharedBrowser();
});
beforeEach(async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: 'en-US' });
  page = await context.newPage();
  const held = new Promise<void>((resolve) => {
    release = resolve;
  });
  await page.route('**/workshop-*.js', async (route) => {
    await held;
    await route.continue();
  });
  await page.goto(inject('benchUrl'));
  await page.getByRole('tab', { name: 'Body' }).waitFor();
});
afterEach(async () => {
  await page.context().close();
});

const title = () => page.getByLabel('Project title');
const state = async () =>
  await page.evaluate(() => {
    const now = window.spirewright?.getState();
    return { title: now?.file['title'], units: now?.file['units'], roofs: now?.production?.roofs.length ?? null };
  });
const workshopCame = async (): Promise<void> => {
  release();
  await page.waitForFunction(() => window.spirewright?.getState().isCurrent);
};

describe('before the workshop has come', () => {
  it('shows the bench with what the file says, and no roof yet', async () => {
    expect(await title().inputValue()).toBe('Samphire Staithe: the harbour gate');
    expect(await page.getByRole('tab').count()).toBe(5);
    expect((await state()).roofs).toBeNull();
    await workshopCame();
    expect((await state()).roofs).toBeGreaterThan(0);
  });

  it('keeps what was typed until it can be read, and takes it back again', async () => {
    await title().fill('Net lofts');
    await title().press('Enter');
    await page.getByTitle('Show lengths in millimetres').click();
    await workshopCame();
    await settled(page);
    expect(await state()).toMatchObject({ title: 'Net lofts', units: 'mm' });
    const undo = page.getByRole('button', { name: 'Undo' });
    await undo.click();
    expect(await state()).toMatchObject({ title: 'Net lofts', units: 'in' });
    await undo.click();
    expect((await state()).title).toBe('Samphire Staithe: the harbour gate');
    expect(await undo.isDisabled()).toBe(true);
  });

  it('opens a project as soon as it can be read', async () => {
    const opened = page.evaluate(async () => {
      const file = { ...window.spirewright?.getState().file, title: 'Opened at once' };
      return await window.spirewright?.open(JSON.stringify(file));
    });
    await page.waitForTimeout(50);
    expect((await state()).title).not.toBe('Opened at once');
    release();
    expect(await opened).toBe(true);
    expect(await state()).toMatchObject({ title: 'Opened at once', roofs: 3 });
  });

  it('lets a roof be made of the parameters typed next', async () => {
    await page.getByRole('tab', { name: 'Roof' }).click();
    await workshopCame();
    const rise = page.getByLabel('Rise', { exact: true });
    await rise.fill('3 1/4in');
    await rise.press('Enter');
    expect(await rise.inputValue()).toBe('3 1/4in');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await rise.inputValue()).toBe('2 7/8in');
  });
});

import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { launchBrowser, openPage, settled } from './harness.ts';

const places = ['Body', 'Roof', 'Paper', 'Set out', 'Build'] as const;

const goTo = async (page: Page, place: string): Promise<void> => {
  await page.getByRole('tab', { name: place }).click();
  await settled(page);
};

describe('with WebGL', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(async () => {
    await browser.close();
  });

  it.each([
    ['wide', 1280, 800],
    ['narrow', 390, 844],
  ])(
    'axe finds nothing serious in any place, %s',
    async (_, width, height) => {
      const { page, troubles, close } = await openPage(browser, inject('benchUrl'), { viewport: { width, height } });
      for (const place of places) {
        await goTo(page, place);
        const { violations } = await new AxeBuilder({ page }).analyze();
        const grave = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
        const found = grave.map(
          ({ id, nodes }) => `${place}: ${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`,
        );
        expect(found).toEqual([]);
      }
      expect(troubles).toEqual([]);
      await close();
      // Five places drawn in software take their time where much else runs.
    },
    120_000,
  );

  it('needs no sideways scrolling at 320 px', async () => {
    const { page, troubles, close } = await openPage(browser, inject('benchUrl'), {
      viewport: { width: 320, height: 640 },
    });
    for (const place of places) {
      await goTo(page, place);
      const { content, view } = await page.evaluate(() => ({
        content: document.documentElement.scrollWidth,
        view: document.documentElement.clientWidth,
      }));
      expect(content, place).toBeLessThanOrEqual(view);
      // Every place can be reached: its tab lies within the window.
      const box = await page.getByRole('tab', { name: place }).boundingBox();
      expect(box?.x, place).toBeGreaterThanOrEqual(0);
      expect((box?.x ?? 0) + (box?.width ?? 999), place).toBeLessThanOrEqual(320);
    }
    expect(troubles).toEqual([]);
    await close();
  });
});

describe('without WebGL', () => {
  it('says so kindly, and still shows the net and the numbers', async () => {
    const browser = await launchBrowser({ webgl: false });
    try {
      const { page, troubles } = await openPage(browser, inject('benchUrl'));
      await page.getByText('does not draw in 3D').waitFor();
      await goTo(page, 'Roof');
      expect(await page.locator('main svg path, main svg polygon').count()).toBeGreaterThan(3);
      const words = await page.getByRole('main').innerText();
      for (const word of ['Rise', 'Pitch', 'Slant']) expect(words).toContain(word);
      expect(
        await page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name)),
      ).not.toContainEqual(expect.stringMatching(/stage|three/));
      expect(troubles).toEqual([]);
    } finally {
      await browser.close();
    }
  });
});

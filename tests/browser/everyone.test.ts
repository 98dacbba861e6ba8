import type { Page } from 'playwright-core';
import { describe, expect, inject, it } from 'vitest';
import { axeFaults, onTheTable, openPage, settled, sharedBrowser } from './harness.ts';

const places = ['Body', 'Roof', 'Paper', 'Set out', 'Build'] as const;

const goTo = async (page: Page, place: string): Promise<void> => {
  await page.getByRole('tab', { name: place }).click();
  await settled(page);
};

describe('with WebGL', () => {
  let page: Page;
  onTheTable(async (opened) => {
    page = opened;
    await settled(page);
  });

  it('nothing keeps anybody from any place, wide or narrow, and none is scrolled sideways', async () => {
    for (const [width, height] of [
      [1280, 800],
      [390, 844],
      [320, 640],
    ] as const) {
      await page.setViewportSize({ width, height });
      for (const place of places) {
        await goTo(page, place);
        const at = `${place}, ${width} wide`;
        // What a narrow page shows at 390 it shows at 320.
        if (width !== 320) expect(await axeFaults(page), at).toEqual([]);
        const { content, view } = await page.evaluate(() => ({
          content: document.documentElement.scrollWidth,
          view: document.documentElement.clientWidth,
        }));
        expect(content, at).toBeLessThanOrEqual(view);
        // Every place can be reached: its tab lies within the window.
        const box = await page.getByRole('tab', { name: place }).boundingBox();
        expect(box?.x, at).toBeGreaterThanOrEqual(0);
        expect((box?.x ?? 0) + (box?.width ?? 9999), at).toBeLessThanOrEqual(width);
      }
    }
  });
});

describe('without WebGL', () => {
  it('says so kindly, and still shows the net and the numbers', async () => {
    const { page, troubles, close } = await openPage(await sharedBrowser(), inject('benchUrl'));
    try {
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
      await close();
    }
  });
});

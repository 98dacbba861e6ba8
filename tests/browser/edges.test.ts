import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axeFaults, onTheBench, settled } from './harness.ts';

let page: Page;

const goTo = async (place: string): Promise<void> => {
  await page.getByRole('tab', { name: place, exact: true }).click();
  await settled(page);
};

const tag = () => page.getByRole('region', { name: 'The edge at hand' });

/** The drawer with what can be set in this place, where the window is narrow. */
const drawer = () => page.locator('button[aria-controls="place-panel"][aria-expanded]');

describe('edges', () => {
  onTheBench(async (opened) => {
    page = opened;
    await settled(page);
  });

  it('what the fit tells lights up on the net and goes out again', async () => {
    await goTo('Build');
    const fit = page.getByRole('region', { name: 'How it fits' });
    const overhang = fit.getByRole('button', { name: /^Stands out/ });
    await overhang.click();
    expect(await overhang.getAttribute('aria-pressed')).toBe('true');
    // One eave for each of the four panels.
    expect(await page.locator('.is-lit .lit-line').count()).toBe(4);
    await fit.getByText(/^All .* seams/).click();
    await fit.getByRole('button', { name: /^A · Hip/ }).click();
    expect(await page.locator('.is-lit .lit-line').count()).toBe(2);
    await fit.getByText(/95 in 100 within/).waitFor();
    expect(await axeFaults(page)).toEqual([]);
    await fit.getByRole('button', { name: /^A · Hip/ }).click();
    expect(await page.locator('.is-lit').count()).toBe(0);
  });

  it('an edge is chosen from the list by keyboard, or by pointing at it in the net', async () => {
    await page.setViewportSize({ width: 320, height: 700 });
    await goTo('Paper');
    await drawer().click();
    const list = page.getByRole('combobox', { name: /^Edges of/ });
    await list.focus();
    await page.keyboard.press('ArrowDown');
    expect(await tag().innerText()).toMatch(/Hip, .*seam [A-Z]/s);
    expect(await page.locator('.sheet .is-at-hand .lit-line').count()).toBe(2);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    expect(await axeFaults(page)).toEqual([]);
    await tag().getByRole('button', { name: 'Put away' }).click();
    await drawer().click();
    const line = page.locator('.sheet .net path.line-mountain').first();
    const box = await line.boundingBox();
    await page.mouse.click((box?.x ?? 0) + (box?.width ?? 0) / 2, (box?.y ?? 0) + (box?.height ?? 0) / 2);
    expect(await tag().innerText()).toContain('Hip');
  });

  it('a hem and strips are asked for in Paper, and a hem is left out again', async () => {
    await goTo('Paper');
    const layer = async (): Promise<Readonly<Record<string, unknown>>> =>
      await page.evaluate(() => {
        const roofs = window.spirewright?.getState().file['roofs'] as readonly { layers: readonly object[] }[];
        return roofs[0]?.layers[0] as Readonly<Record<string, unknown>>;
      });
    await page.getByLabel('Hem', { exact: true }).fill('1/8');
    await page.getByLabel('Hem', { exact: true }).press('Enter');
    expect((await layer())['hem']).toBe('1/8in');
    await page.getByLabel('Flaps', { exact: true }).selectOption('none');
    await page.getByLabel('Without a flap').selectOption('strip');
    const joins = await page.evaluate(() =>
      window.spirewright?.getState().production?.roofs[0]?.made?.layers[0]?.net.seams.map(({ join }) => join),
    );
    expect(new Set(joins)).toEqual(new Set(['strip']));
    await page.getByRole('button', { name: 'Leave out: Hem' }).click();
    expect(Object.keys(await layer())).not.toContain('hem');
  });
});

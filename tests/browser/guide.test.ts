import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { axeFaults, type OpenBench, openPage, settled, sharedBrowser } from './harness.ts';

let opened: OpenBench;

beforeAll(async () => {
  opened = await openPage(await sharedBrowser(), inject('benchUrl'));
});
afterAll(async () => opened.close());

const openGate = async (): Promise<void> => {
  const { page } = opened;
  await page.waitForFunction(() => window.spirewright !== undefined);
  const file = new URL('../../shared/samples/harbour-gate.roofs.json', import.meta.url);
  await page.evaluate((text) => window.spirewright?.open(text), readFileSync(file, 'utf8'));
  await settled(page);
  await page.getByRole('tab', { name: 'Build' }).click();
  await page.getByRole('heading', { name: 'Gatehouse tower, 2 times' }).waitFor();
};

it('the guide is read by headings, lists and pictures with words, and its ticks are remembered', async () => {
  const { page, troubles } = opened;
  await openGate();
  const step = page.getByRole('checkbox', { name: /^Spread a thin, even coat of glue on the back of East and West/ });
  await step.check();
  expect(await page.getByText('1 of 9 done').count()).toBe(1);
  const pictures = page.locator('.guide').getByRole('img');
  expect(await pictures.first().getAttribute('aria-label')).toMatch(/^East, its flaps turned/);
  await page.reload();
  await openGate();
  expect(await step.isChecked()).toBe(true);
  await page.getByRole('button', { name: 'Take all ticks away' }).click();
  expect(await step.isChecked()).toBe(false);
  expect(troubles).toEqual([]);
});

it('why a panel has its size is told of any panel, with a rise to try, and a first roof is taught in six steps', async () => {
  const { page, troubles } = opened;
  await page.getByRole('tab', { name: 'Roof' }).click();
  const panel = page.getByRole('combobox', { name: 'Panel' });
  await panel.selectOption({ label: 'East, and 1 like it' });
  expect(await page.getByRole('img', { name: /^Right triangle: rise 2 7\/8 in/ }).count()).toBe(1);
  const rise = page.getByRole('slider', { name: 'A rise to try' });
  await rise.fill('0');
  // A flat roof is its own plan.
  const said = await page.getByText(/^Were it 0 in high/).innerText();
  const lengths = [...said.matchAll(/[\d /]+ in/g)].map(([length]) => length.trim());
  expect(lengths[1]).toBe(lengths[2]);
  await page.getByRole('button', { name: 'A first roof, in six steps' }).click();
  const lesson = page.getByRole('dialog', { name: 'A first roof' });
  await lesson.waitFor();
  expect(await lesson.getByRole('heading', { level: 3 }).count()).toBe(6);
  await lesson.getByRole('button', { name: 'Close' }).click();
  await lesson.waitFor({ state: 'detached' });
  expect(troubles).toEqual([]);
});

it('the guide is read aloud in order: headings by their levels, every picture and box with words of its own', async () => {
  const { page, troubles } = opened;
  await openGate();
  const guide = page.locator('.guide');
  const closed = guide.locator('details:not([open]) > summary');
  for (let left = await closed.count(); left > 0; left--) await closed.first().click();
  await settled(page);
  // From the title of the place down no level is left out.
  const levels = await page
    .locator('#place-panel')
    .getByRole('heading')
    .evaluateAll((all) => all.map(({ tagName }) => Number(tagName.slice(1))));
  expect(levels.length).toBeGreaterThan(10);
  for (const [i, level] of levels.slice(1).entries())
    expect(level - (levels[i] ?? 0), `heading ${i + 2}`).toBeLessThan(2);
  const named = async (role: 'img' | 'checkbox'): Promise<number> =>
    await guide.getByRole(role, { name: /\S.{11,}/ }).count();
  expect(await named('img')).toBe(await guide.locator('svg').count());
  expect(await named('checkbox')).toBe(await guide.locator('input').count());
  expect(await named('img')).toBeGreaterThan(12);
  // Within a roof no two boxes are called the same.
  for (const list of await guide.locator('.guide-steps').all()) {
    const own = await list.locator('label').allInnerTexts();
    expect(new Set(own).size).toBe(own.length);
  }
  expect(await axeFaults(page, 'any')).toEqual([]);
  expect(troubles).toEqual([]);
});

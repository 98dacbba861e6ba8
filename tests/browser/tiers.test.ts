import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { type OpenBench, openPage, settled, sharedBrowser } from './harness.ts';

let bench: OpenBench;
let page: Page;

interface Tiered {
  readonly shape: {
    readonly lower: { readonly kind: string; readonly shape: Readonly<Record<string, unknown>> };
    readonly wall: Readonly<Record<string, unknown>>;
    readonly upper: {
      readonly kind: string;
      readonly shape: Readonly<Record<string, unknown>>;
      readonly overhang?: unknown;
    };
  };
}

const state = async (): Promise<{ readonly roof: Tiered; readonly isMade: boolean }> =>
  await page.evaluate(() => {
    const { file, selected, production, isCurrent } = window.spirewright?.getState() ?? {};
    const roof = (file?.['roofs'] as readonly unknown[] | undefined)?.[selected ?? 0] as Tiered;
    return { roof, isMade: isCurrent === true && production?.roofs[selected ?? 0]?.made != null };
  });

const type = async (part: string, label: string, text: string): Promise<void> => {
  const box = page.getByRole('region', { name: part, exact: true }).getByLabel(label, { exact: true });
  await box.fill(text);
  await box.press('Enter');
};

beforeAll(async () => {
  bench = await openPage(await sharedBrowser(), inject('benchUrl'));
  page = bench.page;
  await settled(page);
  const text = readFileSync('shared/samples/working-quay.roofs.json', 'utf8');
  await page.evaluate((sample) => window.spirewright?.open(sample), text);
  await page.locator('.card').last().getByRole('button').first().click();
  await page.getByRole('tab', { name: 'Roof' }).click();
});
afterAll(async () => {
  expect(bench.troubles).toEqual([]);
  await bench.close();
});

describe('the parts of a two-tier roof', () => {
  it('take their sizes and the overhang over the wall as they are typed', async () => {
    await type('Lower roof', 'Pitch', '40');
    await type('Wall', 'Height', '18');
    await type('Upper roof', 'Overhang', '5 mm');
    const { roof, isMade } = await state();
    expect(isMade).toBe(true);
    expect(roof.shape.lower.shape['pitch']).toBe(40);
    expect(roof.shape.wall['height']).toBe('18mm');
    expect(roof.shape.upper.overhang).toBe('5 mm');
  });

  it('say height another way, and the eave by its own sizes and back, without a change of the roof', async () => {
    const upper = page.getByRole('region', { name: 'Upper roof', exact: true });
    const before = (await state()).roof;
    await upper.getByRole('radio', { name: 'Give the rise' }).check();
    await upper.getByRole('radio', { name: 'By its sizes' }).check();
    const { roof, isMade } = await state();
    expect(isMade).toBe(true);
    expect(Object.keys(roof.shape.upper.shape).sort()).toEqual(['depth', 'rise', 'width']);
    expect(roof.shape.upper.shape['width']).toBe('54mm');
    expect(roof.shape.upper.overhang).toBeUndefined();
    await upper.getByRole('radio', { name: 'By its overhang' }).check();
    expect((await state()).roof.shape.upper.overhang).toBe('5mm');
    for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Undo' }).click();
    expect((await state()).roof).toEqual(before);
  });

  it('change their kind, keep what carries over, all in one undo; a roof of roofs is none of them', async () => {
    const before = (await state()).roof;
    const lower = page.getByRole('region', { name: 'Lower roof', exact: true });
    await lower.locator('summary').first().click();
    const kind = (name: string) => lower.getByRole('radio', { name, exact: true });
    expect(await kind('Two-tier').count()).toBe(0);
    await kind('Mansard').check();
    expect((await state()).roof.shape.lower.kind).toBe('mansard');
    await kind('Gable').check();
    const { roof, isMade } = await state();
    expect(isMade).toBe(true);
    expect(roof.shape.lower).toEqual({ kind: 'gable', shape: { pitch: 40 } });
    expect(roof.shape.upper).toEqual(before.shape.upper);
    expect(roof.shape.wall).toEqual(before.shape.wall);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect((await state()).roof).toEqual(before);
  });

  it('take a measured wall by its corners, and say which of them cannot be', async () => {
    const before = (await state()).roof;
    const wall = page.getByRole('region', { name: 'Wall', exact: true });
    await wall.getByRole('radio', { name: 'Measured', exact: true }).check();
    expect((await state()).isMade).toBe(true);
    const corners = wall.getByLabel(/^Corners, going round/);
    const [, second = ''] = (await corners.inputValue()).split('; ');
    expect(second).toMatch(/^\d+mm, 0mm$/);
    const width = Number.parseFloat(second);
    await corners.fill(`0, 0; ${width}, 0; ${width}, 20; ${width - 8}, 28; 0, 28`);
    await corners.press('Enter');
    expect((await state()).isMade).toBe(true);
    expect((await state()).roof.shape.wall['corners']).toHaveLength(5);
    await corners.fill('0, 0; wide, 0; 10, 20');
    await corners.press('Enter');
    expect(await wall.innerText()).toContain('“wide, 0” is not a corner.');
    expect((await state()).roof.shape.wall['corners']).toHaveLength(5);
    await corners.press('Escape');
    await wall.getByRole('radio', { name: 'Sides and the angles between them' }).check();
    expect((await state()).isMade).toBe(true);
    expect((await state()).roof.shape.wall['angles']).toHaveLength(5);
    for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Undo' }).click();
    expect((await state()).roof).toEqual(before);
  });

  it('say what is wrong with a size beside it, and lose nothing', async () => {
    const before = (await state()).roof;
    await type('Wall', 'Width', 'wide');
    const box = page.getByRole('region', { name: 'Wall', exact: true }).getByLabel('Width', { exact: true });
    expect(await box.getAttribute('aria-invalid')).toBe('true');
    expect(await page.locator(`[id="${await box.getAttribute('aria-describedby')}"]`).innerText()).toContain('wide');
    expect((await state()).roof).toEqual(before);
    await box.press('Escape');
    // A wall wider than the roof under it is no roof: the table keeps the last one and says why.
    await type('Wall', 'Width', '200');
    expect((await state()).isMade).toBe(false);
    expect(await page.locator('main').innerText()).toMatch(/wall/i);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect((await state()).isMade).toBe(true);
  });
});

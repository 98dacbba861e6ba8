import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { kinds } from '../../src/core/roofs/catalogue.ts';
import { onTheBench, settled } from './harness.ts';

let page: Page;

onTheBench(async (opened) => {
  page = opened;
  await settled(page);
});

interface RoofFile {
  readonly kind: string;
  readonly shape: Readonly<Record<string, unknown>>;
  readonly body?: unknown;
  readonly overhang?: unknown;
  readonly layers: readonly { readonly as: string; readonly stock: string }[];
}

const roofFile = async (index = 0): Promise<RoofFile> =>
  (await page.evaluate(
    (at) => (window.spirewright?.getState().file['roofs'] as readonly unknown[] | undefined)?.[at],
    index,
  )) as RoofFile;

const isMade = async (index = 0): Promise<boolean> =>
  await page.evaluate((at) => {
    const { production, isCurrent } = window.spirewright?.getState() ?? {};
    return isCurrent === true && production?.roofs[at]?.made != null;
  }, index);

/** Kinds that stand on any rectangle. */
const keepBody: readonly string[] = ['gable', 'hip', 'hip-and-valley', 'half-hip', 'gambrel', 'mansard', 'shed'];

const kindNamed = (name: string) => page.getByRole('radio', { name, exact: true });

describe('choosing a kind', () => {
  it('shows every kind as a picture that says what it is', async () => {
    const pictures = page.getByRole('group', { name: 'Kind of roof' });
    const count = await pictures.getByRole('radio').count();
    expect(count).toBeGreaterThanOrEqual(12);
    expect(await pictures.locator('svg').count()).toBe(count);
    // A picture is drawn when its place in the list comes near.
    for (const picture of await pictures.locator('svg').all()) {
      await picture.scrollIntoViewIfNeeded();
      await picture.locator('path').nth(3).waitFor({ state: 'attached' });
    }
    const about = await kindNamed('Hip').getAttribute('aria-describedby');
    expect(await page.locator(`[id="${about}"]`).textContent()).toContain('Four slopes');
  });

  it('goes through the kinds with the arrow keys, gives back what one of them could not use, in one undo', async () => {
    const before = await roofFile();
    await kindNamed('Pyramid').focus();
    // The second kind has a regular plan, so that the body of the first has to give way while it is looked at.
    await page.keyboard.press('ArrowRight');
    expect(await kindNamed('Spire').isChecked()).toBe(true);
    expect((await roofFile()).kind).toBe('spire');
    const after = kinds.slice(
      kinds.findIndex(({ id }) => id === 'spire') + 1,
      kinds.findIndex(({ id }) => id === 'shed') + 1,
    );
    for (const { id: kind } of after) {
      await page.keyboard.press('ArrowRight');
      const now = await roofFile();
      expect(now.kind).toBe(kind);
      expect(await isMade(), kind).toBe(true);
      if (!keepBody.includes(kind)) continue;
      expect(now.body, kind).toEqual(before.body);
      expect(now.overhang, kind).toEqual(before.overhang);
      expect(now.layers, kind).toEqual(before.layers);
      if ('rise' in now.shape) expect(now.shape['rise'], kind).toBe(before.shape['rise']);
    }
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await roofFile()).toEqual(before);
  });

  it('finds a kind by words, and says when there is none', async () => {
    const find = page.getByLabel('Find a kind of roof');
    await find.fill('bell');
    const pictures = page.getByRole('group', { name: 'Kind of roof' });
    expect(await pictures.getByRole('radio').first().getAttribute('aria-label')).toBe('Bell-cast pyramid');
    await find.press('Tab');
    await page.keyboard.press('Space');
    expect((await roofFile()).kind).toBe('bell-cast-pyramid');
    await find.fill('thatch of gold');
    expect(await pictures.innerText()).toContain('No kind of roof');
    await find.press('Escape');
    expect(await pictures.getByRole('radio').count()).toBeGreaterThanOrEqual(12);
  });

  it('finds a kind by what is at its top, by words too, and by another name', async () => {
    const pictures = page.getByRole('group', { name: 'Kind of roof' });
    const titles = async (): Promise<readonly (string | null)[]> =>
      await pictures.getByRole('radio').evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')));
    await page.getByRole('radio', { name: 'A ridge at the top' }).check();
    expect(await titles()).toEqual(expect.arrayContaining(['Gable', 'Hip', 'Gambrel']));
    expect(await titles()).not.toContain('Pyramid');
    await page.getByRole('radio', { name: 'A peak at the top' }).check();
    expect(await titles()).toEqual(expect.arrayContaining(['Pyramid', 'Spire', 'Helm']));
    await page.getByRole('radio', { name: 'Another top' }).check();
    expect(await titles()).toEqual(expect.arrayContaining(['Shed', 'Frustum']));
    await page.getByLabel('Find a kind of roof').fill('skillion');
    expect(await titles()).toEqual(['Shed']);
    await kindNamed('Shed').check();
    expect((await roofFile()).kind).toBe('shed');
  });

  it('begins a new roof of the kind at hand, of sizes that make one', async () => {
    for (const kind of ['Helm', 'Spire', 'Gable', 'Mansard']) {
      await kindNamed(kind).check();
      await page.getByRole('button', { name: 'New roof' }).click();
      const count = await page.locator('.card').count();
      expect(await isMade(count - 1), kind).toBe(true);
      const { kind: id, body, shape } = await roofFile(count - 1);
      expect(id).toBe(kind.toLowerCase());
      expect(body, kind).toBeDefined();
      for (const text of Object.values({ ...shape, ...(body as object) }))
        expect(String(text), kind).toMatch(/^(\d+( \d+\/\d+)?in|\d+\/\d+in|\d+|along-.*)$/);
    }
  });
});

describe('what may be left out', () => {
  it('is an empty box with what then counts, and is taken out of the file again', async () => {
    await kindNamed('Half-hip').check();
    await page.getByRole('tab', { name: 'Roof' }).click();
    const box = page.getByLabel('Gable rise', { exact: true });
    expect(await box.inputValue()).toBe('');
    expect(await box.getAttribute('placeholder')).toBe('20mm');
    await box.fill('7/8');
    await box.press('Enter');
    expect((await roofFile()).shape['gableRise']).toBe('7/8in');
    await page.getByRole('button', { name: 'Leave out: Gable rise' }).click();
    expect(Object.keys((await roofFile()).shape)).not.toContain('gableRise');
    expect(await box.inputValue()).toBe('');
    expect(await box.evaluate((element) => element === document.activeElement)).toBe(true);
    await box.fill('1in');
    await box.press('Enter');
    await box.fill('');
    await box.press('Enter');
    expect(Object.keys((await roofFile()).shape)).not.toContain('gableRise');
  });

  it('is said where the text is wrong, with its measures unbroken', async () => {
    await page.getByRole('tab', { name: 'Roof' }).click();
    const box = page.getByLabel('Rise', { exact: true });
    await box.fill('3-7/16 lb');
    await box.press('Enter');
    const hint = page.locator(`[id="${await box.getAttribute('aria-describedby')}"]`);
    const measures = await hint.locator('.measure').allInnerTexts();
    expect(measures).toContain('3-7/16 in');
    for (const measure of await hint.locator('.measure').all())
      expect(await measure.evaluate((element) => element.getClientRects().length)).toBe(1);
  });
});

describe('layers', () => {
  it('are added from the inside out, taken off again, and never run out', async () => {
    await page.getByRole('tab', { name: 'Paper' }).click();
    const kindsOfLayers = async (): Promise<readonly string[]> => (await roofFile()).layers.map(({ as }) => as);
    expect(await kindsOfLayers()).toEqual(['cover']);
    expect(await page.getByRole('button', { name: /^Take this layer off/ }).count()).toBe(0);
    await page.getByRole('button', { name: 'Add a folded shell' }).click();
    expect(await kindsOfLayers()).toEqual(['shell', 'cover']);
    expect(await isMade()).toBe(true);
    await page.getByRole('button', { name: 'Add a paper cover' }).click();
    expect(await kindsOfLayers()).toEqual(['shell', 'cover', 'cover']);
    expect(await isMade()).toBe(true);
    await page.getByRole('button', { name: 'Take this layer off: Folded shell' }).click();
    await page.getByRole('button', { name: 'Take this layer off: Paper cover 1' }).first().click();
    expect(await kindsOfLayers()).toEqual(['cover']);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await kindsOfLayers()).toEqual(['cover', 'cover']);
  });
});

describe('leaving the page', () => {
  const asksOnLeaving = async (): Promise<boolean> => {
    let asked = false;
    page.once('dialog', (dialog) => {
      asked = dialog.type() === 'beforeunload';
      void dialog.accept();
    });
    await page.reload();
    await settled(page);
    page.removeAllListeners('dialog');
    return asked;
  };

  it('asks only while there is work that was not saved', async () => {
    await page.getByRole('tab', { name: 'Roof' }).click();
    expect(await asksOnLeaving()).toBe(false);
    const typeRise = async (text: string): Promise<void> => {
      await page.getByRole('tab', { name: 'Roof' }).click();
      await page.getByLabel('Rise', { exact: true }).fill(text);
      await page.getByLabel('Rise', { exact: true }).press('Enter');
    };
    await typeRise('3in');
    expect(await asksOnLeaving()).toBe(true);
    await typeRise('3in');
    await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save', exact: true }).click()]);
    expect(await asksOnLeaving()).toBe(false);
    await typeRise('3in');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await asksOnLeaving()).toBe(false);
  });
});

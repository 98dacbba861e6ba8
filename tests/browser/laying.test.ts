import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axeFaults, onTheBench, onTheTable, settled } from './harness.ts';

let page: Page;

/** Two towers of four panels each on a striped paper that may be turned; of a second paper there is one sheet. */
const project = {
  format: 'spirewright-project',
  version: 1,
  title: 'Samphire Staithe: light towers',
  units: 'mm',
  ruler: '1mm',
  stock: [
    {
      id: 'striped',
      name: 'Striped',
      width: 200,
      height: 200,
      direction: 'any',
      print: { pattern: 'stripes', repeat: 10 },
    },
    { id: 'card', name: 'Card', width: 100, height: 100, count: 1 },
  ],
  roofs: [
    {
      id: 'tower',
      title: 'Light tower',
      copies: 2,
      kind: 'pyramid',
      shape: { width: 40, depth: 40, rise: 50 },
      layers: [{ as: 'cover', stock: 'striped', flaps: { on: 'none' } }],
    },
  ],
};

const begin = async (opened: Page): Promise<void> => {
  page = opened;
  await page.evaluate((text) => window.spirewright?.open(text), JSON.stringify(project));
  await page.getByRole('tab', { name: 'Paper' }).click();
  await page.getByRole('radio', { name: 'Laid on paper' }).check();
  await pieces().first().waitFor();
  // A better layout may still be on its way; from now on everything lies where it is until a hand moves it.
  await page.locator('.note', { hasText: 'Every piece is laid by the program.' }).waitFor();
};

const pieces = () => page.locator('.laid-piece');
/** The middle of what shows of a piece, however it is turned. */
const inside = async (piece: Locator): Promise<{ readonly x: number; readonly y: number }> =>
  await piece.evaluate((element) => {
    const { left, top, width, height } = element.getBoundingClientRect();
    const STEPS = 20;
    const hits = Array.from({ length: STEPS * STEPS }, (_, i) => ({
      x: left + (width * ((i % STEPS) + 0.5)) / STEPS,
      y: top + (height * (Math.floor(i / STEPS) + 0.5)) / STEPS,
    })).filter(({ x, y }) => element.contains(document.elementFromPoint(x, y)));
    const mean = (key: 'x' | 'y'): number => hits.reduce((sum, hit) => sum + hit[key], 0) / hits.length;
    return { x: mean('x'), y: mean('y') };
  });
const card = () => page.getByRole('region', { name: 'The piece in hand' });
interface At {
  readonly x: number;
  readonly y: number;
  readonly rotation: number;
  readonly locked?: boolean;
  readonly sheet: number;
}
/** Where every piece lies, by its title as the drawing says it. */
const places = async (): Promise<Record<string, At>> =>
  await page.evaluate(() => {
    const { production } = window.spirewright?.getState() ?? {};
    const found: Record<string, At> = {};
    for (const sheet of production?.sheets ?? [])
      for (const { piece, copy, x, y, rotation, locked = false } of sheet.placements)
        found[`${piece}/${copy}`] = { x, y, rotation, locked, sheet: sheet.index };
    return found;
  });
interface Point {
  readonly x: number;
  readonly y: number;
}
/** Real fingers: what they do, and where each of them is. */
const fingers = async () => {
  const session = await page.context().newCDPSession(page);
  return async (type: 'touchStart' | 'touchMove' | 'touchEnd', ...points: readonly Point[]): Promise<void> => {
    await session.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: points.map((point, id) => ({ ...point, id })),
    });
  };
};
const positions = async (): Promise<readonly Record<string, unknown>[]> =>
  await page.evaluate(() => (window.spirewright?.getState().file['positions'] ?? []) as never);
const moved = async (before: Record<string, At>): Promise<readonly string[]> => {
  const after = await places();
  return Object.keys(after).filter((key) => JSON.stringify(after[key]) !== JSON.stringify(before[key]));
};

describe('pieces on flat sheets', () => {
  onTheBench(begin);

  it('are taken up and moved by keys alone, by a mark of the ruler; all others stay; it is one step to undo', async () => {
    const before = await places();
    const last = pieces().last();
    await last.focus();
    await page.keyboard.press('Enter');
    expect(await last.getAttribute('aria-pressed')).toBe('true');
    // Off to a sheet of its own, where nothing is in its way.
    await page.keyboard.press('PageDown');
    const fresh = await places();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowUp');
    const now = await places();
    const [only] = await moved(fresh);
    expect((await moved(fresh)).length).toBe(1);
    expect((now[only as string]?.x ?? 0) - (fresh[only as string]?.x ?? 0)).toBeCloseTo(2, 6);
    expect((now[only as string]?.y ?? 0) - (fresh[only as string]?.y ?? 0)).toBeCloseTo(10, 6);
    expect((await positions()).length).toBe(8);
    expect(await card().innerText()).toMatch(/2 mm from the left, 10 mm from below/);
    await page.keyboard.press('r');
    const turned = ((await places())[only as string]?.rotation ?? 0) - (now[only as string]?.rotation ?? 0);
    expect(Math.sin(turned)).toBeCloseTo(-Math.sin(Math.PI / 12), 9);
    await page.keyboard.press('l');
    expect((await positions()).filter(({ locked }) => locked === true).length).toBe(1);
    for (let i = 0; i < 4; i++) await page.getByRole('button', { name: 'Undo' }).click();
    expect(await positions()).toEqual([]);
    expect(await places()).toEqual(before);
  });

  it('say at once what they lie on, and are not written down there', async () => {
    const [one, other] = [pieces().nth(0), pieces().nth(1)];
    const [from, to] = [await inside(one), await inside(other)];
    const before = await places();
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x + 3, to.y, { steps: 4 });
    expect(await card().innerText()).toMatch(/It lies on Light tower/);
    await page.mouse.up();
    expect(await one.getAttribute('aria-label')).toContain('cannot lie here');
    expect(await places()).toEqual(before);
    await page.getByRole('button', { name: 'Put it back' }).click();
    expect(await card().innerText()).not.toMatch(/It lies on/);
    expect(await positions()).toEqual([]);
  });

  it('are typed into place, and what is locked stays while the rest is laid anew', async () => {
    await page.getByRole('combobox', { name: 'Piece in hand' }).selectOption({ index: 1 });
    await page.getByLabel('On', { exact: true }).selectOption({ label: 'Striped, sheet 2 (new)' });
    const left = page.getByLabel('From the left', { exact: true });
    await left.fill('31 apples');
    await left.press('Enter');
    expect(await left.getAttribute('aria-invalid')).toBe('true');
    await left.fill('31');
    await left.press('Enter');
    expect(await card().innerText()).toContain('31 mm from the left');
    await page.getByRole('button', { name: 'Lock here' }).click();
    const held = (await positions()).find(({ locked }) => locked === true);
    expect(held).toMatchObject({ roof: 'tower', stock: 'striped' });
    const { sheet: _, ...lies } = held ?? {};
    await page.getByRole('button', { name: 'Put down' }).click();
    await page.getByRole('button', { name: 'Lay round what is locked' }).click();
    // It goes on until it is told that this is enough, or there is nothing to gain.
    const enough = page.getByRole('button', { name: 'Enough: keep this one' });
    await enough.click({ timeout: 3000 }).catch(() => undefined);
    await page.waitForFunction(
      () => ((window.spirewright?.getState().file['positions'] ?? []) as readonly unknown[]).length === 8,
    );
    const after = await positions();
    expect(after.length).toBe(8);
    expect(after.find(({ locked }) => locked === true)).toMatchObject(lies);
  });

  it('are seen, named and reached on a narrow page', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await settled(page);
    await pieces()
      .nth(2)
      .tap()
      .catch(async () => await pieces().nth(2).click());
    expect(await card().innerText()).toMatch(/Light tower/);
    // Turned over its neighbours and out over the edge it has the most to say, and the card still lies over no sheet.
    for (const key of ['r', 'Shift+ArrowRight', 'Shift+ArrowDown', 'Shift+ArrowDown']) await page.keyboard.press(key);
    expect(await card().locator('.trouble').count()).toBe(2);
    await page.setViewportSize({ width: 390, height: 560 });
    await settled(page);
    const slip = await card().boundingBox();
    const sheets = await page.locator('.flat-sheets').boundingBox();
    expect((sheets?.y ?? 0) + (sheets?.height ?? 0)).toBeLessThanOrEqual(slip?.y ?? 0);
    expect(await axeFaults(page)).toEqual([]);
    // Held sideways the card lies beside the sheets.
    await page.setViewportSize({ width: 844, height: 390 });
    await settled(page);
    const beside = await page.locator('.flat-sheets').boundingBox();
    expect((beside?.x ?? 0) + (beside?.width ?? 0)).toBeLessThanOrEqual((await card().boundingBox())?.x ?? 0);
    expect(beside?.height ?? 0).toBeGreaterThan(140);
  });
});

describe('pieces under a finger on a narrow page', () => {
  onTheBench(begin, { hasTouch: true, isMobile: true });
  const scrolled = () =>
    page.evaluate(() => [...document.querySelectorAll('*')].map(({ scrollTop }) => scrollTop).filter((top) => top > 0));

  it('stay under it while nothing scrolls, and go on by the keys', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await settled(page);
    const piece = pieces().first();
    const start = await inside(piece);
    const from = await piece.boundingBox();
    const touch = await fingers();
    await touch('touchStart', start);
    for (let step = 1; step <= 12; step++) {
      await touch('touchMove', { x: start.x + 3 * step, y: start.y - 10 * step });
      expect(await scrolled()).toEqual([]);
    }
    const to = await piece.boundingBox();
    // It may have been drawn to an edge that is near.
    expect(Math.abs((to?.x ?? 0) - (from?.x ?? 0) - 36)).toBeLessThan(10);
    expect(Math.abs((to?.y ?? 0) - (from?.y ?? 0) + 120)).toBeLessThan(10);
    await touch('touchEnd');
    await page.keyboard.press('ArrowUp');
    expect((await piece.boundingBox())?.y ?? 0).toBeLessThan(to?.y ?? 0);
  });
});

describe('a paper', () => {
  onTheBench(begin);
  const group = (name: string) => page.getByRole('region', { name: `Paper: ${name}` });
  const stock = async (index: number): Promise<Record<string, unknown>> =>
    await page.evaluate(
      (i) => ((window.spirewright?.getState().file['stock'] ?? []) as readonly Record<string, unknown>[])[i] ?? {},
      index,
    );

  it('has its size from a list, its price from a sentence, its print from our own', async () => {
    await group('Striped').getByLabel('Size', { exact: true }).selectOption('A4');
    expect(await stock(0)).toMatchObject({ width: '210mm', height: '297mm' });
    await group('Striped').getByText('Margin, gap and price').click();
    const price = group('Striped').getByLabel('Price', { exact: true });
    await price.fill('dear');
    await price.press('Enter');
    expect(await group('Striped').innerText()).toContain('says no price');
    await price.fill('3.50 EUR for 8');
    await price.press('Enter');
    expect((await stock(0))['price']).toEqual({ amount: 3.5, currency: 'EUR', sheets: 8 });
    await group('Striped').getByLabel('Printed with', { exact: true }).selectOption('checks');
    expect((await stock(0))['print']).toEqual({ pattern: 'checks' });
  });

  it('is an offcut with its corners typed; a slip is said where it is', async () => {
    await group('Card').getByRole('button', { name: 'It is an offcut' }).click();
    const corners = group('Card').getByLabel(/^Corners/);
    await corners.fill('0, 0; 90, 0; 90 40; 0, 80');
    await corners.press('Enter');
    expect(await group('Card').innerText()).toContain('“90 40” is not a corner');
    await corners.fill('0, 0; 90, 0; 90, 40; 0, 80');
    await corners.press('Enter');
    expect((await stock(1))['outline']).toEqual([
      [0, 0],
      ['90mm', 0],
      ['90mm', '40mm'],
      [0, '80mm'],
    ]);
    expect(await page.evaluate(() => window.spirewright?.getState().isCurrent)).toBe(true);
    // The same is drawn and edited on the table; what was not touched stays as it was typed.
    await group('Card').getByRole('button', { name: 'Draw it on the table' }).click();
    await page.getByRole('button', { name: /^Corner 3 of 4/ }).focus();
    await page.keyboard.press('ArrowRight');
    expect((await stock(1))['outline']).toEqual([
      [0, 0],
      ['90mm', 0],
      ['91mm', '40mm'],
      [0, '80mm'],
    ]);
    // On a narrow page nothing lies over its head.
    await page.setViewportSize({ width: 390, height: 844 });
    await page.getByRole('button', { name: 'Back to the sheets' }).click();
    await pieces().first().waitFor();
  });

  it('wears a picture from a file, kept in the project, as wide as is typed', async () => {
    const picture = await page.evaluate(() => {
      const canvas = document.createElement('canvas');
      canvas.width = 1600;
      canvas.height = 800;
      canvas.getContext('2d')?.fillRect(0, 0, 800, 400);
      return canvas.toDataURL('image/png').split(',')[1] ?? '';
    });
    await group('Striped')
      .getByLabel('Picture of the paper…')
      .setInputFiles({ name: 'print.png', mimeType: 'image/png', buffer: Buffer.from(picture, 'base64') });
    await group('Striped').getByRole('img').waitFor();
    const kept = (await stock(0))['picture'] as { readonly file: string; readonly width: unknown };
    expect(kept.file).toMatch(/^data:image\/jpeg;base64,/);
    // 1600 points are more than paper is looked at with.
    expect(
      await group('Striped')
        .getByRole('img')
        .evaluate((image: HTMLImageElement) => image.naturalWidth),
    ).toBe(1024);
    expect(await stock(0)).not.toHaveProperty('print');
    const width = group('Striped').getByLabel('Shows', { exact: true });
    await width.fill('80');
    await width.press('Enter');
    expect((await stock(0))['picture']).toMatchObject({ width: '80mm' });
    await group('Striped')
      .getByLabel('Another picture…')
      .setInputFiles({ name: 'letter.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') });
    await page.getByText('letter.txt is not a picture.').waitFor();
    expect((await stock(0))['picture']).toMatchObject({ width: '80mm' });
  });
});

interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Points of two pictures of the page that differ, outside of these parts of it. */
const changedOutside = async (before: Buffer, after: Buffer, apart: readonly Rect[]): Promise<number> =>
  await page.evaluate(
    async ([one, other, rects]) => {
      const points = async (picture: string): Promise<ImageData> => {
        const image = new Image();
        image.src = `data:image/png;base64,${picture}`;
        await image.decode();
        const canvas = new OffscreenCanvas(image.width, image.height);
        const pen = canvas.getContext('2d') as OffscreenCanvasRenderingContext2D;
        pen.drawImage(image, 0, 0);
        return pen.getImageData(0, 0, image.width, image.height);
      };
      const [a, b] = await Promise.all([points(one), points(other)]);
      let count = 0;
      for (let i = 0; i < a.width * a.height; i++) {
        const [x, y] = [i % a.width, Math.floor(i / a.width)];
        if (rects.some((rect) => x > rect.x && y > rect.y && x < rect.x + rect.width && y < rect.y + rect.height))
          continue;
        if (Math.abs((a.data[i * 4] ?? 0) - (b.data[i * 4] ?? 0)) > 12) count++;
      }
      return count;
    },
    [before.toString('base64'), after.toString('base64'), apart] as const,
  );

describe('pieces on the 3D table', () => {
  /** There is still room for the cards and the panel. */
  const wide = { width: 900, height: 560 };
  // The second test goes on with the layout of the first one.
  onTheTable(async (opened) => {
    const title = await opened.evaluate(() => window.spirewright?.getState().file['title']);
    if (title !== project.title) return await begin(opened);
    await opened.getByRole('tab', { name: 'Paper' }).click();
    await pieces().first().waitFor();
  }, wide);

  it('carry the print of the roof with them while they are moved, and the seams say whether it runs on', async () => {
    const first = pieces().first();
    await first.focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('PageDown');
    await settled(page);
    const box = await page.locator('.is-in-hand .laid-piece').boundingBox();
    const seams = page.getByRole('region', { name: 'The print over the seams' });
    expect(await seams.innerText()).toMatch(/The print (breaks at|goes over)/);
    const slip = await card().boundingBox();
    if (box === null || slip === null) throw new Error('nothing is drawn');
    const written = await positions();
    const before = await page.screenshot();
    const from = await inside(page.locator('.is-in-hand .laid-piece'));
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 24, from.y - 20, { steps: 4 });
    await settled(page);
    // Still under the hand: nothing is written, but the roof beside the sheets wears another part of them.
    expect(await positions()).toEqual(written);
    const round: Rect = { x: box.x - 70, y: box.y - 90, width: box.width + 140, height: box.height + 150 };
    const panel = (await page.locator('#place-panel').boundingBox()) as Rect;
    expect(await changedOutside(before, await page.screenshot(), [round, slip, panel])).toBeGreaterThan(100);
    await page.mouse.up();
    expect((await positions()).length).toBe(8);
    expect(await positions()).not.toEqual(written);
  });

  it('are slid by a finger beside them, brought nearer by two on them, and all seen again by a key; the roof is turned', async () => {
    await page.setViewportSize({ width: 390, height: 560 });
    await settled(page);
    const touch = await fingers();
    /** Middles of three pieces. */
    const middles = async (): Promise<readonly [Point, Point, Point]> => {
      const boxes = await Promise.all([0, 1, 2].map((i) => pieces().nth(i).boundingBox()));
      const points = boxes.map((box) => ({
        x: (box?.x ?? Number.NaN) + (box?.width ?? 0) / 2,
        y: (box?.y ?? Number.NaN) + (box?.height ?? 0) / 2,
      }));
      return points as unknown as readonly [Point, Point, Point];
    };
    const apart = (one: Point, other: Point): number => Math.hypot(one.x - other.x, one.y - other.y);
    const first = await middles();
    const beside = { x: 20, y: 60 };
    await touch('touchStart', beside);
    for (const by of [6, 12]) await touch('touchMove', { x: beside.x + 2 * by, y: beside.y + by });
    await touch('touchEnd');
    await settled(page);
    const slid = await middles();
    expect([slid[0].x - first[0].x, slid[0].y - first[0].y].map(Math.round)).toEqual([24, 12]);
    expect(apart(slid[0], slid[2])).toBeCloseTo(apart(first[0], first[2]), 1);
    const before = await places();
    const [{ x, y }, other] = [await inside(pieces().nth(0)), await inside(pieces().nth(2))];
    const one = { x: x - 24, y };
    await touch('touchStart', { x, y });
    await touch('touchMove', one);
    await touch('touchStart', one, other);
    for (const by of [16, 32])
      await touch('touchMove', { x: one.x - by, y: one.y - by }, { x: other.x + by, y: other.y + by });
    await touch('touchEnd');
    await settled(page);
    // The first finger has let go of its piece: all of them are as far from each other as before, only larger.
    const near = await middles();
    const larger = apart(near[1], near[2]) / apart(first[1], first[2]);
    expect(larger).toBeGreaterThan(1.3);
    expect(apart(near[0], near[2]) / apart(first[0], first[2])).toBeCloseTo(larger, 1);
    expect(await places()).toEqual(before);
    await page.getByRole('button', { name: 'All sheets from above' }).click();
    await settled(page);
    expect(apart((await middles())[0], first[0])).toBeLessThan(2);
    await page.getByRole('tab', { name: 'Roof' }).click();
    await settled(page);
    const asBefore = await page.screenshot();
    await touch('touchStart', { x: 190, y: 300 });
    for (const by of [30, 60]) await touch('touchMove', { x: 190 + by, y: 300 });
    await touch('touchEnd');
    await settled(page);
    expect(await changedOutside(asBefore, await page.screenshot(), [])).toBeGreaterThan(2000);
  });
});

import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axeFaults, onTheBench, settled } from './harness.ts';

let page: Page;

onTheBench(async (opened) => {
  page = opened;
  await settled(page);
});

type Corner = readonly [string, string];
interface RoofFile {
  readonly kind: string;
  readonly shape: { readonly pitches?: Readonly<Record<string, unknown>> } & Readonly<Record<string, unknown>>;
  readonly body: {
    readonly corners?: readonly Corner[];
    readonly courts?: readonly (readonly Corner[])[];
    readonly lengths?: readonly string[];
    readonly [key: string]: unknown;
  };
}

const roofFile = async (): Promise<RoofFile> =>
  (await page.evaluate(
    () => (window.spirewright?.getState().file['roofs'] as readonly unknown[] | undefined)?.[0],
  )) as RoofFile;
const isMade = async (): Promise<boolean> =>
  await page.evaluate(() => {
    const { production, isCurrent } = window.spirewright?.getState() ?? {};
    return isCurrent === true && production?.roofs[0]?.made != null;
  });
const undo = () => page.getByRole('button', { name: 'Undo' });
const plan = () => page.getByRole('region', { name: 'The plan' });
const corner = (number: number): Locator => plan().getByRole('button', { name: new RegExp(`^Corner ${number} of`) });
const sideBox = (title: string): Locator => plan().getByLabel(`Length of the side ${title}`, { exact: true });

/** A project with one roof of slopes over an L, or another plan. */
const openPlan = async (roof: Readonly<Record<string, unknown>>): Promise<void> => {
  const file = {
    format: 'spirewright-project',
    version: 1,
    title: 'Samphire Staithe: the boat yard',
    units: 'in',
    ruler: '1/16in',
    stock: [{ id: 'paper', name: 'Paper', width: '12in', height: '18in', direction: 'any' }],
    roofs: [
      {
        id: 'yard',
        title: 'Boat yard',
        kind: 'hip-and-valley',
        shape: { pitch: '8/12' },
        overhang: '1/8in',
        layers: [{ as: 'cover', stock: 'paper', pieces: 'per-panel' }],
        ...roof,
      },
    ],
  };
  expect(await page.evaluate((text) => window.spirewright?.open(text), JSON.stringify(file))).toBe(true);
  expect(await isMade()).toBe(true);
};
const ell = {
  corners: [
    ['0in', '0in'],
    ['5in', '0in'],
    ['5in', '2in'],
    ['2.25in', '2in'],
    ['2.25in', '4in'],
    ['0in', '4in'],
  ],
  height: '2in',
};
const showPlan = async (): Promise<void> => {
  await page.getByRole('radio', { name: 'In plan' }).check();
  await corner(1).waitFor();
};
const drag = async (from: Locator, right: number, down: number): Promise<void> => {
  const box = await from.boundingBox();
  if (box === null) throw new Error('nothing to take hold of');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (const share of [0.3, 0.6, 1]) await page.mouse.move(x + right * share, y + down * share);
  await page.mouse.up();
};

describe('the plan of a body', () => {
  it('is drawn as soon as the body is measured, and a length typed on a side keeps it square', async () => {
    await page.getByRole('radio', { name: 'Measured' }).check();
    const { corners } = (await roofFile()).body;
    expect(corners).toHaveLength(4);
    await sideBox('South').fill('3');
    await sideBox('South').press('Enter');
    expect((await roofFile()).body.corners).toEqual([
      ['0in', '0in'],
      ['3in', '0in'],
      ['3in', '1 15/16in'],
      ['0in', '1 15/16in'],
    ]);
    expect(await isMade()).toBe(true);
    expect(await sideBox('North').inputValue()).toBe('3in');
    await undo().click();
    expect((await roofFile()).body.corners).toEqual(corners);
  });

  it('says a rectangle by its sizes until a corner of it is moved', async () => {
    await page.getByRole('radio', { name: 'In plan' }).check();
    await sideBox('East').fill('2 1/2');
    await sideBox('East').press('Enter');
    expect((await roofFile()).body).toMatchObject({ width: '2 1/4in', depth: '2 1/2in' });
  });

  it('is put away where the body becomes one without corners', async () => {
    await page.getByRole('radio', { name: 'In plan' }).check();
    await corner(1).waitFor();
    await page.getByRole('radio', { name: 'Round', exact: true }).check();
    expect(await isMade()).toBe(true);
    await page.getByRole('radio', { name: 'None', exact: true }).check();
    expect(await isMade()).toBe(true);
    await page.getByRole('radio', { name: 'Rectangle' }).check();
    expect(await isMade()).toBe(true);
  });

  it('has its corners dragged, each drag one step to undo, and the others stay as they were typed', async () => {
    await openPlan({ body: ell });
    await showPlan();
    await drag(corner(3), 40, 10);
    const moved = (await roofFile()).body.corners ?? [];
    expect(moved[2]).not.toEqual(ell.corners[2]);
    expect(moved.toSpliced(2, 1)).toEqual(ell.corners.toSpliced(2, 1));
    expect(moved[2]?.[0]).toMatch(/^\d+( \d+\/(2|4|8|16))?in$/);
    expect(await isMade()).toBe(true);
    await undo().click();
    expect((await roofFile()).body).toEqual(ell);
  });

  it('gets a corner where the middle of a side is dragged', async () => {
    await openPlan({ body: ell });
    await showPlan();
    await drag(plan().getByRole('button', { name: 'Add a corner in the middle of the side South' }), 0, 40);
    const { corners = [] } = (await roofFile()).body;
    expect(corners).toHaveLength(7);
    expect(corners[1]?.[1]).toMatch(/^-/);
    await undo().click();
    expect((await roofFile()).body).toEqual(ell);
  });

  it('is edited by the keys alone', async () => {
    await openPlan({ body: ell });
    await showPlan();
    await corner(2).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowDown');
    expect((await roofFile()).body.corners?.[1]).toEqual(['5 1/8in', '-5/8in']);
    expect(await plan().getByRole('status').innerText()).toContain('5 1/8 in to the right and 5/8 in to the front');
    await undo().click();
    expect((await roofFile()).body).toEqual(ell);
    await corner(1).focus();
    await page.keyboard.press('Insert');
    // The new corner has the focus, and counts once it is off the straight.
    expect((await roofFile()).body).toEqual(ell);
    expect(await plan().innerText()).toContain('still lies on the straight');
    await page.keyboard.press('ArrowDown');
    expect((await roofFile()).body.corners?.[1]).toEqual(['2 1/2in', '-1/16in']);
    await page.keyboard.press('Delete');
    expect((await roofFile()).body).toEqual(ell);
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(/side|Corner/);
  });

  it('says why sides that cross make no plan, and keeps the roof that stood', async () => {
    await openPlan({ body: ell });
    await showPlan();
    const before = await page.evaluate(
      () => window.spirewright?.getState().production?.roofs[0]?.made?.solid.faces.length,
    );
    await drag(corner(4), -250, 20);
    expect(await plan().innerText()).toMatch(/cross/);
    expect((await roofFile()).body).toEqual(ell);
    const after = await page.evaluate(
      () => window.spirewright?.getState().production?.roofs[0]?.made?.solid.faces.length,
    );
    expect(after).toBe(before);
    await plan().getByRole('button', { name: 'Back to it' }).click();
    expect(await plan().innerText()).not.toMatch(/cross/);
  });

  it('keeps a length that is none in its box until it is mended', async () => {
    await openPlan({ body: ell });
    await showPlan();
    await sideBox('West').fill('tall');
    await sideBox('West').press('Enter');
    expect(await sideBox('West').getAttribute('aria-invalid')).toBe('true');
    expect((await roofFile()).body).toEqual(ell);
    expect(await plan().innerText()).toContain('"tall" is not a length');
    await sideBox('West').press('Escape');
    expect(await sideBox('West').inputValue()).toBe('4in');
  });

  it('gets courts, and loses them', async () => {
    await openPlan({ body: { width: '6in', depth: '5in', height: '2in' } });
    await page.getByRole('radio', { name: 'In plan' }).check();
    await plan().getByRole('button', { name: 'Add a court' }).click();
    expect((await roofFile()).body.courts?.[0]).toHaveLength(4);
    expect(await isMade()).toBe(true);
    await plan()
      .getByRole('button', { name: /^Court 1, corner 2/ })
      .focus();
    await plan().getByRole('button', { name: 'Close this court' }).click();
    expect((await roofFile()).body.courts).toBeUndefined();
  });

  it('is measured by sides and a diagonal, which are taken as soon as they agree', async () => {
    await openPlan({ body: { width: '3in', depth: '2in', height: '2in' } });
    await page.getByRole('radio', { name: 'Measured' }).check();
    await page.getByRole('radio', { name: 'Four sides and a diagonal' }).check();
    const panel = page.getByRole('tabpanel');
    expect(await panel.getByLabel('South', { exact: true }).inputValue()).toBe('3in');
    const type = async (label: string, text: string): Promise<void> => {
      await panel.getByLabel(label, { exact: true }).fill(text);
      await panel.getByLabel(label, { exact: true }).press('Enter');
    };
    // The first alone makes no triangle with the others; with the last all of them do.
    await type('Diagonal', '8in');
    expect(await panel.getByLabel('Diagonal', { exact: true }).getAttribute('aria-invalid')).toBe('true');
    await type('South', '7in');
    await type('North', '7in');
    expect((await roofFile()).body).toMatchObject({ lengths: ['7in', '2in', '7in', '2in'], diagonal: '8in' });
    expect(await isMade()).toBe(true);
  });
});

describe('the pitches of single sides', () => {
  it('are typed on their eaves, or made gables, and stay with their sides', async () => {
    await openPlan({ body: ell });
    await page.getByRole('tab', { name: 'Roof' }).click();
    await page.getByRole('radio', { name: 'In plan' }).check();
    const east = plan().getByLabel('Pitch of the side East', { exact: true });
    await east.fill('9/12');
    await east.press('Enter');
    await plan().getByRole('button', { name: 'Gable on the side North 2' }).click();
    expect((await roofFile()).shape.pitches).toEqual({ east: '9/12', 'north-2': 'gable' });
    expect(await isMade()).toBe(true);
    await page.getByRole('tab', { name: 'Body' }).click();
    await showPlan();
    await corner(4).focus();
    await page.keyboard.press('Insert');
    expect((await roofFile()).shape.pitches).toEqual({ east: '9/12', 'north-2': 'gable' });
    await page.getByRole('tab', { name: 'Roof' }).click();
    await plan().getByRole('button', { name: 'Gable on the side North 2' }).click();
    expect((await roofFile()).shape.pitches).toEqual({ east: '9/12' });
  });
});

describe('the plan for everyone', () => {
  it.each([
    ['wide', 1280, 800],
    ['narrow', 390, 844],
    ['narrowest', 320, 640],
  ])('axe finds nothing, and nothing hangs over the edge, %s', async (_, width, height) => {
    await page.setViewportSize({ width, height });
    await openPlan({ body: ell });
    if (width < 860) await page.locator('button[aria-controls="place-panel"][aria-expanded]').click();
    await showPlan();
    if (width < 860) await page.locator('button[aria-controls="place-panel"][aria-expanded]').click();
    await settled(page);
    expect(await axeFaults(page, 'any')).toEqual([]);
    for (const part of await plan().locator('.plan-label, .plan-corner').all()) {
      const box = await part.boundingBox();
      expect(box?.x).toBeGreaterThanOrEqual(-0.5);
      expect((box?.x ?? 0) + (box?.width ?? 999)).toBeLessThanOrEqual(width + 0.5);
    }
  });
});

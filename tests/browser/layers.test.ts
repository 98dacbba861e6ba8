import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { onTheBench, settled } from './harness.ts';

let page: Page;

type Roof = Readonly<Record<string, unknown>> & { readonly layers: readonly Readonly<Record<string, unknown>>[] };

const roofNow = async (): Promise<Roof> =>
  (await page.evaluate(
    () => (window.spirewright?.getState().file['roofs'] as readonly unknown[] | undefined)?.[0],
  )) as Roof;

const isMade = async (): Promise<boolean> =>
  await page.evaluate(() => {
    const { production, isCurrent } = window.spirewright?.getState() ?? {};
    return isCurrent === true && production?.roofs[0]?.made != null;
  });

const goTo = async (place: string): Promise<void> => {
  await page.getByRole('tab', { name: place, exact: true }).click();
};

onTheBench(async (opened) => {
  page = opened;
  await settled(page);
});

describe('the seat', () => {
  it('is put under the roof in the walls or over them, and has its own net and its place in the fit', async () => {
    await page.getByRole('radio', { name: 'Seat inside the walls' }).check();
    expect(await isMade()).toBe(true);
    expect((await roofNow())['seat']).toMatchObject({ fits: 'inside', walls: '1/16in' });
    const seat = page.getByRole('region', { name: 'Seat', exact: true });
    await seat.getByLabel('Play', { exact: true }).fill('1/32');
    await seat.getByLabel('Play', { exact: true }).press('Enter');
    expect((await roofNow())['seat']).toMatchObject({ play: '1/32in' });
    await goTo('Paper');
    await page.getByRole('group', { name: 'Layer' }).getByRole('radio', { name: 'Seat' }).check();
    expect(await page.locator('.sheet .net').getAttribute('aria-label')).toContain('1 pieces');
    await goTo('Build');
    await page.getByRole('button', { name: /^The seat stands in the walls/ }).click();
    await goTo('Body');
    await page.getByRole('radio', { name: 'Seat over the walls' }).check();
    expect((await roofNow())['seat']).not.toHaveProperty('walls');
    expect(await isMade()).toBe(true);
    await seat.getByRole('radio', { name: 'No seat' }).check();
    expect(await roofNow()).not.toHaveProperty('seat');
  });
});

describe('an edge joined by hand', () => {
  const tag = () => page.getByRole('region', { name: 'The edge at hand' });
  const way = (name: string | RegExp) => tag().getByRole('radio', { name });
  const choose = async (edge: number): Promise<void> => {
    await page.getByRole('combobox', { name: /^Edges of/ }).selectOption({ index: edge });
  };
  const net = async () =>
    await page.evaluate(() => {
      const made = window.spirewright?.getState().production?.roofs[0]?.made?.layers[0];
      return {
        pieces: made?.net.pieces.length,
        joins: made?.net.seams.map(({ join }) => join).sort(),
        from: made?.net.pieces.flatMap(({ flaps }) => flaps.map(({ from }) => from)).sort(),
      };
    });

  it('is a fold, a flap on the other panel, a strip or tape, by keyboard too; undo and leaving it take it back', async () => {
    await goTo('Paper');
    const before = await net();
    await choose(1);
    // The flap goes to the other panel.
    const other = (await way(/^Flap on/)
      .nth(0)
      .isChecked())
      ? 1
      : 0;
    await way(/^Flap on/)
      .nth(other)
      .check();
    expect((await net()).from).not.toEqual(before.from);
    await way('Tape').check();
    expect((await net()).joins).toContain('tape');
    await way('Folded').focus();
    await page.keyboard.press('Space');
    expect(await net()).toMatchObject({ pieces: (before.pieces ?? 0) - 1 });
    expect(await way('Folded').isChecked()).toBe(true);
    expect(await isMade()).toBe(true);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect((await net()).joins).toContain('tape');
    await tag()
      .getByRole('button', { name: /leave it to the pieces again/ })
      .click();
    expect(await net()).toEqual(before);
    expect((await roofNow()).layers[0]).not.toHaveProperty('seams');
  });

  it('cannot close a ring of folds, and says why without a change', async () => {
    await goTo('Paper');
    for (const edge of [1, 2, 3]) {
      await choose(edge);
      await way('Folded').check();
    }
    const before = await roofNow();
    await choose(4);
    // It stays as it is, so it is clicked and not checked.
    await way('Folded, cannot be').click({ force: true });
    expect(await tag().innerText()).toMatch(/ring/);
    expect(await roofNow()).toEqual(before);
    await page.getByRole('button', { name: /^3 edges are joined by hand/ }).click();
    expect((await roofNow()).layers[0]).not.toHaveProperty('seams');
  });
});

describe('pieces', () => {
  it('are as few as fit the paper', async () => {
    await goTo('Paper');
    await page.getByLabel('Pieces', { exact: true }).selectOption('fewest');
    const count = await page.evaluate(
      () => window.spirewright?.getState().production?.roofs[0]?.made?.layers[0]?.net.pieces.length,
    );
    expect(count).toBe(1);
  });
});

describe('board', () => {
  it('lies inside everything, cut face by face from a board of its own, its edges to be chosen', async () => {
    await goTo('Paper');
    await page.getByRole('button', { name: 'Add a board core' }).click();
    expect((await roofNow()).layers.map((layer) => layer['as'])).toEqual(['board', 'cover']);
    expect(await isMade()).toBe(true);
    expect(await page.getByRole('button', { name: 'Add a board core' }).count()).toBe(0);
    const board = page.getByRole('region', { name: 'Board', exact: true });
    expect(await board.getByLabel('Flaps', { exact: true }).count()).toBe(0);
    await board.getByLabel('Edges meet').selectOption('mitred');
    expect((await roofNow()).layers[0]).toMatchObject({ as: 'board', stock: 'board', edges: 'mitred' });
    const made = await page.evaluate(() => {
      const layers = window.spirewright?.getState().production?.roofs[0]?.made?.layers ?? [];
      return layers.map(({ thickness, net, solid }) => ({ thickness, pieces: net.pieces.length, z: solid.vertices }));
    });
    expect(made[0]).toMatchObject({ thickness: 25.4 / 16, pieces: 4 });
    // Its tag says how each panel is cut there; the net of the board is brought to the top for it.
    await page.getByRole('combobox', { name: 'Edges of Board' }).selectOption({ index: 1 });
    expect(await page.getByRole('region', { name: 'The edge at hand' }).innerText()).toMatch(
      /glued edge to edge.*South: \+[\d.]+° outside wider, [\d.]+° off its fall line/s,
    );
    expect(await page.locator('.sheet .is-at-hand .lit-line').count()).toBe(2);
    // A board sold by another size makes the core thicker; the paper goes on over it.
    await page.getByLabel('Sold as').last().selectOption('3mm');
    expect(
      await page.evaluate(() => window.spirewright?.getState().production?.roofs[0]?.made?.layers[0]?.thickness),
    ).toBe(3);
    await page
      .getByRole('button', { name: /^Further in/ })
      .last()
      .click();
    expect(await page.getByText('The layers cannot lie so.').count()).toBe(1);
    expect((await roofNow()).layers.map((layer) => layer['as'])).toEqual(['board', 'cover']);
    // What is worth knowing of it lights up where it is.
    await goTo('Build');
    const known = page.locator('.worth-knowing li', { hasText: 'glued edge to edge' });
    if (!(await known.isVisible())) await page.locator('.worth-knowing summary').click();
    await known.getByRole('button', { name: 'Show where' }).click();
    expect(await page.locator('.net .is-lit .lit-line').count()).toBeGreaterThan(3);
    await known.getByRole('button', { name: 'Put out' }).click();
    expect(await page.locator('.net .is-lit').count()).toBe(0);
    await goTo('Paper');
    await page.getByRole('button', { name: 'Take this layer off: Board' }).click();
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await isMade()).toBe(true);
  });
});

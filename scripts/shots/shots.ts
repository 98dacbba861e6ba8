import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import type {} from '../../src/app/test-handle.ts';
import { launchBrowser, openPage, settled } from '../../tests/browser/harness.ts';
import { startBench } from '../../tests/browser/serve-bench.ts';
import { findPdftoppm } from '../find-program.mjs';
import { type SampleFile, sampleFiles } from '../samples.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = join(root, 'shots');
const viewports = [
  { width: 1280, height: 800 },
  { width: 390, height: 844 },
] as const;
const places = ['Body', 'Roof', 'Paper', 'Set out', 'Build'] as const;
const stops = [
  ['flat', 0],
  ['scored', 0.15],
  ['folded', 0.6],
  ['on-body', 1],
] as const;

/** Pictures of every place of the bench and of every PDF page, for looking at. `npm run shots [part of a name]`. */
export async function main(words: readonly string[]): Promise<number> {
  const [wanted = ''] = words;
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  const { url, close } = await startBench();
  const browser = await launchBrowser();
  let troubles = 0;
  try {
    // A word that is a sample's name or begins with it asks for that sample alone.
    const named = sampleFiles().filter(({ name }) => wanted.startsWith(name));
    const samples = named.length > 0 ? named : sampleFiles();
    for (const sample of samples)
      for (const viewport of viewports) troubles += await shootBench(browser, url, sample, viewport, wanted);
    for (const sample of samples) await shootPdf(sample, wanted);
  } finally {
    await browser.close();
    await close();
  }
  process.stdout.write(`${readdirSync(folder).length} pictures in shots/\n`);
  return troubles === 0 ? 0 : 1;
}

async function shootBench(
  browser: Browser,
  url: string,
  sample: SampleFile,
  viewport: { readonly width: number; readonly height: number },
  wanted: string,
): Promise<number> {
  const { page, troubles, close } = await openPage(browser, url, { viewport, hasTouch: viewport.width < 500 });
  const shoot = async (what: string): Promise<void> => {
    const name = `${sample.name}-${viewport.width}-${what}.png`;
    if (!name.includes(wanted)) return;
    await settled(page);
    await page.screenshot({ path: join(folder, name) });
  };
  await page.evaluate((text) => window.spirewright?.open(text), sample.text);
  for (const [index, place] of places.entries()) {
    await page.getByRole('tab', { name: place }).click();
    const step = `${index + 1}-${place.toLowerCase().replace(' ', '-')}`;
    await shoot(step);
    const drawer = page.locator('button[aria-controls="place-panel"][aria-expanded]');
    if (!(await drawer.isVisible())) continue;
    await drawer.click();
    await shoot(`${step}-drawer`);
    await drawer.click();
  }
  for (const place of ['Body', 'Roof']) {
    await page.getByRole('tab', { name: place }).click();
    if (await layPlan(page, 'In plan')) {
      await shoot(`plan-${place.toLowerCase()}`);
      await layPlan(page, 'As it stands');
    }
  }
  for (const roof of await roofIndices(page)) {
    await chooseRoof(page, roof);
    for (const [stop, t] of stops) {
      await page.evaluate((value) => window.spirewright?.setT(value), t);
      await shoot(`roof-${roof + 1}-${stop}`);
    }
  }
  for (const { kind, text } of troubles) process.stderr.write(`${sample.name} ${viewport.width}: ${kind}: ${text}\n`);
  await close();
  return troubles.length;
}

/** Lays the plan on the table or takes it off; false where this place has none. */
const layPlan = async (page: Page, view: 'In plan' | 'As it stands'): Promise<boolean> =>
  await page.evaluate((name) => {
    const choice = document.querySelector<HTMLElement>(`#place-panel input[aria-label="${name}"]`);
    choice?.click();
    return choice !== null;
  }, view);

const roofIndices = async (page: Page): Promise<readonly number[]> =>
  await page.evaluate(() => [...(window.spirewright?.getState().production?.roofs.keys() ?? [])]);

const chooseRoof = async (page: Page, index: number): Promise<void> =>
  await page.evaluate((roof) => document.querySelectorAll<HTMLElement>('.card-face')[roof]?.click(), index);

async function shootPdf(sample: SampleFile, wanted: string): Promise<void> {
  const pdftoppm = findPdftoppm();
  if (pdftoppm === null || !`${sample.name}-page`.includes(wanted)) return;
  const place = mkdtempSync(join(tmpdir(), 'spirewright-shots-'));
  try {
    const words = [join(root, 'bin', 'spirewright.js'), 'produce', sample.path, '--out', join(place, 'made')];
    spawnSync(process.execPath, [...words, '--only', 'pdf'], { cwd: root, stdio: ['ignore', 'ignore', 2] });
    for (const pdf of readdirSync(join(place, 'made')))
      spawnSync(pdftoppm, ['-r', '80', '-png', join(place, 'made', pdf), join(folder, `${sample.name}-page`)]);
  } finally {
    rmSync(place, { recursive: true });
  }
}

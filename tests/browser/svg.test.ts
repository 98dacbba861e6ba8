import type { Browser } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { writeSvg } from '../../src/io/svg/write-svg.ts';
import { produceSample, sampleNames } from '../../src/io/testing/samples.ts';
import { sharedBrowser } from './harness.ts';

const PX_PER_MM = 96 / 25.4;

let browser: Browser;

beforeAll(async () => {
  browser = await sharedBrowser();
});

describe.each(sampleNames)('the SVG files of %s in a browser', (name) => {
  it('have the size of their sheets, cuts where the pieces lie, and texts no longer than stated', async () => {
    const production = produceSample(name);
    const page = await browser.newPage();
    for (const [i, { text }] of writeSvg(production).entries()) {
      await page.setContent(`<!doctype html><body style="margin:0">${text.replace(/^<\?xml.*\?>\n/, '')}</body>`);
      const measured = await page.evaluate(() => {
        const root = document.querySelector('svg') as SVGSVGElement;
        const { width, height } = root.getBoundingClientRect();
        const cut = document.getElementById('cut') as unknown as SVGGElement;
        const box = cut.getBBox();
        const texts = [...document.querySelectorAll<SVGTextElement>('#mark text')].map((element) => ({
          stated: Number(element.getAttribute('textLength')),
          shown: element.getBBox().width,
        }));
        return { width, height, box: { x: box.x, y: box.y, width: box.width, height: box.height }, texts };
      });
      const sheet = production.sheets[i];
      const points = (sheet?.placements ?? []).flatMap(({ roof, layer, piece, x, y, rotation }) =>
        (production.roofs[roof]?.made?.layers[layer]?.net.pieces[piece]?.outline ?? []).map(([px, py]) => [
          x + px * Math.cos(rotation) - py * Math.sin(rotation),
          y + px * Math.sin(rotation) + py * Math.cos(rotation),
        ]),
      );
      const xs = points.map(([x = 0]) => x);
      const ys = points.map(([, y = 0]) => (sheet?.height ?? 0) - y);
      expect(measured.width / PX_PER_MM).toBeCloseTo(sheet?.width ?? 0, 1);
      expect(measured.height / PX_PER_MM).toBeCloseTo(sheet?.height ?? 0, 1);
      expect(measured.box.x).toBeCloseTo(Math.min(...xs), 2);
      expect(measured.box.y).toBeCloseTo(Math.min(...ys), 2);
      expect(measured.box.width).toBeCloseTo(Math.max(...xs) - Math.min(...xs), 2);
      expect(measured.box.height).toBeCloseTo(Math.max(...ys) - Math.min(...ys), 2);
      expect(measured.texts.length).toBeGreaterThan(3);
      for (const { stated, shown } of measured.texts) expect(shown).toBeLessThan(stated * 1.15 + 0.3);
    }
    await page.close();
  });
});

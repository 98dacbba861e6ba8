import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, inject, it } from 'vitest';
import { firstLoad, totalGz } from '../../scripts/bench/first-load.ts';
import { kinds } from '../../src/core/roofs/catalogue.ts';
import { openPage, sharedBrowser } from './harness.ts';

const dist = fileURLToPath(new URL('../../dist', import.meta.url));
const texts = readdirSync(dist, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.(js|css|html)$/.test(name))
  .map((name) => ({ name, text: readFileSync(join(dist, name), 'utf8') }));

/** Names of XML formats, and pages that libraries name in licences and error texts; nothing of them is ever fetched. */
const namedOnly = [
  'www.w3.org',
  'react.dev',
  'github.com',
  'docs.pmnd.rs',
  'opencollective.com',
  'fb.me',
  'jspdf.default.namespaceuri',
];

describe('what the browser is given', () => {
  it('loads under 90 KB packed before the stage', () => {
    const files = firstLoad(dist);
    expect(files.map(({ name }) => name.split('.').at(-1))).toEqual(expect.arrayContaining(['js', 'css']));
    expect(totalGz(files), JSON.stringify(files)).toBeLessThan(90_000);
  });

  it('asks for the stage right after the first load, and for everything else after the stage', async () => {
    const { page, close } = await openPage(await sharedBrowser({ webgl: true }), inject('benchUrl'));
    try {
      // A file is listed once it is there, which a busy page may see late.
      await page.waitForFunction(() => {
        const names = performance.getEntriesByType('resource').map(({ name }) => name);
        const stage = names.findIndex((name) => /\/stage[^/]*\.js$/.test(name));
        return stage >= 0 && names.slice(stage).filter((name) => /\.(js|css)$/.test(name)).length > 3;
      });
      await page.waitForLoadState('networkidle');
      const asked = await page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name));
      const files = asked.filter((name) => /\.(js|css)$/.test(name)).map((name) => name.replace(/^.*\/assets\//, ''));
      const stage = files.findIndex((name) => name.startsWith('stage'));
      expect(stage).toBeGreaterThan(0);
      const first = firstLoad(dist).map(({ name }) => name.replace('assets/', ''));
      expect(files.slice(0, stage).sort()).toEqual(first.sort());
      expect(files.length).toBeGreaterThan(stage + 2);
    } finally {
      await close();
    }
  });

  it('keeps three, the PDF writer and every kind of roof out of the first load', () => {
    for (const { name } of firstLoad(dist)) {
      const text = readFileSync(join(dist, name), 'utf8');
      for (const { id, summary } of kinds) expect(text, `${name}: ${id}`).not.toContain(summary);
      expect(text, name).not.toContain('WebGLRenderer');
      expect(text, name).not.toContain('putTotalPages');
    }
  });

  it('names no address that something could be fetched from', () => {
    const hosts = texts.flatMap(({ name, text }) =>
      [...text.matchAll(/https?:\/\/([a-z0-9.-]+)/gi)].map(([, host = '']) => ({ name, host })),
    );
    expect(hosts.filter(({ host }) => !namedOnly.includes(host))).toEqual([]);
  });

  it.each([
    ['html2canvas', /data-html2canvas/],
    ['canvg', /CanvasRenderingContext2D[\s\S]{0,200}canvg|ScreenShader|class PathParser/],
    ['DOMPurify', /ALLOWED_URI_REGEXP/],
    ['a foreign script', /importScripts\(["']https?:/],
    ['a tracker', /google-analytics|googletagmanager|sentry\.io/],
  ])('holds no %s', (_, pattern) => {
    for (const { name, text } of texts) expect(text, name).not.toMatch(pattern);
  });
});

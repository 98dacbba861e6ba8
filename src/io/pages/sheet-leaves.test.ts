import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { distance2, type Vec2 } from '../../core/geometry/vector.ts';
import { ringsOn } from '../../core/materials.ts';
import { type Production, produce } from '../../core/pipeline.ts';
import { resolveProject } from '../../core/project/read-project.ts';
import { writePdf } from '../pdf/write-pdf.ts';
import { rawPages } from '../testing/raw-pdf.ts';
import { sampleFont } from '../testing/samples.ts';
import { pageArea } from './page-frame.ts';
import { tileBox } from './tile.ts';

const MM = 25.4 / 72;

/** Two towers of four panels on one paper. */
const towersOn = (paper: object, page: object = {}): Production => {
  const read = resolveProject({
    format: 'spirewright-project',
    version: 1,
    title: 'Samphire Staithe',
    units: 'mm',
    page: { size: 'A4', arrange: 'as-laid', ...page },
    stock: [{ id: 'slate', name: 'Slate print', direction: 'one-way', ...paper }],
    roofs: [
      {
        id: 'light',
        title: 'Light tower',
        copies: 2,
        kind: 'pyramid',
        shape: { width: 54, depth: 54, slant: 76 },
        layers: [{ as: 'cover', stock: 'slate' }],
      },
    ],
  });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return produce(read.value.project, { layout: { rounds: 5 } });
};

const print = (production: Production): Uint8Array => writePdf(production, { font: sampleFont() });

/** Ends of the cuts, and the closed thin rings, of every page: mm, read from the bytes. */
const readPages = (bytes: Uint8Array) =>
  rawPages(bytes).map((paths) => {
    const inMm = paths.map((path) => ({ ...path, points: path.points.map(([x, y]): Vec2 => [x * MM, y * MM]) }));
    return {
      cuts: inMm.filter(({ width }) => Math.abs(width * MM - 0.5) < 1e-4).flatMap(({ points }) => points),
      rings: inMm.filter(({ closed, width }) => closed && width * MM < 0.3).map(({ points }) => points),
    };
  });

const isAmong = (p: Vec2, points: readonly Vec2[]): boolean => points.some((q) => distance2(p, q) < 1e-3);

const words = async (bytes: Uint8Array): Promise<readonly string[]> => {
  const doc = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  const texts: string[] = [];
  for (let number = 1; number <= doc.numPages; number++) {
    const { items } = await (await doc.getPage(number)).getTextContent();
    texts.push(items.map((item) => ('str' in item ? item.str : '')).join(' '));
  }
  await doc.loadingTask.destroy();
  return texts;
};

describe('sheets smaller than the page', () => {
  const production = towersOn({ width: 170, height: 100, margin: 3 });
  const bytes = print(production);

  it('are printed as they are laid: every corner of every piece where it lies from the edge of its sheet', () => {
    const found = readPages(bytes).flatMap(({ cuts, rings }) =>
      rings.filter((ring) => isSize(ring, 170, 100)).map((ring) => ({ cuts, corner: ring[0] as Vec2 })),
    );
    expect(production.sheets.length).toBeGreaterThan(1);
    expect(found).toHaveLength(production.sheets.length);
    for (const sheet of production.sheets) {
      const corners = ringsOn(production.roofs, sheet).flat();
      const isHere = found.some(({ cuts, corner: [x, y] }) => corners.every(([u, v]) => isAmong([x + u, y + v], cuts)));
      expect(isHere, `sheet ${sheet.index + 1}`).toBe(true);
    }
  });

  it('share pages, each with its name, size, margin and the way of its print', async () => {
    const pages = await words(bytes);
    expect(pages.length).toBeLessThan(production.sheets.length);
    for (const { index } of production.sheets)
      expect(pages.join(' ')).toContain(
        `Slate print, sheet ${index + 1}, 170 mm × 100 mm, margin 3 mm, print this way up`,
      );
  });
});

const isSize = (ring: readonly Vec2[], width: number, height: number): boolean =>
  Math.abs(Math.max(...ring.map(([x]) => x)) - Math.min(...ring.map(([x]) => x)) - width) < 1e-3 &&
  Math.abs(Math.max(...ring.map(([, y]) => y)) - Math.min(...ring.map(([, y]) => y)) - height) < 1e-3;

describe('a sheet as large as the page', () => {
  it('fills it: places on the sheet are places on the page', async () => {
    const production = towersOn({ width: 210, height: 297 });
    const bytes = print(production);
    const [page] = readPages(bytes);
    for (const p of ringsOn(production.roofs, production.sheets[0] ?? { placements: [] }).flat())
      expect(isAmong(p, page?.cuts ?? [])).toBe(true);
    const [text] = await words(bytes);
    expect(text).toContain('Slate print, sheet 1. The print runs up on this page.');
    expect(text).toContain('Pieces reach into the margin');
  });

  it('is turned a quarter where it lies across, and says where the print runs', async () => {
    const production = towersOn({ width: 297, height: 210, margin: 6 });
    const bytes = print(production);
    const [page] = readPages(bytes);
    for (const [x, y] of ringsOn(production.roofs, production.sheets[0] ?? { placements: [] }).flat())
      expect(isAmong([210 - y, x], page?.cuts ?? [])).toBe(true);
    const [text] = await words(bytes);
    expect(text).toContain('The print runs left on this page.');
    expect(text).not.toContain('Pieces reach into the margin');
    const back = await words(print(towersOn({ width: 297, height: 210, margin: 6 }, { marks: 'both' })));
    expect(back[0]).toContain('The print runs left on this page.');
    expect(back[1]).toContain('The print runs right on this page.');
  });
});

describe('a sheet larger than the page', () => {
  const production = towersOn({ width: 304.8, height: 304.8 });
  const bytes = print(production);
  const { page } = production.project;

  it('is parted into tiles, each with the pieces where they lie', async () => {
    const pages = readPages(bytes);
    const texts = await words(bytes);
    const area = pageArea(page, { tiles: true, rolled: false });
    const corners = production.sheets.flatMap((sheet) => ringsOn(production.roofs, sheet)).flat();
    const seen = new Set<Vec2>();
    for (const tile of tileBox({ width: 304.8, height: 304.8 }, area, page.overlap).tiles) {
      const { minX, minY, maxX, maxY } = tile.window;
      const inside = corners.filter(([x, y]) => x >= minX && x <= maxX && y >= minY && y <= maxY);
      const number = texts.findIndex((text) => text.includes(`Slate print, sheet 1: ${tile.name} of`));
      if (inside.length > 0) expect(number).toBeGreaterThanOrEqual(0);
      for (const p of inside) {
        seen.add(p);
        const [x, y] = p;
        const onPage: Vec2 = [area.x + x - minX, area.y + area.height + y - maxY];
        expect(isAmong(onPage, pages[number]?.cuts ?? [])).toBe(true);
      }
    }
    expect(seen.size).toBe(corners.length);
    expect(texts.every((text) => text.includes('Slate print. The print runs up on this page.'))).toBe(true);
  });

  it('says on narrow tiles too where the print runs, which tile it is and what is mirrored', async () => {
    const paper = { width: 304.8, height: 304.8, name: 'Slate print, 12 x 12 pad', direction: 'two-way' };
    const texts = await words(print(towersOn(paper, { size: 'A6', marks: 'both' })));
    texts.forEach((text, i) => {
      expect(text).toContain('Print runs up or down.');
      expect(text).toMatch(/Row [A-H], column \d/);
      expect(text.includes('The wrong side')).toBe(i % 2 === 1);
    });
  });
});

describe('pieces without a place', () => {
  it('come after the sheets, close together', async () => {
    const production = towersOn({ width: 90, height: 80, count: 1 });
    const laid = production.sheets.flatMap(({ placements }) => placements).length;
    expect(laid).toBeLessThan(8);
    const names = (await words(print(production))).join(' ').match(/cover · /g);
    expect(names).toHaveLength(8);
  });
});

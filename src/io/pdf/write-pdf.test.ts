import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { distance2, type Vec2 } from '../../core/geometry/vector.ts';
import type { Production } from '../../core/pipeline.ts';
import type { PageSpec } from '../../core/project/project.ts';
import { a4, pyramidOn } from '../testing/pyramid.ts';
import { latin1, type RawPath, rawPages } from '../testing/raw-pdf.ts';
import { pages, produceSample, sampleFont, sampleNames } from '../testing/samples.ts';
import { writePdf } from './write-pdf.ts';

const font = sampleFont();
const MM = 25.4 / 72;

const write = (production: Production): Uint8Array => writePdf(production, { font });

const openPdf = async (bytes: Uint8Array) =>
  await getDocument({ data: bytes.slice(), useSystemFonts: false, verbosity: 0 }).promise;

/** Paths in mm. */
const pathsOf = (bytes: Uint8Array): readonly (readonly RawPath[])[] =>
  rawPages(bytes).map((paths) =>
    paths.map((path) => ({
      ...path,
      points: path.points.map(([x, y]): Vec2 => [x * MM, y * MM]),
      width: path.width * MM,
      dash: path.dash.map((length) => length * MM),
    })),
  );

const isCut = (path: RawPath): boolean => Math.abs(path.width - 0.5) < 1e-4 && path.closed;

/** Largest distance between corresponding points once the first points lie on each other, upright or a quarter turned. */
const mismatch = (drawn: readonly Vec2[], wanted: readonly Vec2[]): number => {
  if (drawn.length !== wanted.length) return Number.POSITIVE_INFINITY;
  const [d0, w0] = [drawn[0] as Vec2, wanted[0] as Vec2];
  const turns = [([x, y]: Vec2): Vec2 => [x, y], ([x, y]: Vec2): Vec2 => [-y, x]];
  return Math.min(
    ...turns.map((turn) => {
      const from = turn(w0);
      return Math.max(
        ...wanted.map((p, i) => {
          const [x, y] = turn(p);
          return distance2([x - from[0] + d0[0], y - from[1] + d0[1]], drawn[i] as Vec2);
        }),
      );
    }),
  );
};

const cases = sampleNames.flatMap((name) =>
  ([undefined, pages.a4, pages.letter, pages.a3, pages.square] as const).map((page) => [name, page] as const),
);

describe.each(cases)('the PDF of %s on %o', (name, page) => {
  const production = produceSample(name, page);
  const bytes = write(production);
  const drawn = pathsOf(bytes);
  const spec = production.project.page;

  it('draws each copy of each piece once, to a hundredth of a millimetre of the net', () => {
    const cuts = drawn.flat().filter(isCut);
    const left = [...cuts];
    for (const { spec: roof, made } of production.roofs) {
      for (const { net } of made?.layers ?? []) {
        for (const piece of net.pieces) {
          for (let copy = 0; copy < roof.copies; copy++) {
            const found = left.findIndex((path) => mismatch(path.points, piece.outline) < 0.01);
            expect(found, `${roof.id} ${piece.id} copy ${copy}`).toBeGreaterThanOrEqual(0);
            left.splice(found, 1);
          }
        }
      }
    }
    expect(left).toHaveLength(0);
  });

  it('keeps everything inside the margin, and pieces between header and footer', () => {
    for (const paths of drawn) {
      const rules = paths.filter(({ points }) => points.length === 2 && isFullWidth(points, spec)).map((p) => p.points);
      const ys = rules.map((points) => (points[0] as Vec2)[1]);
      expect(rules).toHaveLength(2);
      for (const path of paths) {
        for (const [x, y] of path.points) {
          const half = isCut(path) ? path.width / 2 : 0;
          expect(x - half).toBeGreaterThanOrEqual(spec.margin - 1e-5);
          expect(x + half).toBeLessThanOrEqual(spec.width - spec.margin + 1e-5);
          expect(y).toBeGreaterThanOrEqual(spec.margin);
          if (isCut(path)) expect(y).toBeLessThan(Math.max(...ys) - 2);
          if (isCut(path)) expect(y).toBeGreaterThan(Math.min(...ys) + 2);
        }
      }
    }
  });

  it('has a 100 mm and a 4 in bar on every page', () => {
    for (const paths of drawn) {
      const lengths = paths
        .filter((path) => path.points.length === 2)
        .map(({ points: [a, b] }) => distance2(a as Vec2, b as Vec2));
      for (const bar of [100, 101.6]) expect(lengths.some((length) => Math.abs(length - bar) < 1e-5)).toBe(true);
    }
  });

  it('opens in another reader with exact pages and its words', async () => {
    const doc = await openPdf(bytes);
    expect(doc.numPages).toBe(drawn.length);
    for (let number = 1; number <= doc.numPages; number++) {
      const sheet = await doc.getPage(number);
      const [left, low, right, high] = sheet.view as [number, number, number, number];
      expect([left, low]).toEqual([0, 0]);
      expect(right * MM).toBeCloseTo(spec.width, 4);
      expect(high * MM).toBeCloseTo(spec.height, 4);
      const words = (await sheet.getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join(' ');
      for (const phrase of [
        `Page ${number} of ${doc.numPages}`,
        'Print at 100 %, not fitted to page.',
        'For model making only.',
        'metal ruler',
        'mountain fold: away from you',
        'valley fold: towards you',
        'Seen from the outside',
        '100 mm',
        '4 in',
      ]) {
        expect(words).toContain(phrase);
      }
      const operators = await sheet.getOperatorList();
      expect(operators.fnArray).toContain(OPS.constructPath);
      expect(operators.fnArray).not.toContain(OPS.paintImageXObject);
    }
    await doc.loadingTask.destroy();
  });
});

const isFullWidth = ([a, b]: readonly Vec2[], { width, margin }: PageSpec): boolean =>
  Math.abs(distance2(a as Vec2, b as Vec2) - (width - 2 * margin)) < 1e-4 &&
  Math.abs((a as Vec2)[1] - (b as Vec2)[1]) < 1e-6;

describe('a piece larger than the page', () => {
  const production = produceSample('harbour-gate', pages.a6);
  const drawn = pathsOf(write(production));

  it('is cut into tiles that together draw its whole outline', () => {
    // The cut length on all tiles is that of the outlines plus what overlaps repeat: never less.
    const cutLength = drawn
      .flat()
      .reduce((sum, path) => sum + (Math.abs(path.width - 0.5) < 1e-4 ? lengthOf(path) : 0), 0);
    const wanted = production.roofs.reduce(
      (sum, { spec, made }) =>
        sum +
        spec.copies *
          (made?.layers ?? [])
            .flatMap(({ net }) => net.pieces)
            .reduce((all, piece) => all + lengthOf({ points: piece.outline, closed: true }), 0),
      0,
    );
    const legends = drawn.length * 15;
    expect(cutLength - legends).toBeGreaterThan(wanted);
  });

  it('shows joining marks, and stays inside the margin', () => {
    const diamonds = drawn.map((paths) =>
      paths.filter(({ points, closed, width }) => closed && points.length === 4 && width < 0.3),
    );
    const count = diamonds.flat().length;
    expect(count).toBeGreaterThan(10);
    for (const path of drawn.flat()) {
      for (const [x, y] of path.points) {
        expect(x).toBeGreaterThanOrEqual(pages.a6.margin - 1e-5);
        expect(x).toBeLessThanOrEqual(pages.a6.width - pages.a6.margin + 1e-5);
        expect(y).toBeLessThanOrEqual(pages.a6.height - pages.a6.margin + 1e-5);
      }
    }
  });

  it('names row and column of each tile', async () => {
    const doc = await openPdf(write(production));
    const texts: string[] = [];
    for (let number = 1; number <= doc.numPages; number++) {
      const content = await (await doc.getPage(number)).getTextContent();
      texts.push(...content.items.map((item) => ('str' in item ? item.str : '')));
    }
    const named = texts.filter((text) =>
      /^Light tower: Row [A-D], column [1-4] of [2-4] rows, [2-4] columns$/.test(text),
    );
    expect(named.length).toBeGreaterThan(3);
    expect(new Set(named).size).toBe(named.length);
    await doc.loadingTask.destroy();
  });
});

const lengthOf = ({ points, closed }: { readonly points: readonly Vec2[]; readonly closed: boolean }): number =>
  points.reduce((sum, point, i) => {
    const next = points[i + 1] ?? (closed ? points[0] : undefined);
    return next === undefined ? sum : sum + distance2(point, next);
  }, 0);

describe('the file', () => {
  const bytes = write(pyramidOn(a4));
  const text = latin1(bytes);

  it('has the same bytes twice, in any time zone', () => {
    const before = process.env['TZ'];
    process.env['TZ'] = 'Pacific/Auckland';
    expect(write(pyramidOn(a4))).toEqual(bytes);
    if (before === undefined) delete process.env['TZ'];
    else process.env['TZ'] = before;
  });

  it('asks viewers not to scale, and has an A4 page to a ten-thousandth of a point', () => {
    expect(text).toContain('/PrintScaling /None');
    expect(text).toMatch(/\/MediaBox \[0 0 595\.2755\d* 841\.8897\d*\]/);
    expect(text.startsWith('%PDF-')).toBe(true);
  });

  it('uses the stated widths and dashes, one black ink', () => {
    const [paths = []] = pathsOf(bytes);
    const widths = new Set(paths.map((path) => path.width.toFixed(3)));
    expect(widths).toEqual(new Set(['0.250', '0.500']));
    const dashes = new Set(paths.map((path) => path.dash.map((length) => length.toFixed(2)).join(' ')));
    expect(dashes).toEqual(new Set(['', '0.30 0.90', '2.40 1.20', '4.00 0.90 0.50 0.90']));
    expect(text).not.toMatch(/[\d.]+ [\d.]+ [\d.]+ RG\n/);
  });

  it('carries only the letters it needs', () => {
    expect(bytes.length).toBeLessThan(80_000);
  });

  it('prints a page that says so where nothing can be made', async () => {
    const production = pyramidOn(a4);
    const none = { ...production, sheets: [], roofs: production.roofs.map((roof) => ({ ...roof, made: null })) };
    const doc = await openPdf(write(none));
    const content = await (await doc.getPage(1)).getTextContent();
    const words = content.items.map((item) => ('str' in item ? item.str : '')).join(' ');
    expect(words).toContain('Nothing to print');
    await doc.loadingTask.destroy();
  });
});

describe('a printer that draws too large or too small', () => {
  const [wide, high] = [100.4, 99.8];
  const corrected = write(pyramidOn({ ...a4, correction: { across: wide, up: high } }));

  it('prints every piece true: the file has it smaller or larger by what the bars measured', () => {
    // The raw stream, as that printer stretches it, against the net.
    const printed = pathsOf(corrected).map((paths) =>
      paths.map(({ points, ...path }) => ({
        ...path,
        points: points.map(([x, y]): Vec2 => [(x * wide) / 100, (y * high) / 100]),
      })),
    );
    const production = pyramidOn(a4);
    const pieces = production.roofs[0]?.made?.layers[0]?.net.pieces ?? [];
    const cuts = printed.flat().filter(isCut);
    for (const { outline } of pieces) expect(cuts.some(({ points }) => mismatch(points, outline) < 1e-4)).toBe(true);
    const plain = pathsOf(write(production)).flat().filter(isCut);
    const stretched = plain.map(({ points }) => points.map(([x, y]): Vec2 => [(x * wide) / 100, (y * high) / 100]));
    for (const { outline } of pieces) expect(stretched.some((points) => mismatch(points, outline) < 1e-4)).toBe(false);
    const bars = printed.flat().map(({ points }) => distance2(points[0] as Vec2, points[1] as Vec2));
    expect(bars.some((length) => Math.abs(length - 100) < 1e-5)).toBe(true);
  });

  it('keeps the size of the page, and says so beside the bars', async () => {
    const sheet = await (await openPdf(corrected)).getPage(1);
    expect(sheet.view[2] as number).toBeCloseTo(210 / MM, 3);
    const words = (await sheet.getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join(' ');
    expect(words).toContain('draws 100 mm as 100.4 mm across and 99.8 mm up');
  });
});

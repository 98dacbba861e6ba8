import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it, test } from 'vitest';
import { findProgram } from '../../../scripts/find-program.mjs';
import { makeGuide, stepsOf } from '../../core/guide/guide.ts';
import { makeSetOut } from '../../core/setout/make-set-out.ts';
import { labelCorners } from '../drawing/drawing.ts';
import { latin1, rawPages } from '../testing/raw-pdf.ts';
import { pages, produceSample, sampleFont } from '../testing/samples.ts';
import { drawGuide } from './draw-guide.ts';
import { writeGuide } from './write-guide.ts';

const font = sampleFont();

/** All text of a PDF as one line, the way pdf.js reads it. */
async function readText(bytes: Uint8Array): Promise<string> {
  const file = await getDocument({ data: bytes.slice(), useSystemFonts: false, verbosity: 0 }).promise;
  const numbers = Array.from({ length: file.numPages }, (_, i) => i + 1);
  const texts = await Promise.all(
    numbers.map(async (number) => {
      const { items } = await (await file.getPage(number)).getTextContent();
      return items.map((item) => ('str' in item ? item.str : '')).join(' ');
    }),
  );
  return texts.join(' ').replaceAll(/\s+/g, ' ');
}

describe.each([
  ['harbour-gate', pages.letter],
  ['chapel-hill', pages.a4],
] as const)('the guide of %s', (name, page) => {
  const production = produceSample(name, page);
  const bytes = writeGuide(production, { font });

  it('says every sentence of every step, as pdf.js reads it', async () => {
    const text = await readText(bytes);
    const said = stepsOf(makeGuide(production)).flatMap(({ sentences, check }) => [
      ...sentences,
      ...(check ? [`Check: ${check}`] : []),
    ]);
    expect(said.length).toBeGreaterThan(20);
    expect(said.filter((sentence) => !text.includes(sentence))).toEqual([]);
  });

  const pdftotext = findProgram(['pdftotext']);
  it.runIf(pdftotext !== null)('is read by poppler, on pages of its size', () => {
    const folder = mkdtempSync(join(tmpdir(), 'spirewright-'));
    try {
      const file = join(folder, 'guide.pdf');
      writeFileSync(file, bytes);
      const text = execFileSync(pdftotext ?? '', ['-raw', file, '-'], { encoding: 'utf8' }).replaceAll(/\s+/g, ' ');
      for (const { spec } of production.roofs) expect(text).toContain(spec.title);
      expect(text).toContain('Cut along a metal ruler');
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('keeps every line and letter on its page, and no text on another', () => {
    for (const { width, height, work } of drawGuide(production)) {
      const points = [...work.strokes.flatMap((stroke) => stroke.points), ...work.labels.flatMap(labelCorners)];
      const off = points.filter(([x, y]) => x < 10 || y < 10 || x > width - 10 || y > height - 10);
      expect(off).toEqual([]);
    }
  });

  it('is the same bytes each time', () => {
    expect(latin1(writeGuide(production, { font })) === latin1(bytes)).toBe(true);
  });
});

test('templates are at true scale, as the raw lines of the file are', () => {
  const production = produceSample('harbour-gate');
  const bytes = writeGuide(production, { font });
  const setOuts = production.sheets.map((sheet) => makeSetOut(production, sheet));
  const traced = setOuts.flatMap(({ templates }) => templates.flatMap(({ strip }) => strip.pieces[0] ?? []));
  expect(traced.length).toBeGreaterThan(0);
  const mm = 25.4 / 72;
  const rings = rawPages(bytes).flatMap((paths) =>
    paths.filter(({ closed }) => closed).map(({ points }) => points.map(([x, y]) => [x * mm, y * mm] as const)),
  );
  for (const { roof, layer, piece } of traced) {
    const polygon = production.roofs[roof]?.made?.layers[layer]?.net.pieces[piece]?.panels[0]?.polygon ?? [];
    const same = rings.filter((drawn) => {
      if (drawn.length !== polygon.length) return false;
      // Turned or not: every corner as far from every other.
      return drawn.every((p, i) =>
        drawn.every((q, k) => {
          const [a, b] = [polygon[i] as readonly [number, number], polygon[k] as readonly [number, number]];
          return Math.abs(Math.hypot(p[0] - q[0], p[1] - q[1]) - Math.hypot(a[0] - b[0], a[1] - b[1])) < 1e-3;
        }),
      );
    });
    expect(same.length).toBeGreaterThan(0);
  }
});

test('flaps are folded before anything of their layer is glued, and every seam of every roof is joined once', () => {
  const production = produceSample('harbour-gate');
  const steps = stepsOf(makeGuide(production));
  for (const { spec, made } of production.roofs)
    made?.layers.forEach((layer, l) => {
      const own = steps.filter((step) => step.id.startsWith(`${spec.id}-`) && step.layer === l);
      const glued = own.findIndex(({ joins, work }) => joins.length > 0 || work === 'put-on');
      expect(own.slice(0, glued).map(({ work }) => work)).toContain('fold');
      expect(own.flatMap(({ joins }) => joins).sort((a, b) => a - b)).toEqual(layer.net.seams.map((_, s) => s));
    });
});

test('the pyramid goes on as makers do it: flapped sides first, opposite each other, then the plain ones (common practice)', () => {
  const steps = stepsOf(makeGuide(produceSample('harbour-gate'))).filter(({ id }) => id.startsWith('gate-tower-'));
  const puts = steps.filter(({ work }) => work === 'put-on');
  expect(puts.map(({ pieces }) => pieces)).toEqual([[1, 3], [0], [2]]);
  expect(puts[0]?.check).toBe('The points of East and West must meet at the top.');
  expect(steps.find(({ work }) => work === 'cut')?.sentences[0]).toBe(
    'Cut out 8 pieces: numbers 1 and 2 of the cut list.',
  );
});

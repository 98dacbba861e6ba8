import { describe, expect, it } from 'vitest';
import { apply2 } from '../../core/geometry/rigid2.ts';
import { distance2, type Vec2 } from '../../core/geometry/vector.ts';
import { placementMotion } from '../../core/layout/placed.ts';
import { a4, pyramidOn } from '../testing/pyramid.ts';
import { produceSample, sampleNames } from '../testing/samples.ts';
import { writeSvg } from './write-svg.ts';

/** Points of every path in a group, in the order of the file, y turned up again. */
const pathsIn = (text: string, group: string, height: number): readonly (readonly Vec2[])[] => {
  const inside = new RegExp(`<g id="${group}"[^>]*>([\\s\\S]*?)</g>`).exec(text)?.[1] ?? '';
  return [...inside.matchAll(/ d="([^"]+)"/g)].map(([, path = '']) =>
    [...path.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]): Vec2 => [Number(x), height - Number(y)]),
  );
};

describe.each(sampleNames)('the SVG files of %s', (name) => {
  const production = produceSample(name);
  const files = writeSvg(production);

  it('are one for each sheet, named by number and stock', () => {
    expect(files.map((file) => file.name)).toEqual(
      production.sheets.map((sheet, i) => `sheet-0${i + 1}-${production.project.stock[sheet.stock]?.id}.svg`),
    );
  });

  it('hold each corner of each laid piece to a thousandth of a millimetre', () => {
    production.sheets.forEach((sheet, i) => {
      const cuts = pathsIn(files[i]?.text ?? '', 'cut', sheet.height).flat();
      for (const placement of sheet.placements) {
        const { net } = production.roofs[placement.roof]?.made?.layers[placement.layer] ?? {};
        const outline = net?.pieces[placement.piece]?.outline ?? [];
        expect(outline.length).toBeGreaterThan(2);
        for (const p of outline) {
          const wanted = apply2(placementMotion(placement), p);
          expect(Math.min(...cuts.map((q) => distance2(q, wanted)))).toBeLessThan(0.001);
        }
      }
    });
  });

  it('draw as many folds as the laid pieces have', () => {
    production.sheets.forEach((sheet, i) => {
      const kinds = sheet.placements.flatMap((placement) => {
        const piece = production.roofs[placement.roof]?.made?.layers[placement.layer]?.net.pieces[placement.piece];
        return [...(piece?.folds ?? []), ...(piece?.flaps ?? [])].map(({ kind }) => kind);
      });
      for (const kind of ['mountain', 'valley'] as const) {
        const drawn = pathsIn(files[i]?.text ?? '', `fold-${kind}`, sheet.height);
        expect(drawn).toHaveLength(kinds.filter((each) => each === kind).length);
      }
    });
  });

  it('are in real millimetres, without scripts, and the same twice', () => {
    files.forEach(({ text }, i) => {
      const root = /<svg [^>]*width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)">/.exec(text);
      const { width, height } = production.sheets[i] ?? { width: 0, height: 0 };
      const [w, h, boxWidth, boxHeight] = (root ?? []).slice(1).map(Number);
      expect(w).toBeCloseTo(width, 3);
      expect(h).toBeCloseTo(height, 3);
      expect([boxWidth, boxHeight]).toEqual([w, h]);
      expect(text).not.toMatch(/<script|href|on[a-z]+=/);
      expect(text).not.toMatch(/\d\.\d{5}|NaN|e-\d|"-0[" ]/);
    });
    expect(writeSvg(produceSample(name))).toEqual(files);
  });

  it('have the groups a cutting machine picks from', () => {
    for (const { text } of files) {
      const ids = [...text.matchAll(/<g id="([^"]+)"/g)].map((match) => match[1]);
      expect(ids).toEqual(['legend', 'mark', 'fold-valley', 'fold-mountain', 'cut']);
    }
  });
});

describe('without laid sheets', () => {
  it('the printed pages are written', () => {
    const files = writeSvg({ ...pyramidOn(a4), sheets: [] });
    expect(files.map((file) => file.name)).toEqual(['page-01.svg']);
    expect(files[0]?.text).toContain('width="210mm" height="297mm" viewBox="0 0 210 297"');
    expect(files[0]?.text).toContain('>Print at 100 %, not fitted to page.');
  });
});

it('a title with signs of its own stays text', () => {
  const production = pyramidOn(a4);
  const odd = { ...production, project: { ...production.project, title: 'Salt & <sand> "\u0001' } };
  const [file] = writeSvg(odd);
  expect(file?.text).toContain('<title>Salt &amp; &lt;sand&gt; &quot;.');
});

describe('the SVG file of an offcut', () => {
  const outline: readonly Vec2[] = [
    [0, 0],
    [120, 0],
    [120, 60],
    [40, 110],
    [0, 110],
  ];
  const whole = pyramidOn(a4);
  const production = {
    ...whole,
    sheets: whole.sheets.map((sheet) => ({ ...sheet, width: 120, height: 110, outline })),
  };
  const [file] = writeSvg(production);

  it('has its edge among what a cutting machine leaves out, not in the cuts', () => {
    const text = file?.text ?? '';
    const legend = text.slice(text.indexOf('<g id="legend">'), text.indexOf('<g id="mark">'));
    expect(legend).toContain('M0 110 L120 110 L120 50 L40 0 L0 0 Z');
    expect(text.slice(text.indexOf('<g id="cut"'))).not.toContain('L120 110 L120 50');
  });
});

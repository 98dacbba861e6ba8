import { expect, test } from 'vitest';
import { cutLayers } from '../../core/cut-layers.ts';
import { distance2, type Vec2 } from '../../core/geometry/vector.ts';
import type { MadeRoof } from '../../core/make-roof.ts';
import { makeSetOut } from '../../core/setout/make-set-out.ts';
import { labelCorners } from '../drawing/drawing.ts';
import { produceSample } from '../testing/samples.ts';
import type { Box } from './boxes.ts';
import { templateBoxes } from './template-boxes.ts';

const A4 = { width: 180, height: 259 };

function templatesOf(name: string, page: typeof A4) {
  const production = produceSample(name);
  const setOuts = production.sheets.map((sheet) => makeSetOut(production, sheet));
  return { production, setOuts, boxes: templateBoxes(production, setOuts, page) };
}

const textsOf = (boxes: readonly Box[]): string =>
  boxes
    .flatMap(({ drawing }) => drawing.labels.map(({ text }) => text))
    .join(' ')
    .replaceAll(/\s+/g, ' ');

const TOO_LARGE = 'This template is larger than a page of the guide';

test('a piece that a round wall meets has a template of true size, its flaps and its round lines in it', () => {
  const { production, boxes } = templatesOf('round-yard', A4);
  const store = production.roofs.find(({ spec }) => spec.title === 'Ice store') as MadeRoof;
  const barrel = cutLayers(store)[0]?.net.pieces.find(({ title }) => title === 'Barrel');
  const meant = (barrel?.glueLines ?? []).flatMap(({ ends }) => ends);
  expect(meant.length).toBeGreaterThan(100);
  expect(textsOf(boxes)).toContain('With its flaps and with the round lines where other parts stand.');
  const lines = boxes.map(({ drawing }) =>
    drawing.strokes.flatMap(({ role, points }) => (role === 'glue' ? points : [])),
  );
  const drawn = lines.find(({ length }) => length === meant.length) ?? [];
  expect(drawn.length).toBe(meant.length);
  // Turned or not: every point as far from every other as on the piece.
  const [some, far] = [meant, drawn].map((points) => points.filter((_, i) => i % 7 === 0)) as [Vec2[], Vec2[]];
  for (const [i, p] of some.entries())
    for (const [k, q] of some.entries())
      expect(distance2(far[i] as Vec2, far[k] as Vec2)).toBeCloseTo(distance2(p, q), 6);
});

test('a template that is larger than a page is told instead, and all others are drawn', () => {
  const small = { width: 70, height: 90 };
  const [onSmall, onA4] = [small, A4].map((page) => textsOf(templatesOf('harbour-gate', page).boxes)) as [
    string,
    string,
  ];
  expect(onSmall).toContain(TOO_LARGE);
  expect(onA4).not.toContain(TOO_LARGE);
  const { boxes } = templatesOf('harbour-gate', small);
  for (const { height, drawing } of boxes) {
    const points = [...drawing.strokes.flatMap(({ points: own }) => own), ...drawing.labels.flatMap(labelCorners)];
    expect(height).toBeLessThanOrEqual(small.height);
    for (const [x, y] of points) expect(Math.max(-x, x - small.width, y, -y - height)).toBeLessThan(1.5);
  }
});

test('a template that steps ask for has the two marks that they lay it by', () => {
  const { setOuts, boxes } = templatesOf('quay-towers', A4);
  const held = setOuts.flatMap(({ templates }) => templates.flatMap(({ hold }) => (hold ? [hold.marks] : [])));
  expect(held.length).toBeGreaterThan(3);
  const said = textsOf(boxes);
  for (const [a, b] of held) {
    expect(said).toContain(`laid by its marks ${a} and ${b}.`);
    for (const mark of [a, b]) expect(said).toContain(`mark ${mark}`);
  }
});

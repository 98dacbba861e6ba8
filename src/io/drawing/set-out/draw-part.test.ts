import { expect, test } from 'vitest';
import { areApart, boxOf } from '../../../core/geometry/polygon.ts';
import { makeSetOut } from '../../../core/setout/make-set-out.ts';
import type { SetOutStrip } from '../../../core/setout/set-out.ts';
import { produceSample } from '../../testing/samples.ts';
import { type Label, labelCorners } from '../drawing.ts';
import { drawPart } from './draw-part.ts';
import { drawStrip, type StripDrawing, stripSide } from './draw-strip.ts';
import { meets, segmentsOf, textBox } from './texts.ts';

const room = { width: 180, height: 75, text: 2.3 };

const drawWhole = (strip: SetOutStrip): StripDrawing =>
  drawStrip(strip, { scale: (room.width - stripSide(room.text)) / strip.width, text: room.text, units: 'mm' });

const stripsOf = (name: string): readonly SetOutStrip[] => {
  const production = produceSample(name);
  return production.sheets.flatMap((sheet) => makeSetOut(production, sheet).strips);
};

const labelsOf = ({ base, steps }: StripDrawing): readonly Label[] => [
  ...base.labels,
  ...steps.flatMap((step) => step.labels),
];

function expectReadable(drawn: StripDrawing, marks: readonly number[], about: string): void {
  const { width, height, base, steps } = drawn;
  const labels = labelsOf(drawn);
  const strokes = [...base.strokes, ...steps.flatMap((step) => step.strokes)];
  const points = [...strokes.flatMap((stroke) => stroke.points), ...labels.flatMap(labelCorners)];
  const inside = points.map(([x, y]) => Math.min(x, width - x, -y, y + height));
  expect(Math.min(...inside), about).toBeGreaterThan(-0.01);
  // Every mark has its number, as high as all figures, and no text lies on another.
  const high = new Set(labels.filter(({ size }) => size === room.text).map(({ text }) => text));
  expect(marks.filter((m) => !high.has(String(m + 1)))).toEqual([]);
  const boxes = labels.map((label) => boxOf(labelCorners(label)));
  const pairs = boxes.flatMap((a, i) =>
    boxes.flatMap((b, j) => (j > i && areApart(a, b) === false ? [`${labels[i]?.text} on ${labels[j]?.text}`] : [])),
  );
  expect(pairs, about).toEqual([]);
}

test.each(['harbour-row', 'quay-towers'])(
  '%s: a crowded strip has a picture of each piece: inside its room, with the numbers of its marks, no step left out',
  (name) => {
    const strips = stripsOf(name).filter((strip) => drawWhole(strip).isBare);
    expect(strips.length).toBeGreaterThan(0);
    for (const strip of strips) {
      expect(drawWhole(strip).steps.flatMap(({ labels }) => labels)).toEqual([]);
      let told = 0;
      for (const part of strip.parts) {
        expect(part.from).toBe(told);
        told = part.to;
        const drawn = drawPart(strip, part, room);
        expect(drawn.height).toBeLessThanOrEqual(room.height + 1e-9);
        const marks = strip.steps.slice(part.from, part.to).flatMap((step) => step.marks);
        expectReadable(drawn, marks, part.title);
        // Every letter is in the picture or told with its line.
        const texts = labelsOf(drawn).map(({ text }) => text);
        const words = drawn.leftOut.flatMap((sentence) =>
          [...sentence.matchAll(/[:,] ([A-Z]+)(?= at |,|\.)/g)].map(([, mark]) => mark),
        );
        const letters = part.pieces.flatMap((p) => strip.pieces[p]?.letters ?? []).map(({ text }) => text);
        expect([...texts.filter((text) => /^[A-Z]+$/.test(text)), ...words].sort()).toEqual([...letters].sort());
      }
      // What follows is about the whole strip.
      expect(strip.steps.slice(told).every(({ marks, lines }) => marks.length + lines.length === 0)).toBe(true);
    }
  },
);

test.each(['harbour-gate', 'chapel-hill', 'salt-store', 'round-yard'])(
  '%s: where the whole strip shows its numbers all are there, clear of each other',
  (name) => {
    const whole = stripsOf(name).map((strip) => [strip, drawWhole(strip)] as const);
    let names = 0;
    for (const [strip, drawn] of whole) {
      // Names of pieces lie on no line.
      const drawnLines = segmentsOf(drawn.steps.flatMap(({ strokes }) => strokes));
      const named = drawn.base.labels.filter(({ text }) => /[a-z]/.test(text));
      expect(named.filter((label) => drawnLines.some((one) => meets(one, textBox(label))))).toEqual([]);
      names += named.length;
      if (!drawn.isBare) expectReadable(drawn, [...strip.marks.keys()], strip.title);
    }
    expect(whole.some(([, { isBare }]) => !isBare)).toBe(true);
    expect(names).toBeGreaterThan(0);
  },
);

import { expect, test } from 'vitest';
import { makeSetOut } from '../../../core/setout/make-set-out.ts';
import { produceSample } from '../../testing/samples.ts';
import { labelCorners } from '../drawing.ts';
import { drawPart } from './draw-part.ts';
import { drawStrip, isCrowded } from './draw-strip.ts';

const room = { width: 180, height: 75, text: 2.3 };

test.each(['harbour-row', 'quay-towers'])(
  '%s: a crowded strip has a picture of each piece: inside its room, with the numbers of its marks, no step left out',
  (name) => {
    const production = produceSample(name);
    const strips = production.sheets.flatMap((sheet) => makeSetOut(production, sheet).strips).filter(isCrowded);
    expect(strips.length).toBeGreaterThan(0);
    for (const strip of strips) {
      const whole = drawStrip(strip, { scale: 0.5, text: 2.3, units: 'mm' });
      expect(whole.steps.flatMap(({ labels }) => labels)).toEqual([]);
      let told = 0;
      for (const part of strip.parts) {
        expect(part.from).toBe(told);
        told = part.to;
        const { width, height, base, steps, leftOut } = drawPart(strip, part, room);
        expect(height).toBeLessThanOrEqual(room.height + 1e-9);
        const labels = [...base.labels, ...steps.flatMap((step) => step.labels)];
        const strokes = [...base.strokes, ...steps.flatMap((step) => step.strokes)];
        for (const [x, y] of [...strokes.flatMap(({ points }) => points), ...labels.flatMap(labelCorners)]) {
          expect(Math.min(x, width - x, -y, y + height)).toBeGreaterThan(-0.01);
        }
        const texts = labels.map(({ text }) => text);
        const marks = strip.steps.slice(part.from, part.to).flatMap((step) => step.marks);
        for (const m of marks) expect(texts, part.title).toContain(String(m + 1));
        // Every letter is in the picture or told with its line.
        const words = leftOut.flatMap((sentence) =>
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

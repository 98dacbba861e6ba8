import fc from 'fast-check';
import { expect, test } from 'vitest';
import { closing, mismatchOf } from '../../src/core/fit/closing.ts';
import { fanOf, isOnMarks } from '../../src/core/fit/fan.ts';
import { ruledMarks } from '../../src/core/fit/marks.ts';
import { at } from '../../src/core/geometry/polygon.ts';
import { distance2, type Vec2 } from '../../src/core/geometry/vector.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import type { Piece } from '../../src/core/net/net.ts';
import { findKind } from '../../src/core/roofs/catalogue.ts';
import { makeSetOut } from '../../src/core/setout/make-set-out.ts';
import { type Ruler, rulerStep, rulers } from '../../src/core/units/units.ts';
import { expectDrawnBack, follow, makeTemplates, scattering } from './drawn-back.ts';
import { runs } from './runs.ts';
import { scatter } from './scatter.ts';

const size = fc.double({ min: 30, max: 150, noNaN: true });
const shapes = fc.oneof(
  fc.record({
    kind: fc.constant('spire'),
    shape: fc.record({
      sides: fc.integer({ min: 3, max: 12 }),
      side: fc.double({ min: 15, max: 50, noNaN: true }),
      rise: size,
    }),
  }),
  fc.record({ kind: fc.constant('pyramid'), shape: fc.record({ width: size, depth: size, rise: size }) }),
  fc
    .record({ width: size, depth: size, rise: size, by: fc.double({ min: -8, max: 8, noNaN: true }) })
    .map(({ width, depth, rise, by }) => ({
      kind: 'pyramid',
      shape: {
        corners: [
          [0, 0],
          [width, 0],
          [width + by, depth],
          [0, depth - by],
        ] as const,
        rise,
      },
    })),
);

const share = fc.double({ min: 0.05, max: 0.2, noNaN: true });
/** Spires and pyramids with a flare: slopes round the peak, flares on the feet of some. */
const flared = fc
  .record({
    kind: fc.constantFrom('bell-cast-spire', 'bell-cast-pyramid'),
    sides: fc.integer({ min: 4, max: 10 }),
    width: size,
    rise: size,
    flare: share,
    pitch: fc.double({ min: 0.3, max: 0.7, noNaN: true }),
  })
  .map(({ kind, sides, width, rise, flare, pitch }) => ({
    kind,
    shape: {
      ...(kind === 'bell-cast-spire' ? { sides, side: (width * 2) / sides } : { width, depth: width }),
      rise: 1.2 * rise + 0.5 * width,
      flareRise: flare * width * 0.5,
      flarePitch: pitch,
    },
  }));

test.each([
  ['slopes round one peak', shapes],
  ['slopes with flares on their feet', flared],
] as const)('%s, drawn back by compass: every slope has its sides, and seams differ by what is told', (_, some) => {
  let fans = 0;
  let hung = 0;
  fc.assert(
    fc.property(
      some,
      fc.constantFrom<Ruler>(...rulers),
      fc.constantFrom('wrong', 'right'),
      fc.double({ min: 0, max: 6, noNaN: true }),
      ({ kind, shape }, ruler, up, turn) => {
        const built = findKind(kind)?.build(shape, null);
        if (!built?.ok) return;
        const solid = built.value;
        const flaps = { width: 6, on: 'one-side', clearance: 0.5, least: 2 } as const;
        const { net } = buildNet(solid, { pieces: 'one-piece', flaps });
        const { production, sheet } = scatter({ solid }, net, [turn], 4);
        const out = makeSetOut(production, sheet, { ruler, up });
        const step = rulerStep(ruler);
        const told = closing(solid, net, ruledMarks(solid, net, ruler)).seams.map(mismatchOf);
        expect(Math.max(0, ...told)).toBeLessThanOrEqual(2 * step);
        for (const strip of out.strips) {
          const { marks, lines } = follow(strip, ruler, makeTemplates(out));
          expect([...marks.values()].every((p, i) => distance2(p, strip.marks[i]?.at as Vec2) < 1e-6)).toBe(true);
          for (const { piece: p, off } of strip.pieces) {
            const piece = net.pieces[p] as Piece;
            const fan = fanOf(piece);
            if (!fan || !isOnMarks(fan, step)) continue;
            fans++;
            hung += fan.hung.length;
            expect(strip.steps.some(({ text }) => text.startsWith('Compass on'))).toBe(true);
            expect(off).toBeLessThanOrEqual(1.5 * step);
            const lengths = lines
              .filter(({ use }) => use === 'cut' || use === 'score')
              .flatMap(({ points }) => points.slice(1).map((q, i) => distance2(q, points[i] as Vec2)));
            // Each side of each slope is drawn, to the nearest mark or the next one where its seam asks for that.
            for (const { polygon } of piece.panels) {
              // A corner of a flare has two measures, along its foot and square off it, each within a mark.
              const within = (polygon.length === 3 ? 1 : Math.SQRT2) * step + 1e-6;
              polygon.forEach((corner, i) => {
                const side = distance2(corner, at(polygon, i + 1));
                expect(Math.min(...lengths.map((length) => Math.abs(length - side)))).toBeLessThanOrEqual(within);
              });
            }
          }
        }
      },
    ),
    { numRuns: runs(25) },
  );
  expect(fans).toBeGreaterThan(0);
  expect(hung > 0).toBe(some === flared);
});

test('the ring of a steep cone cut off is drawn by a compass on scrap beside its strip', () => {
  let beside = 0;
  fc.assert(
    fc.property(
      fc.record({
        diameter: fc.double({ min: 40, max: 90, noNaN: true }),
        rise: fc.double({ min: 12, max: 40, noNaN: true }),
        pitch: fc.double({ min: 1.2, max: 1.42, noNaN: true }),
      }),
      fc.record(scattering),
      (shape, where) => {
        const built = findKind('conical-frustum')?.build(shape, null);
        if (!built?.ok) return;
        const flaps = { width: 6, on: 'one-side', clearance: 0.5, least: 2 } as const;
        const { net } = buildNet(built.value, { pieces: 'one-piece', flaps });
        const out = expectDrawnBack({ solid: built.value, net }, where);
        for (const { steps } of out.strips) {
          const told = steps.map(({ text }) => text);
          if (!told.some((text) => text.startsWith('Tape scrap to the'))) continue;
          beside++;
          expect(told.filter((text) => /, on that scrap: .* (below|above) the/.test(text)).length).toBeGreaterThan(0);
          // Nothing of the ring is left to be joined through plotted points.
          expect(told.filter((text) => text.includes('in one smooth curve'))).toEqual([]);
        }
      },
    ),
    { numRuns: runs(6) },
  );
  expect(beside).toBeGreaterThan(0);
});

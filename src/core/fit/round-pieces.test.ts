import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runs } from '../../../tests/laws/runs.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import { buildNet } from '../net/build-net.ts';
import type { Net } from '../net/net.ts';
import { seeded } from '../random.ts';
import { findKind } from '../roofs/catalogue.ts';
import type { Solid } from '../solid/solid.ts';
import { type Ruler, rulerStep, rulers } from '../units/units.ts';
import { closing, mismatchOf } from './closing.ts';
import { HAND_MM } from './hand-cut.ts';
import { ruledMarks } from './marks.ts';
import { roundPieces } from './round-pieces.ts';

const flaps = { width: 6, on: 'alternate', clearance: 0.5, least: 2 } as const;

function make(kind: string, shape: Readonly<Record<string, number>>, pieces: 'per-panel' | 'one-piece' = 'per-panel') {
  const built = findKind(kind)?.build(shape, null);
  if (!built?.ok) throw new Error('no roof');
  return { solid: built.value, net: buildNet(built.value, { pieces, flaps, search: { rounds: 2, seed: 1 } }).net };
}

const size = fc.double({ min: 25, max: 150, noNaN: true });
const roofs = fc
  .tuple(
    fc.constantFrom('pyramid', 'hip', 'gable', 'frustum', 'half-hip', 'mansard', 'saltbox'),
    fc.record({ width: size, depth: size, pitch: fc.double({ min: 0.4, max: 1.2, noNaN: true }) }),
    fc.constantFrom<Ruler>(...rulers),
  )
  .filter(([kind, shape]) => findKind(kind)?.build(shape, null).ok ?? false);

/** Lengths of both sides of every straight seam between the drawn corners, each moved by `off`, mm. */
function drawnSides(net: Net, ruler: Ruler, off: () => number): readonly (readonly [number, number] | null)[] {
  const step = rulerStep(ruler);
  const rounded = roundPieces(net, ruler);
  return net.seams.map(({ sides }) => {
    if (sides.some(({ piece, curve }) => piece < 0 || curve)) return null;
    const [a = 0, b = 0] = sides.map(({ piece, ends }) => {
      const [p, q] = ends.map((end): Vec2 => {
        const [x, y] = rounded[piece]?.marks(end) ?? [0, 0];
        return [x * step + off(), y * step + off()];
      }) as [Vec2, Vec2];
      return distance2(p, q);
    });
    return [a, b];
  });
}

const told = ({ solid, net }: { readonly solid: Solid; readonly net: Net }, ruler: Ruler): readonly number[] =>
  closing(solid, net, ruledMarks(solid, net, ruler)).seams.map(mismatchOf);

describe('pieces on the marks of a ruler', () => {
  test('mating edges of the drawn pieces differ by what the fit tells, seam by seam', () => {
    fc.assert(
      fc.property(roofs, ([kind, shape, ruler]) => {
        const made = make(kind, shape);
        const gaps = told(made, ruler);
        drawnSides(made.net, ruler, () => 0).forEach((sides, s) => {
          if (sides) expect(Math.abs(sides[0] - sides[1])).toBeCloseTo(gaps[s] as number, 6);
        });
      }),
      { numRuns: runs(15) },
    );
  });

  test('cut within 1/64 in of every mark they differ by that and no more than four hands’ errors', () => {
    fc.assert(
      fc.property(roofs, fc.integer(), ([kind, shape, ruler], seed) => {
        const made = make(kind, shape);
        const random = seeded(seed);
        const gaps = told(made, ruler);
        drawnSides(made.net, ruler, () => (2 * random() - 1) * HAND_MM).forEach((sides, s) => {
          if (sides)
            expect(Math.abs(sides[0] - sides[1])).toBeLessThanOrEqual((gaps[s] as number) + 4 * Math.SQRT2 * HAND_MM);
        });
      }),
      { numRuns: runs(15) },
    );
  });

  test('corners are whole marks, at most one step off, and the same on both sides of a middle', () => {
    fc.assert(
      fc.property(roofs, ([kind, shape, ruler]) => {
        const { net } = make(kind, shape);
        const step = rulerStep(ruler);
        roundPieces(net, ruler).forEach(({ origin, marks, isSymmetric, size: [width] }, p) => {
          for (const { polygon } of net.pieces[p]?.panels ?? []) {
            const counts = polygon.map(marks);
            polygon.forEach(([x, y], i) => {
              const [u, v] = counts[i] as Vec2;
              expect([Number.isInteger(u), Number.isInteger(v)]).toEqual([true, true]);
              expect(Math.abs(origin[0] + u * step - x)).toBeLessThanOrEqual(step + 1e-6);
              expect(Math.abs(origin[1] + v * step - y)).toBeLessThanOrEqual(step + 1e-6);
              if (isSymmetric && net.pieces[p]?.panels.length === 1) {
                expect(counts.some(([s, t]) => s === width - u && t === v)).toBe(true);
              }
            });
          }
        });
      }),
      { numRuns: runs(15) },
    );
  });

  test('panels that are the same get the same marks, turned over or not', () => {
    const { net } = make('hip', { width: 83.3, depth: 51.7, pitch: 0.8 });
    const marks = roundPieces(net, '1mm').map(({ size: own }) => own.join(' by '));
    expect(new Set(marks).size).toBe(2);
  });
});

test.each([
  // Chords of 1.66 mm are no mark of eighths of an inch; beside them the radius is long.
  ['spire', { sides: 8, acrossFlats: 4, rise: 40 }],
  // Flares hang on chords of 0.8 mm.
  ['bell-cast-spire', { sides: 6, acrossFlats: 6, rise: 60, flareRise: 6, flarePitch: 1.2, flareSteps: 1 }],
] as const)('slopes of a small %s round one peak have marks on any ruler', (kind, shape) => {
  const built = findKind(kind)?.build(shape, null);
  if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
  const { net } = buildNet(built.value, { pieces: 'one-piece', flaps: { ...flaps, on: 'none' } });
  for (const ruler of rulers) {
    const rounded = roundPieces(net, ruler);
    net.pieces.forEach(({ panels }, p) => {
      const marks = panels.flatMap(({ polygon }) => polygon.flatMap((point) => rounded[p]?.marks(point) ?? []));
      expect(marks.every(Number.isFinite)).toBe(true);
      expect(rounded[p]?.size.every(Number.isFinite)).toBe(true);
    });
  }
});

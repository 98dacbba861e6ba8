import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { buildNet } from '../net/build-net.ts';
import type { Body, ShapeValues } from '../project/project.ts';
import { findKind } from '../roofs/catalogue.ts';
import { MM_PER_INCH, type Ruler, rulerStep } from '../units/units.ts';
import { closingSentence, type Fit, fitRoof } from './fit.ts';

const flaps = { width: 6, on: 'alternate', clearance: 0.5, least: 2 } as const;
const box = (width: number, depth: number, height: number): Body => {
  const [x, y] = [width / 2, depth / 2];
  return {
    outline: [
      [-x, -y],
      [x, -y],
      [x, y],
      [-x, y],
    ],
    height,
    rectangle: { width, depth },
  };
};

function fitOf(
  kind: string,
  shape: ShapeValues,
  body: Body | null,
  ruler: Ruler = '1mm',
): { fit: Fit; codes: string[]; places: unknown[] } {
  const built = findKind(kind)?.build(shape, body);
  if (!built?.ok) throw new Error('no roof');
  const solid = built.value;
  const { net } = buildNet(solid, { pieces: 'per-panel', flaps });
  const { fit, issues } = fitRoof(solid, [{ solid, net }], { body, ruler, units: 'mm' });
  return { fit, codes: issues.map((issue) => issue.code), places: issues.map((issue) => issue.place?.edges) };
}

describe('the rest on the body', () => {
  test('a pyramid sinks by its overhang times the tangent of its pitch', () => {
    const { fit } = fitOf('pyramid', { width: 60, depth: 60, rise: 45 }, box(50, 50, 80));
    // Overhang 5, rise 45 on a run of 30: the eave hangs 7.5 under the top of the wall.
    expect(fit.rest).toBeCloseTo(80 - 7.5, 9);
    expect(fit.overhang?.min).toBeCloseTo(5, 9);
    expect(fit.overhang?.max).toBeCloseTo(5, 9);
  });

  test('on a long body the roof comes down until its lower side touches', () => {
    // Overhang 4 on both sides, but the pitch is 60/40 on two sides and 60/25 on the others: the lesser drop holds it.
    const { fit } = fitOf('pyramid', { width: 80, depth: 50, rise: 60 }, box(72, 42, 30));
    expect(fit.rest).toBeCloseTo(30 - Math.min((4 * 60) / 40, (4 * 60) / 25), 9);
  });

  test('a gable rests on its eave walls and its end walls on the body', () => {
    const { fit } = fitOf('gable', { width: 90, depth: 60, rise: 30 }, box(80, 48, 50));
    expect(fit.rest).toBeCloseTo(50 - 6, 9);
    expect(fit.overhang).toMatchObject({ min: expect.closeTo(5, 9), max: expect.closeTo(6, 9) });
  });

  test('an octagon with the same overhang all round', () => {
    const side = 24;
    const apothem = side / 2 / Math.tan(Math.PI / 8);
    const radius = (apothem - 3) / Math.cos(Math.PI / 8);
    const outline = Array.from({ length: 8 }, (_, i) => {
      const angle = -Math.PI / 2 + ((2 * i - 1) * Math.PI) / 8;
      return [radius * Math.cos(angle), radius * Math.sin(angle)] as const;
    });
    const { fit } = fitOf('spire', { sides: 8, side, rise: 70 }, { outline, height: 40, rectangle: null });
    expect(fit.overhang?.min).toBeCloseTo(3, 9);
    expect(fit.overhang?.max).toBeCloseTo(3, 9);
    expect(fit.rest).toBeCloseTo(40 - (3 * 70) / apothem, 9);
  });

  test('is told wall by wall, with the eave’s height over the table', () => {
    const { fit } = fitOf('gable', { width: 90, depth: 60, rise: 30 }, box(80, 48, 50));
    const least = fit.overhang?.walls.map(({ id, distances }) => [id, Math.min(...distances)]);
    expect(least).toEqual([
      ['south', expect.closeTo(6, 9)],
      ['east', expect.closeTo(5, 9)],
      ['north', expect.closeTo(6, 9)],
      ['west', expect.closeTo(5, 9)],
    ]);
    expect(fit.eaves).toEqual([expect.closeTo(44, 9)]);
  });

  test('a body that stands out is an error that says by how much', () => {
    const built = fitOf('pyramid', { width: 60, depth: 60, rise: 45 }, box(63, 50, 80));
    expect(built.codes).toEqual(['roof-too-small']);
    expect(built.places).toEqual([['eave-east', 'eave-west']]);
    expect(built.fit.overhang?.min).toBeCloseTo(-1.5, 9);
  });
});

describe('closing', () => {
  test('is exact where every measure is a mark', () => {
    // Slant 50 over a run of 30, half of 60: all whole millimetres.
    const { fit } = fitOf('pyramid', { width: 60, depth: 60, slant: 50 }, null);
    expect(fit.seamMismatch).toBe(0);
    expect(fit.peakGap).toBeLessThan(1e-9);
    expect(fit.sentence).toBe('Closes exactly.');
  });

  test('equal panels with equal rounding still meet', () => {
    const { fit } = fitOf('pyramid', { width: 60, depth: 60, slant: 50.4 }, null);
    expect(fit.peakGap).toBeLessThan(1e-6);
  });

  test('is told seam by seam and peak by peak', () => {
    const { fit } = fitOf('pyramid', { width: 61, depth: 61, slant: 50 }, null);
    expect(fit.seams.map((seam) => seam.mark)).toEqual(['A', 'B', 'C', 'D']);
    for (const { lengths, marked } of fit.seams) {
      for (const length of lengths) expect(length).toBeCloseTo(Math.hypot(30.5, 50), 9);
      expect(Math.abs(marked[0] - marked[1])).toBeCloseTo(fit.seamMismatch, 9);
    }
    expect(fit.peaks.map((peak) => peak.gap)).toEqual([fit.peakGap]);
  });

  test('an odd base is drawn as an even one, so that its peak is a mark and both edges are alike', () => {
    const { fit } = fitOf('pyramid', { width: 61, depth: 61, slant: 50 }, null);
    // Half of 61 is 30.5: the mark is 31, on either side of the peak.
    for (const { marked } of fit.seams) for (const side of marked) expect(side).toBeCloseTo(Math.hypot(31, 50), 9);
    expect(fit.seamMismatch).toBe(0);
    expect(fit.peakGap).toBeLessThan(1e-9);
  });

  test('counts the line of a wall on the inside of a slope', () => {
    // Slopes of 50 over a half span of 30; the walls stand on a body 49 wide: 24.5 and 32.67 of slope, no whole marks.
    const { fit } = fitOf('gable', { width: 90, depth: 60, slant: 50 }, box(80, 49, 50));
    const foot = 50 * (5.5 / 30);
    const height = Math.round(40 - 40 * (5.5 / 30));
    // The line ends 50 - 9.17 = 40.83 from the ridge, 41 by its marks. Half of 49 goes to 24 as well as to 25: 24 over and 33 up
    // gives the wall an edge of 40.80, nearer than 41.40.
    const line = 50 - Math.round(foot);
    expect(fit.seamMismatch).toBeCloseTo(Math.abs(Math.hypot(24, height) - line), 9);
  });

  test('two edges that are glued together are rounded together, not each to its nearest marks', () => {
    // Slants of 41.88 and 49.26 over half eaves of 36.3 and 25.4: each to its nearest mark, the hips are 0.31 apart.
    const { fit } = fitOf('pyramid', { width: 72.6, depth: 50.8, rise: 33.3 }, null);
    const each = Math.abs(Math.hypot(36, 42) - Math.hypot(25, 49));
    expect(each).toBeGreaterThan(0.3);
    expect(fit.seamMismatch).toBeLessThan(each / 2);
  });

  test('a finer ruler never leaves a seam further apart than its own marks allow', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 200 }),
        fc.integer({ min: 20, max: 200 }),
        fc.constantFrom<Ruler>('1mm', '0.5mm', '1/16in', '1/32in'),
        (width, rise, ruler) => {
          const { fit } = fitOf('pyramid', { width: width + 0.3, depth: width + 7.7, rise }, null, ruler);
          // Each of the two sides ends at points moved by at most half a step along and half a step up.
          expect(fit.seamMismatch).toBeLessThanOrEqual(2 * Math.SQRT2 * rulerStep(ruler));
        },
      ),
    );
  });

  test('is said in the maker’s units, rounded up', () => {
    expect(closingSentence(0, 'in')).toBe('Closes exactly.');
    expect(closingSentence(0.1, 'in')).toBe('Closes within 1/64 in.');
    expect(closingSentence(MM_PER_INCH / 32, 'in')).toBe('Closes within 1/32 in.');
    expect(closingSentence(1.2 * MM_PER_INCH, 'in')).toBe('Closes within 1 13/64 in.');
    expect(closingSentence(0.31, 'mm')).toBe('Closes within 0.4 mm.');
  });
});

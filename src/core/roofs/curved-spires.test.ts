import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { measureSolid } from '../solid/measure.ts';
import { fromDegrees } from '../units/units.ts';
import { findKind } from './catalogue.ts';
import { build, codesOf, numberOf, southPitches, southProfile } from './testing/swept.ts';

describe('an ogee spire', () => {
  const shape = { sides: 8, acrossFlats: 64, rise: 80, bendRise: 30, tipPitch: fromDegrees(64), bands: 9 };

  test.each([
    ['hollow below and rounded above', 34, 1],
    ['rounded below and hollow above', 88, -1],
  ])('%s with an eave of %i degrees', (_, degrees, first) => {
    const tipPitch = fromDegrees(first > 0 ? 64 : 80);
    const { solid } = build('ogee-spire', { ...shape, tipPitch, eavePitch: fromDegrees(degrees) });
    const pitches = southPitches(solid);
    const turns = pitches.slice(1).map((pitch, i) => Math.sign(pitch - (pitches[i] ?? 0)));
    const change = turns.findIndex((turn) => turn !== first);
    expect(change).toBeGreaterThan(1);
    expect(turns).toEqual(turns.map((_turn, i) => (i < change ? first : -first)));
    expect(southProfile(solid).filter(([, level]) => Math.abs(level - 30) < 1e-9)).toHaveLength(1);
  });

  test('begins and ends as steep as asked, but for half a band', () => {
    const [eavePitch, tipPitch] = [fromDegrees(40), fromDegrees(62)];
    const off = [6, 12].map((bands) => {
      const pitches = southPitches(build('ogee-spire', { ...shape, eavePitch, tipPitch, bands }).solid);
      return [(pitches[0] ?? 0) - eavePitch, (pitches.at(-1) ?? 0) - tipPitch];
    });
    for (const k of [0, 1]) expect((off[0]?.[k] ?? 0) / (off[1]?.[k] ?? 1)).toBeCloseTo(2, 0);
  });

  test('refuses an eave so flat that the middle is past before the bend', () => {
    expect(codesOf('ogee-spire', { ...shape, eavePitch: fromDegrees(6) })).toEqual(['no-bend shape.eavePitch']);
  });
});

describe('a bell-cast spire', () => {
  const shapes = fc.record({
    sides: fc.integer({ min: 3, max: 24 }),
    side: fc.double({ min: 10, max: 200, noNaN: true }),
    share: fc.double({ min: 0.3, max: 5, noNaN: true }),
    flareShare: fc.double({ min: 0.02, max: 0.4, noNaN: true }),
    flarePitch: fc.double({ min: 0.1, max: 1.4, noNaN: true }),
    flareSteps: fc.integer({ min: 1, max: 12 }),
  });

  test('has a flare as steep as asked, and a curve that runs into the straight part', () => {
    fc.assert(
      fc.property(shapes, ({ sides, side, share, flareShare, flarePitch, flareSteps }) => {
        const run = side / (2 * Math.tan(Math.PI / sides));
        const rise = share * run;
        const kind = findKind('bell-cast-spire');
        const built = kind?.build({ sides, side, rise, flareRise: flareShare * rise, flarePitch, flareSteps }, null);
        fc.pre(built?.ok === true);
        if (!built?.ok) return;
        const { faces } = measureSolid(built.value);
        const pitches = built.value.faces.flatMap((face, f) =>
          face.side === built.value.faces[0]?.side ? [faces[f]?.pitch ?? 0] : [],
        );
        expect(pitches).toHaveLength(flareSteps + 1);
        if (flareSteps === 1) expect(Math.abs((pitches[0] ?? 0) - flarePitch)).toBeLessThan(1e-9);
        // The run per rise grows evenly from facet to facet, by half as much from the eave itself and into the straight part.
        const runs = [flarePitch, ...pitches].map((pitch) => 1 / Math.tan(pitch));
        const grows = runs.slice(1).map((one, i) => one - (runs[i] ?? 0));
        if (flareSteps > 1) {
          const even = (grows.at(-1) ?? 0) * 2;
          for (const step of grows.slice(1, -1)) expect(step).toBeCloseTo(even, 8);
          expect(2 * (grows[0] ?? 0)).toBeCloseTo(even, 8);
        }
      }),
    );
  });

  test('says how far its folds lie off the curve: less with every step, four times less with twice as many', () => {
    const off = [4, 8].map((flareSteps) =>
      numberOf(
        build('bell-cast-spire', { sides: 8, acrossFlats: 70, rise: 88, flareRise: 20, flarePitch: 0.4, flareSteps }),
        'curve-in-facets',
        'off',
      ),
    );
    expect((off[0] ?? 0) / (off[1] ?? 1)).toBeCloseTo(4, 0);
  });
});

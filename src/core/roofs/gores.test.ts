import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { restHeight } from '../fit/rest.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Body } from '../project/project.ts';
import { checkSolid } from '../solid/check-solid.ts';
import { measureSolid } from '../solid/measure.ts';
import { fromDegrees } from '../units/units.ts';
import { solidVolume } from './testing/solid-volume.ts';
import {
  build,
  type Curve,
  capCurve,
  circle,
  codesOf,
  numberOf,
  sampledDeviation,
  southPitches,
  southProfile,
} from './testing/swept.ts';

describe('a dome', () => {
  test('of ever more gores and bands has the area and volume of the half ball, twice as many four times nearer', () => {
    const radius = 50;
    const off = [
      [12, 6],
      [24, 12],
      [48, 24],
    ].map(([sides = 0, bands = 0]) => {
      const { solid } = build('dome', { sides, acrossFlats: 2 * radius, bands });
      return [
        measureSolid(solid).area / (2 * Math.PI * radius ** 2) - 1,
        solidVolume(solid) / ((2 / 3) * Math.PI * radius ** 3) - 1,
      ] as const;
    });
    for (const k of [0, 1] as const) {
      expect(Math.abs(off[2]?.[k] ?? 1)).toBeLessThan(0.0012);
      for (const i of [0, 1]) expect((off[i]?.[k] ?? 0) / (off[i + 1]?.[k] ?? 1)).toBeCloseTo(4, 0);
    }
  });

  test('over a square has the area of two and the volume of two thirds of its square times its rise, as a domical vault', () => {
    const off = [4, 8, 16].map((bands) => {
      const { solid } = build('dome', { sides: 4, side: 60, bands });
      return [measureSolid(solid).area / (2 * 60 ** 2) - 1, solidVolume(solid) / ((2 / 3) * 60 ** 2 * 30) - 1] as const;
    });
    for (const k of [0, 1] as const) {
      expect(Math.abs(off[2]?.[k] ?? 1)).toBeLessThan(0.0025);
      for (const i of [0, 1]) expect((off[i]?.[k] ?? 0) / (off[i + 1]?.[k] ?? 1)).toBeCloseTo(4, 0);
    }
  });

  test('lower than a half ball has the area of the cap: 2 pi times radius times rise', () => {
    const [run, rise] = [50, 18];
    const area = Math.PI * (run ** 2 + rise ** 2);
    const { solid } = build('dome', { sides: 48, acrossFlats: 2 * run, rise, bands: 24 });
    expect(measureSolid(solid).area / area).toBeCloseTo(1, 2);
  });

  test('says how far it is from round, and no point of the round surface or of a panel is farther', () => {
    const shapes = fc.record({
      sides: fc.integer({ min: 3, max: 16 }),
      acrossCorners: fc.double({ min: 20, max: 200, noNaN: true }),
      share: fc.oneof(fc.constant(1), fc.double({ min: 0.1, max: 3, noNaN: true })),
      bands: fc.integer({ min: 2, max: 10 }),
    });
    fc.assert(
      fc.property(shapes, ({ sides, acrossCorners, share, bands }) => {
        const run = (acrossCorners / 2) * Math.cos(Math.PI / sides);
        const rise = share * run;
        const built = build('dome', { sides, acrossCorners, rise, bands });
        const said = numberOf(built, 'round-deviation', 'deviation');
        const { out, back } = sampledDeviation(built.solid, capCurve(run, rise), sides);
        // The curve is tried at points a thousandth of it apart, so a distance to it comes out that much too large at most.
        const grain = 0.0005 * (run + rise);
        expect(out).toBeLessThan(said + grain);
        expect(back).toBeLessThan(said + 1e-9);
        expect(Math.max(out, back)).toBeGreaterThan(0.9 * said);
      }),
      { numRuns: 30 },
    );
  });

  test('keeps a gore in one side, its folds level', () => {
    const { solid } = build('dome', { sides: 12, acrossFlats: 72, bands: 6 });
    expect(new Set(solid.faces.map(({ side }) => side)).size).toBe(12);
    const breaks = solid.edges.filter(({ role }) => role === 'break');
    expect(breaks).toHaveLength(12 * 5);
    for (const { faces } of breaks) expect(new Set(faces.map((f) => solid.faces[f]?.side)).size).toBe(1);
  });

  test('is a half ball where no rise is given, its folds alike far apart', () => {
    const { solid } = build('dome', { sides: 8, acrossFlats: 80, bands: 5 });
    const profile = southProfile(solid);
    for (const point of profile) expect(Math.hypot(...point)).toBeCloseTo(40, 9);
    southPitches(solid).forEach((pitch, i) => {
      expect(pitch).toBeCloseTo((Math.PI / 2) * (1 - (2 * i + 1) / 10), 9);
    });
  });
});

describe('an onion', () => {
  const shape = { sides: 12, acrossFlats: 40, rise: 74, bulge: 9, bulgeRise: 20, tipPitch: fromDegrees(78), bands: 10 };
  /** The two circles by their own conditions: through the eave and the widest point; touching the first from outside. */
  const curve = (): Curve => {
    const lower = (9 ** 2 + 20 ** 2) / 18;
    const centre: Vec2 = [29 - lower, 20];
    const tip = shape.tipPitch;
    let [low, high] = [0, 1e4];
    const gap = (q: number): number =>
      Math.hypot(q * Math.sin(tip) - centre[0], 74 + q * Math.cos(tip) - 20) - lower - q;
    for (let round = 0; round < 200; round++) {
      const q = (low + high) / 2;
      if (gap(q) > 0) low = q;
      else high = q;
    }
    const [x, y]: Vec2 = [low * Math.sin(tip), 74 + low * Math.cos(tip)];
    const touch = Math.atan2(y - centre[1], x - centre[0]);
    return [
      ...circle(centre, lower, Math.asin(-20 / lower), touch),
      ...circle([x, y], low, touch + Math.PI, Math.PI * 1.5 - tip),
    ];
  };

  test('leaves the eave outwards, is widest where asked, and ends in a point', () => {
    const { solid } = build('onion', { ...shape, bands: 16 });
    const profile = southProfile(solid);
    expect(profile[0]).toEqual([expect.closeTo(20, 9), 0]);
    expect(profile.at(-1)).toEqual([expect.closeTo(0, 9), 74]);
    const widest = profile.reduce((best, p) => (p[0] > best[0] ? p : best));
    expect(widest[0]).toBeGreaterThan(28);
    expect(widest[0]).toBeLessThanOrEqual(29);
    expect(Math.abs(widest[1] - 20)).toBeLessThan(6);
    const pitches = southPitches(solid);
    expect(pitches[0]).toBeGreaterThan(Math.PI / 2);
    expect(Math.abs((pitches.at(-1) ?? 0) - shape.tipPitch)).toBeLessThan(0.1);
  });

  test('has every fold on its curve, and says how far it is from round', () => {
    const built = build('onion', shape);
    const points = curve();
    for (const [reach, level] of southProfile(built.solid)) {
      expect(Math.min(...points.map(([u, v]) => Math.hypot(u - reach, v - level)))).toBeLessThan(0.02);
    }
    const said = numberOf(built, 'round-deviation', 'deviation');
    const { out, back } = sampledDeviation(built.solid, points, 12);
    expect(out).toBeLessThan(said + 0.02);
    expect(back).toBeLessThan(said + 1e-9);
    expect(Math.max(out, back)).toBeGreaterThan(0.9 * said);
  });

  test('is sound with slopes that face down, and found out where one faces in', () => {
    const { solid } = build('onion', shape);
    expect(checkSolid(solid)).toEqual([]);
    const { overhangs, ...plain } = solid;
    expect(overhangs).toBe('from-foot');
    expect(checkSolid(plain).map(({ code }) => code)).toContain('face-inside-out');
    solid.faces.forEach((face, f) => {
      const faces = solid.faces.with(f, { ...face, loop: face.loop.toReversed() });
      expect(checkSolid({ ...solid, faces }).map(({ code }) => code)).toEqual(['face-inside-out']);
    });
  });

  test('says that it needs a plate on a narrower body, and why it has no curve', () => {
    const ring = (size: number): Body => ({
      outline: [
        [-size, -size],
        [size, -size],
        [size, size],
        [-size, size],
      ],
      height: 30,
      rectangle: null,
    });
    expect(build('onion', shape, ring(14)).issues.map(({ code }) => code)).toEqual(['needs-plate', 'round-deviation']);
    expect(build('onion', shape, ring(20)).issues.map(({ code }) => code)).toEqual(['round-deviation']);
    // It stands on the body by its eave, however far its bulge hangs over.
    for (const size of [14, 20]) expect(restHeight(build('onion', shape).solid, ring(size))).toBe(30);
    expect(codesOf('onion', { ...shape, bulge: 19.5 })).toEqual(['bulge-too-wide shape.bulge']);
    expect(codesOf('onion', { ...shape, tipPitch: fromDegrees(20) })).toEqual(['no-onion shape']);
    expect(codesOf('onion', { ...shape, bulgeRise: 73 })).toEqual(['level-too-high shape.bulgeRise']);
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ringArea } from '../../geometry/polygon.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import { buildSolid } from '../../solid/build-solid.ts';
import { checkSolid } from '../../solid/check-solid.ts';
import { measureSolid } from '../../solid/measure.ts';
import type { Solid } from '../../solid/solid.ts';
import { toDegrees } from '../../units/units.ts';
import { findKind } from '../catalogue.ts';
import { regularCorners, regularSides } from '../regular.ts';
import { solidVolume } from '../testing/solid-volume.ts';
import { type Ring, stackRings } from './rings.ts';

const stacked = (...rings: readonly Ring[]): Solid =>
  buildSolid(stackRings({ rings, sides: regularSides(rings[0]?.corners.length ?? 0) }));

/** A regular polygon by the length of its side, turned by a share of the angle between two corners. */
const polygon = (sides: number, side: number, turn = 0): Vec2[] => {
  const angle = (2 * Math.PI * turn) / sides;
  return regularCorners(sides, side / (2 * Math.tan(Math.PI / sides))).map(([x, y]) => [
    x * Math.cos(angle) - y * Math.sin(angle),
    x * Math.sin(angle) + y * Math.cos(angle),
  ]);
};

/** Inside angles between side panels and with the top, and pitches over the base, sorted and without repeats, to 4 decimals. */
const angles = (solid: Solid): { readonly between: string[]; readonly atBase: string[] } => {
  const sorted = (values: readonly number[]): string[] =>
    [...new Set(values.map((v) => toDegrees(v).toFixed(4)))].sort();
  return {
    between: sorted(solid.edges.flatMap(({ dihedral }) => (dihedral === null ? [] : [dihedral]))),
    atBase: sorted(
      solid.edges.flatMap(({ role, faces }) =>
        role === 'eave' ? [measureSolid(solid).faces[faces[0] ?? 0]?.pitch ?? 0] : [],
      ),
    ),
  };
};

describe('two polygons of one side, as far apart as makes every edge equal', () => {
  // Angles of N. W. Johnson, Convex Solids with Regular Faces (1966), and the encyclopaedia tables that follow it.
  test('an octagon under a square is the square cupola: four squares and four triangles', () => {
    const solid = stacked({ level: 0, corners: polygon(8, 30) }, { level: 30 / Math.SQRT2, corners: polygon(4, 30) });
    for (const { length } of solid.edges) expect(length).toBeCloseTo(30, 9);
    expect(angles(solid)).toEqual({ between: ['135.0000', '144.7356'], atBase: ['45.0000', '54.7356'] });
    expect(solid.faces.map(({ id }) => id)).toEqual([
      'south',
      'south-east',
      'east',
      'north-east',
      'north',
      'north-west',
      'west',
      'south-west',
      'top',
    ]);
    // Volume 1 + 2/3 of the root of 2, times the cube of the side.
    expect(solidVolume(solid) / 30 ** 3).toBeCloseTo(1 + (2 * Math.SQRT2) / 3, 9);
  });

  test('a hexagon under a triangle is the triangular cupola', () => {
    const solid = stacked(
      { level: 0, corners: polygon(6, 20) },
      { level: 20 * Math.sqrt(2 / 3), corners: polygon(3, 20) },
    );
    expect(angles(solid)).toEqual({ between: ['125.2644'], atBase: ['54.7356', '70.5288'] });
  });

  test('a triangle under one turned half way is the octahedron', () => {
    const solid = stacked(
      { level: 0, corners: polygon(3, 40) },
      { level: 40 * Math.sqrt(2 / 3), corners: polygon(3, 40, 0.5) },
    );
    expect(angles(solid).between).toEqual(['109.4712']);
  });

  test('a square under one turned half way is the square antiprism', () => {
    const rise = 40 / 2 ** 0.25;
    const solid = stacked({ level: 0, corners: polygon(4, 40) }, { level: rise, corners: polygon(4, 40, 0.5) });
    expect(angles(solid).between).toEqual(['103.8362', '127.5516']);
  });
});

describe('outlines stacked in any way', () => {
  const outline = fc
    .tuple(fc.integer({ min: 3, max: 12 }), fc.double({ min: 20, max: 90, noNaN: true }), fc.constantFrom(0, 0.5, 0.31))
    .map(([sides, side, turn]) => polygon(sides, side / sides, turn));

  test('close over the plan by flat panels, and hold what lies between them', () => {
    fc.assert(
      fc.property(outline, outline, outline, ([...a], [...b], [...c]) => {
        const shrink = (ring: readonly Vec2[], by: number): Vec2[] => {
          const size = Math.max(...ring.map((p) => Math.hypot(...p)));
          return ring.map(([x, y]): Vec2 => [(x * by) / size, (y * by) / size]);
        };
        // Each ring lies inside the one below, so that all panels face up.
        const inner = (ring: readonly Vec2[], under: readonly Vec2[]): Vec2[] => {
          const least = Math.min(...under.map((p, i) => apothem(p, under[(i + 1) % under.length] as Vec2)));
          return shrink(ring, 0.9 * least);
        };
        const rings: Ring[] = [{ level: 0, corners: a }];
        rings.push({ level: 14, corners: inner(b, a) });
        rings.push({ level: 37, corners: inner(c, rings[1]?.corners ?? []) });
        const solid = stacked(...rings);
        expect(checkSolid(solid)).toEqual([]);
        const { faces } = measureSolid(solid);
        const plan = faces.reduce((sum, { area, pitch }) => sum + area * Math.cos(pitch), 0);
        expect(plan / ringArea(a)).toBeCloseTo(1, 9);
        expect(new Set(solid.faces.map(({ id }) => id)).size).toBe(solid.faces.length);
      }),
    );
  });

  test('which are not convex are joined corner to corner', () => {
    const ell = (inset: number): Vec2[] => [
      [inset, inset],
      [60 - inset, inset],
      [60 - inset, 25 - inset],
      [25 - inset, 25 - inset],
      [25 - inset, 50 - inset],
      [inset, 50 - inset],
    ];
    const sides = ell(0).map((_, i) => ({ id: `side-${i}`, title: `Side ${i}` }));
    const rings = [
      { level: 0, corners: ell(0) },
      { level: 9, corners: ell(6) },
    ];
    const solid = buildSolid(stackRings({ rings, sides }));
    expect(checkSolid(solid)).toEqual([]);
    expect(solid.edges.filter(({ role }) => role === 'valley')).toHaveLength(1);
    expect(solid.faces).toHaveLength(7);
  });

  test('to a ridge are two ends and two slopes', () => {
    const solid = stacked(
      { level: 0, corners: regularCorners(4, 40) },
      {
        level: 30,
        corners: [
          [-12, 0],
          [12, 0],
        ],
      },
    );
    expect(solid.faces.map(({ id, loop }) => [id, loop.length])).toEqual([
      ['south', 4],
      ['east', 3],
      ['north', 4],
      ['west', 3],
    ]);
    expect(checkSolid(solid)).toEqual([]);
  });

  test('keep the panels over one eave in one side, and begin new sides at corners', () => {
    const built = findKind('splay-foot-spire')?.build({ width: 60, rise: 140, flareRise: 18, flarePitch: 0.9 }, null);
    const faces = built?.ok ? built.value.faces : [];
    expect(faces.map(({ id, side }) => `${id} of ${side}`).sort()).toEqual(
      ['south', 'south-east', 'east', 'north-east', 'north', 'north-west', 'west', 'south-west']
        .flatMap((id) => [`${id} of ${id}`, `${id}-2 of ${id}`])
        .sort(),
    );
  });
});

const apothem = (p: Vec2, q: Vec2): number =>
  Math.abs(p[0] * q[1] - p[1] * q[0]) / Math.hypot(p[0] - q[0], p[1] - q[1]);

describe('a regular frustum', () => {
  const build = (shape: Record<string, number>): ReturnType<NonNullable<ReturnType<typeof findKind>>['build']> => {
    const kind = findKind('regular-frustum');
    if (!kind) throw new Error('no kind');
    return kind.build(shape, null);
  };

  test('has the volume of the two pyramids it is the difference of, and slopes as steep as asked', () => {
    const sizes = fc.record({
      sides: fc.integer({ min: 3, max: 24 }),
      side: fc.double({ min: 10, max: 300, noNaN: true }),
      pitch: fc.double({ min: 0.05, max: 1.5, noNaN: true }),
      share: fc.double({ min: 0.05, max: 0.94, noNaN: true }),
    });
    fc.assert(
      fc.property(sizes, ({ sides, side, pitch, share }) => {
        const inner = side / (2 * Math.tan(Math.PI / sides));
        const peak = inner * Math.tan(pitch);
        const built = build({ sides, side, rise: share * peak, pitch });
        if (!built.ok) throw new Error(JSON.stringify(built.issues));
        const base = (sides * side * inner) / 2;
        expect(solidVolume(built.value) / ((base * peak * (1 - (1 - share) ** 3)) / 3)).toBeCloseTo(1, 9);
        measureSolid(built.value).faces.forEach((face, f) => {
          const wanted = built.value.faces[f]?.id === 'top' ? 0 : pitch;
          expect(Math.abs(face.pitch - wanted)).toBeLessThan(1e-9);
        });
      }),
    );
  });

  test('has the same top said three ways', () => {
    const said: Record<string, number>[] = [
      { pitch: Math.atan2(20, 10) },
      { topAcrossFlats: 40 },
      { topSide: 40 * Math.tan(Math.PI / 8) },
    ];
    for (const top of said) {
      const built = build({ sides: 8, acrossFlats: 60, rise: 20, ...top });
      if (!built.ok) throw new Error(JSON.stringify(built.issues));
      expect(measureSolid(built.value).faces.at(-1)?.area).toBeCloseTo(8 * 20 * 20 * Math.tan(Math.PI / 8), 9);
    }
  });

  test('says why it has none', () => {
    const codes = (shape: Record<string, number>): string[] =>
      build({ sides: 7, side: 30, rise: 20, ...shape }).issues.map(({ code, path }) => `${code} ${path}`);
    expect(codes({})).toEqual(['top-unknown shape']);
    expect(codes({ pitch: 1, topSide: 12 })).toEqual(['top-twice shape']);
    expect(codes({ topSide: 29 })).toEqual(['top-too-wide shape.topSide']);
    expect(codes({ topAcrossFlats: 12 })).toEqual(['odd-across-flats shape.topAcrossFlats']);
    expect(codes({ pitch: 0.5 })).toEqual(['no-top shape.rise']);
  });
});

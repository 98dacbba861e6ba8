import { describe, expect, test } from 'vitest';
import { ringArea } from '../../src/core/geometry/polygon.ts';
import type { Vec2 } from '../../src/core/geometry/vector.ts';
import type { ShapeValues } from '../../src/core/project/project.ts';
import { findKind } from '../../src/core/roofs/catalogue.ts';
import { measureSolid } from '../../src/core/solid/measure.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { fromDegrees, MM_PER_INCH, toDegrees } from '../../src/core/units/units.ts';
import { bevelChart } from './bevel-chart.ts';
import { publishedRoofs } from './published-roofs.ts';
import { pitchTable, rafterTable } from './rafter-table.ts';

const solidOf = (kind: string, shape: ShapeValues): Solid => {
  const built = findKind(kind)?.build(shape, null);
  if (!built?.ok) throw new Error(`no ${kind}: ${JSON.stringify(built)}`);
  return built.value;
};

/** As many decimals as the print has. */
const digits = (printed: string): number => printed.split('.')[1]?.length ?? 0;
const hipOf = (solid: Solid): number => solid.edges.find((edge) => edge.role === 'hip')?.length ?? 0;
const dihedralsOf = (solid: Solid, role: string): number[] =>
  solid.edges.filter((edge) => edge.role === role).map((edge) => toDegrees(edge.dihedral ?? 0));

describe('polyhedra (angles as in the encyclopaedia tables of dihedral angles and of Johnson solid J1)', () => {
  test('a square pyramid with all edges equal: 109.4712° between sides, 54.7356° at the base', () => {
    const side = 60;
    const solid = solidOf('pyramid', { width: side, depth: side, rise: side / Math.SQRT2 });
    expect(hipOf(solid)).toBeCloseTo(side, 9);
    for (const angle of dihedralsOf(solid, 'hip')) expect(angle.toFixed(4)).toBe('109.4712');
    for (const { pitch } of measureSolid(solid).faces) expect(toDegrees(pitch).toFixed(4)).toBe('54.7356');
  });

  test('a regular tetrahedron as a spire of three sides: 70.5288°', () => {
    const side = 47;
    const solid = solidOf('spire', { sides: 3, side, rise: side * Math.sqrt(2 / 3) });
    expect(hipOf(solid)).toBeCloseTo(side, 9);
    for (const angle of dihedralsOf(solid, 'hip')) expect(angle.toFixed(4)).toBe('70.5288');
  });

  test('the cap of an icosahedron as a spire of five sides: 138.1897°', () => {
    const side = 35;
    const radius = side / (2 * Math.sin(Math.PI / 5));
    const solid = solidOf('spire', { sides: 5, side, rise: Math.sqrt(side ** 2 - radius ** 2) });
    for (const angle of dihedralsOf(solid, 'hip')) expect(angle.toFixed(4)).toBe('138.1897');
  });
});

describe('framing square', () => {
  // A square plan with one foot of run on each side.
  const roof = (rise: number): Solid =>
    solidOf('pyramid', { width: 24 * MM_PER_INCH, depth: 24 * MM_PER_INCH, pitch: Math.atan2(rise, 12) });

  test.each(rafterTable)('$rise in 12: common $common in, hip $hip in', ({ rise, common, hip }) => {
    const solid = roof(rise);
    for (const { slant } of measureSolid(solid).faces) expect((slant / MM_PER_INCH).toFixed(2)).toBe(common);
    expect((hipOf(solid) / MM_PER_INCH).toFixed(2)).toBe(hip);
  });

  test.each(pitchTable)('$rise in 12: $angle°', ({ rise, angle, slope, hip }) => {
    const solid = roof(rise);
    const [front] = measureSolid(solid).faces;
    expect(toDegrees(front?.pitch ?? 0).toFixed(digits(angle))).toBe(angle);
    if (slope) expect(((front?.slant ?? 0) / MM_PER_INCH / 12).toFixed(4)).toBe(slope);
    if (hip) expect((hipOf(solid) / MM_PER_INCH / 12).toFixed(4)).toBe(hip);
  });
});

describe('bevel chart', () => {
  test.each(bevelChart)('%i sides at %i°: mitre %s, bevel %s', (sides, slope, mitre, bevel) => {
    const solid = solidOf('spire', { sides, side: 50, pitch: fromDegrees(slope) });
    // To the last printed digit.
    const half = (printed: string): number => 0.51 * 10 ** -digits(printed);
    if (mitre) {
      for (const { angles } of measureSolid(solid).faces) {
        expect(Math.abs(toDegrees(angles[2] ?? 0) / 2 - Number(mitre))).toBeLessThanOrEqual(half(mitre));
      }
    }
    if (bevel) {
      for (const angle of dihedralsOf(solid, 'hip')) {
        expect(Math.abs((180 - angle) / 2 - Number(bevel))).toBeLessThanOrEqual(half(bevel));
      }
    }
  });
});

describe('published roofs', () => {
  test.each(publishedRoofs)('$name ($source)', ({ sides, side, given, printed }) => {
    const solid = solidOf('spire', { sides, side, ...given });
    const { faces, area, rise } = measureSolid(solid);
    const [front] = faces;
    const pitch = toDegrees(front?.pitch ?? 0);
    const base = solid.edges
      .filter((edge) => edge.role === 'eave')
      .map(({ ends: [a] }): Vec2 => [solid.vertices[a]?.[0] ?? 0, solid.vertices[a]?.[1] ?? 0]);
    const found = { slant: front?.slant, panelArea: front?.area, area, volume: (ringArea(base) * rise) / 3 };
    for (const [name, value] of Object.entries(found)) {
      const print = printed[name as keyof typeof found];
      if (print) expect(value?.toFixed(digits(print)), name).toBe(print);
    }
    if (printed.slope) {
      expect(pitch).toBeGreaterThanOrEqual(printed.slope[0]);
      expect(pitch).toBeLessThanOrEqual(printed.slope[1]);
    }
  });
});

describe('hip roofs', () => {
  const foot = 12 * MM_PER_INCH;

  // Half the span is one foot of run; the roof is three feet long.
  test.each(rafterTable)(
    '$rise in 12: the hips of a rectangle are $hip in for a foot of run',
    ({ rise, common, hip }) => {
      const solid = solidOf('hip', { width: 3 * foot, depth: 2 * foot, pitch: Math.atan2(rise, 12) });
      for (const { role, length } of solid.edges) {
        if (role === 'hip') expect((length / MM_PER_INCH).toFixed(2)).toBe(hip);
        // Miller, The Carpenters' Guide, fig. 23, and Griffith, Carpentry (1916), App. IV: length less width.
        if (role === 'ridge') expect(length / foot).toBeCloseTo(1, 9);
      }
      for (const { slant } of measureSolid(solid).faces) expect((slant / MM_PER_INCH).toFixed(2)).toBe(common);
    },
  );

  test('at one pitch the slopes cover the plan over the cosine of the pitch, hip or gable', () => {
    // The rule behind the slope factors of RoofOnline's table: roof area is plan area times the factor.
    const pitch = fromDegrees(37);
    for (const kind of ['hip', 'gable']) {
      const solid = solidOf(kind, { width: 137, depth: 81, pitch });
      const { faces } = measureSolid(solid);
      const area = solid.faces.reduce((sum, face, f) => sum + (face.part === 'slope' ? (faces[f]?.area ?? 0) : 0), 0);
      expect(area).toBeCloseTo((137 * 81) / Math.cos(pitch), 8);
    }
  });
});

test('a square frustum of slant 10 ft, 3 ft 4 in below and 2 ft 2 in above, has 110 sq ft of sides', () => {
  // 19th-century mensuration textbook, books.google ud82AAAAMAAJ, p. 168 ex. 2.
  const [below, above, slant] = [40, 26, 120];
  const run = (below - above) / 2;
  const solid = solidOf('frustum', {
    width: below,
    depth: below,
    pitch: Math.acos(run / slant),
    rise: Math.sqrt(slant ** 2 - run ** 2),
  });
  const { faces } = measureSolid(solid);
  const sides = solid.faces.reduce((sum, face, f) => sum + (face.id === 'top' ? 0 : (faces[f]?.area ?? 0)), 0);
  expect((sides / 144).toFixed(6)).toBe('110.000000');
});

/** Area of all panels but the flat top. */
const lateralArea = (solid: Solid): number => {
  const { faces } = measureSolid(solid);
  return solid.faces.reduce((sum, face, f) => sum + (face.id === 'top' ? 0 : (faces[f]?.area ?? 0)), 0);
};

test.each([
  {
    // 19th-century mensuration textbook, books.google ud82AAAAMAAJ, p. 168 ex. 3, feet.
    name: 'heptagonal, slant 55 ft, sides 8 and 4 ft: 2310 sq ft of sides',
    sizes: { sides: 7, side: 8, topSide: 4, slant: 55 },
    printed: '2310.0000',
    areaOf: lateralArea,
  },
  {
    // 18th or 19th-century mensuration textbook, books.google DPo2AAAAMAAJ, p. 185 ex. 3, inches: 137.0598 sq ft, cut off
    // after four decimals, with both ends.
    name: 'pentagonal, slant 140 in, sides 20 and 30 in: 137.0598 sq ft with both ends',
    sizes: { sides: 5, side: 30, topSide: 20, slant: 140 },
    printed: '137.0599',
    areaOf: (solid: Solid) => (measureSolid(solid).area + (5 * 30 ** 2) / (4 * Math.tan(Math.PI / 5))) / 144,
  },
])('a frustum $name', ({ sizes: { sides, side, topSide, slant }, printed, areaOf }) => {
  const run = (side - topSide) / (2 * Math.tan(Math.PI / sides));
  const solid = solidOf('regular-frustum', { sides, side, topSide, rise: Math.sqrt(slant ** 2 - run ** 2) });
  expect(areaOf(solid).toFixed(4)).toBe(printed);
});

test('one roof, two ways: a gable raised by the skeleton and a gambrel without a break in its pitch', () => {
  const pitch = fromDegrees(52);
  const gable = solidOf('gable', { width: 120, depth: 80, pitch });
  const gambrel = solidOf('gambrel', {
    width: 120,
    depth: 80,
    rise: 40 * Math.tan(pitch),
    breakRise: 20,
    lowerPitch: pitch,
  });
  expect(measureSolid(gambrel).area).toBeCloseTo(measureSolid(gable).area, 8);
});

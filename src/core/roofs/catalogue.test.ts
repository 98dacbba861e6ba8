import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../geometry/vector.ts';
import { produce } from '../pipeline.ts';
import type { Body, ShapeValues } from '../project/project.ts';
import { resolveProject } from '../project/read-project.ts';
import { frontMeasures, measureSolid } from '../solid/measure.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { findKind, kinds } from './catalogue.ts';
import { isTyped } from './definition.ts';
import { exampleValues } from './example-values.ts';

const solidOf = (kind: string, shape: ShapeValues, body: Body | null = null): Solid => {
  const built = findKind(kind)?.build(shape, body);
  if (!built?.ok) throw new Error(JSON.stringify(built));
  return built.value;
};
const codesOf = (kind: string, shape: ShapeValues, body: Body | null = null): string[] =>
  findKind(kind)
    ?.build(shape, body)
    .issues.map(({ code, path }) => `${code} ${path}`) ?? [];
const countRoles = ({ edges }: Solid): Record<string, number> => {
  const counts: Partial<Record<Edge['role'], number>> = {};
  for (const { role } of edges) counts[role] = (counts[role] ?? 0) + 1;
  return counts;
};
const box = (width: number, depth: number): Body => {
  const [x, y] = [width / 2, depth / 2];
  return {
    outline: [
      [-x, -y],
      [x, -y],
      [x, y],
      [-x, y],
    ],
    height: 40,
    rectangle: { width, depth },
  };
};

describe('the catalogue', () => {
  const examples = kinds.flatMap((kind) =>
    kind.examples.map((example) => [`${kind.id}: ${example.title}`, kind, example] as const),
  );

  test.each(examples)('%s can be typed into a project and is made', (_, kind, { shape }) => {
    const read = resolveProject({
      format: 'spirewright-project',
      version: 1,
      title: 'Example',
      units: 'mm',
      stock: [{ id: 'plain', name: 'Plain', width: 700, height: 700, direction: 'any' }],
      roofs: [{ id: 'one', title: 'One', kind: kind.id, shape, layers: [{ as: 'cover', stock: 'plain' }] }],
    });
    expect(read.issues).toEqual([]);
    if (read.ok) expect(produce(read.value.project).issues.filter((issue) => issue.level !== 'note')).toEqual([]);
  });

  test('has ids, keys and choices that are all different', () => {
    expect(new Set(kinds.map((kind) => kind.id)).size).toBe(kinds.length);
    for (const { params } of kinds) expect(new Set(params.map((param) => param.key)).size).toBe(params.length);
  });

  test.each(kinds.map((kind) => [kind.id, kind] as const))('takes what it allows of a %s as typed', (_, kind) => {
    for (const param of kind.params) {
      if (param.quantity !== 'length' && param.quantity !== 'pitch' && param.quantity !== 'count') continue;
      const shown = (value: number): number =>
        param.quantity === 'pitch' ? Number(((value * 180) / Math.PI).toFixed(9)) : value;
      for (const value of [param.min, param.max, ...(param.default === undefined ? [] : [param.default])]) {
        const read = resolveProject({
          format: 'spirewright-project',
          version: 1,
          title: 'Bounds',
          units: 'mm',
          stock: [{ id: 'plain', name: 'Plain', width: 700, height: 700, direction: 'any' }],
          roofs: [
            {
              id: 'one',
              title: 'One',
              kind: kind.id,
              shape: { [param.key]: shown(value) },
              layers: [{ as: 'cover', stock: 'plain' }],
            },
          ],
        });
        // Other things are missing, but what was typed is not at fault.
        expect(read.issues.filter(({ path }) => path.endsWith(`.${param.key}`))).toEqual([]);
      }
    }
  });

  test('says of what may be left out what then counts, and gives it neither default nor group', () => {
    for (const param of kinds.flatMap(({ params }) => params.filter(isTyped)).filter(({ optional }) => optional)) {
      expect(param.help).toMatch(/[;,] (as|like|from|follows|the same as) [^;,]+\.$/);
      expect([param.default, param.oneOf]).toEqual([undefined, undefined]);
    }
  });
});

describe('a pyramid', () => {
  test('has four eaves and four hips', () => {
    expect(countRoles(solidOf('pyramid', { width: 50, depth: 40, rise: 30 }))).toEqual({ eave: 4, hip: 4 });
  });

  test('takes pitch and slant of its front when the peak is off the middle', () => {
    // The peak 5 behind the middle of a depth of 40: the front run is 25.
    const offset = { width: 50, depth: 40, peakX: 0, peakY: 5 };
    const top = (shape: ShapeValues): number =>
      Math.max(...solidOf('pyramid', { ...offset, ...shape }).vertices.map((v) => v[2]));
    expect(top({ pitch: Math.atan(2) })).toBeCloseTo(50, 9);
    expect(top({ slant: 65 })).toBeCloseTo(60, 9);
  });

  test('says what would work for a slant too short or a peak outside', () => {
    expect(codesOf('pyramid', { width: 50, depth: 40, slant: 20 })).toEqual(['slant-too-short shape.slant']);
    expect(codesOf('pyramid', { width: 50, depth: 40, rise: 20, peakX: 25, peakY: -30 })).toEqual([
      'peak-outside shape.peakX',
      'peak-outside shape.peakY',
    ]);
  });
});

describe('a spire', () => {
  test('has the same size said three ways', () => {
    const apothem = 30;
    const side = 2 * apothem * Math.tan(Math.PI / 8);
    const eave = (shape: ShapeValues): number =>
      solidOf('spire', { sides: 8, rise: 60, ...shape }).edges[0]?.length ?? 0;
    expect(eave({ side })).toBeCloseTo(side, 9);
    expect(eave({ acrossFlats: 2 * apothem })).toBeCloseTo(side, 9);
    expect(eave({ acrossCorners: (2 * apothem) / Math.cos(Math.PI / 8) })).toBeCloseTo(side, 9);
  });

  test('has no size across flats with an odd number of sides', () => {
    expect(codesOf('spire', { sides: 7, acrossFlats: 40, rise: 50 })).toEqual(['odd-across-flats shape.acrossFlats']);
  });

  test.each([3, 4, 5, 8, 16, 17, 24])(
    'of %i sides has its first panel to the south and all names different',
    (sides) => {
      const { faces, vertices } = solidOf('spire', { sides, side: 20, rise: 50 });
      const corner = (i: number): Vec3 => vertices[faces[0]?.loop[i] ?? -1] ?? [0, 0, 0];
      const [a, b] = [corner(0), corner(1)];
      expect(a[1]).toBeCloseTo(b[1], 9);
      expect(a[1]).toBeLessThan(0);
      expect(new Set(faces.map((face) => face.title)).size).toBe(sides);
    },
  );
});

describe('a gable', () => {
  test('flush with its body has walls that share the verges', () => {
    expect(countRoles(solidOf('gable', { width: 90, depth: 60, rise: 40 }))).toEqual({
      eave: 2,
      foot: 2,
      ridge: 1,
      verge: 4,
    });
  });

  test('with a verge overhang has walls that meet the inside of the slopes', () => {
    const solid = solidOf('gable', { width: 90, depth: 60, rise: 40 }, box(80, 60));
    expect(countRoles(solid)).toEqual({ eave: 2, foot: 2, ridge: 1, verge: 4, abutment: 4 });
    for (const { role, dihedral } of solid.edges)
      if (role === 'abutment') expect(dihedral).toBeCloseTo(Math.PI / 2, 12);
  });

  test('with an eave overhang alone has verges in two parts, the upper one shared', () => {
    const solid = solidOf('gable', { width: 90, depth: 60, rise: 40 }, box(90, 48));
    const verges = solid.edges.filter((edge) => edge.role === 'verge');
    expect(verges.map((edge) => edge.faces.length).sort()).toEqual([1, 1, 1, 1, 2, 2, 2, 2]);
  });

  test('runs its ridge the way it is told', () => {
    const ridge = (way: string): readonly number[] => {
      const { edges, vertices } = solidOf('gable', { width: 90, depth: 60, rise: 40, ridge: way });
      const [a, b] = (edges.find((edge) => edge.role === 'ridge')?.ends ?? []).map((v) => vertices[v] ?? [0, 0, 0]);
      return [Math.abs((b?.[0] ?? 0) - (a?.[0] ?? 0)), Math.abs((b?.[1] ?? 0) - (a?.[1] ?? 0))];
    };
    expect(ridge('along-width')).toEqual([90, 0]);
    expect(ridge('along-depth')).toEqual([0, 60]);
  });

  test('has no end walls when they are left open', () => {
    expect(countRoles(solidOf('gable', { width: 90, depth: 60, rise: 40, ends: 'open' }))).toEqual({
      eave: 2,
      ridge: 1,
      verge: 4,
    });
  });
});

describe('the front panel', () => {
  test.each(kinds.map((kind) => [kind.id, kind] as const))('of a %s has a right triangle in it', (_, kind) => {
    for (const { shape } of kind.examples) {
      const solid = solidOf(kind.id, exampleValues(kind, shape));
      const { face, rise, run, slant, pitch } = frontMeasures(solid);
      expect(Math.hypot(rise, run)).toBeCloseTo(slant, 9);
      expect(Math.atan2(rise, run)).toBeCloseTo(pitch, 9);
      // Where pitch and slant stand for the rise they are those of the panel that reaches the top.
      const top = Math.max(...(solid.faces[face]?.loop ?? []).map((v) => solid.vertices[v]?.[2] ?? 0));
      if (kind.params.some((param) => param.key === 'slant')) expect(top).toBeCloseTo(measureSolid(solid).rise, 9);
    }
  });
});

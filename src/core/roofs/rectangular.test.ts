import { describe, expect, test } from 'vitest';
import { makeRoof } from '../make-roof.ts';
import type { Body, ShapeValues } from '../project/project.ts';
import { resolveProject } from '../project/read-project.ts';
import { checkSolid } from '../solid/check-solid.ts';
import { measureSolid } from '../solid/measure.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { fromDegrees, toDegrees } from '../units/units.ts';
import { findKind, kinds } from './catalogue.ts';

const build = (kind: string, shape: ShapeValues) => {
  const definition = findKind(kind);
  if (!definition) throw new Error(kind);
  const defaults = definition.params.flatMap(({ key, default: usual }) => (usual === undefined ? [] : [[key, usual]]));
  return definition.build({ ...Object.fromEntries(defaults), ...shape }, null);
};
const solidOf = (kind: string, shape: ShapeValues): Solid => {
  const built = build(kind, shape);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
};
const codesOf = (kind: string, shape: ShapeValues): readonly string[] =>
  build(kind, shape).issues.map(({ code, path }) => `${code} ${path}`);
const rolesOf = ({ edges }: Solid): Record<string, number> => {
  const counts: Partial<Record<Edge['role'], number>> = {};
  for (const { role } of edges) counts[role] = (counts[role] ?? 0) + 1;
  return counts;
};
const topOf = ({ vertices }: Solid): number => Math.max(...vertices.map((v) => v[2]));
const pitchOf = (solid: Solid, id: string): number =>
  toDegrees(measureSolid(solid).faces[solid.faces.findIndex((face) => face.id === id)]?.pitch ?? Number.NaN);
const areaOf = (solid: Solid, ids: (id: string) => boolean): number =>
  measureSolid(solid).faces.reduce((sum, { area }, f) => sum + (ids(solid.faces[f]?.id ?? '') ? area : 0), 0);

describe('a gablet', () => {
  test('is hipped below and has two upright gables above', () => {
    const solid = solidOf('gablet', { width: 120, depth: 80, rise: 40, hipRise: 24 });
    expect(rolesOf(solid)).toEqual({ eave: 4, hip: 4, ridge: 1, break: 2, verge: 4 });
    // At a pitch of 45 degrees the ends come in by 24 each.
    expect(solid.edges.find(({ role }) => role === 'ridge')?.length).toBeCloseTo(120 - 2 * 24, 9);
    expect(areaOf(solid, (id) => id.startsWith('east-band-2') || id.startsWith('west-band-2'))).toBeCloseTo(
      2 * 16 * 16,
      9,
    );
  });

  test('says when its end slopes meet', () => {
    expect(codesOf('gablet', { width: 40, depth: 80, rise: 40, hipRise: 24 })).toEqual(['ends-meet shape.hipRise']);
  });
});

describe('a saltbox', () => {
  test('has two pitches with the ridge off the middle', () => {
    const solid = solidOf('saltbox', { width: 90, depth: 70, rise: 30, ridgeOffset: 15 });
    expect(pitchOf(solid, 'south')).toBeCloseTo(toDegrees(Math.atan2(30, 50)), 9);
    expect(pitchOf(solid, 'north')).toBeCloseTo(toDegrees(Math.atan2(30, 20)), 9);
    expect(rolesOf(solid)).toEqual({ eave: 2, ridge: 1, verge: 4, foot: 2 });
  });

  test('with one pitch has its back eave where that pitch comes down to', () => {
    const solid = solidOf('saltbox', { width: 90, depth: 70, rise: 50, ridgeOffset: 15, backPitch: fromDegrees(45) });
    expect(pitchOf(solid, 'south')).toBeCloseTo(45, 9);
    const [a] = solid.edges.find(({ id }) => id.startsWith('eave-north'))?.ends ?? [];
    expect(solid.vertices[a ?? -1]?.[2]).toBeCloseTo(50 - 20, 9);
    expect(solid.faces.map((face) => face.id)).toContain('north-wall');
  });

  test('refuses what says one thing twice or cannot be', () => {
    const base = { width: 90, depth: 70, rise: 50, ridgeOffset: 15 };
    expect(codesOf('saltbox', { ...base, backPitch: 0.7, backLift: 20 })).toEqual(['back-given-twice shape.backPitch']);
    expect(codesOf('saltbox', { ...base, backPitch: 1.3 })).toEqual(['back-too-steep shape.backPitch']);
    expect(codesOf('saltbox', { ...base, backLift: 60 })).toEqual(['level-too-high shape.backLift']);
    expect(codesOf('saltbox', { ...base, ridgeOffset: -36 })).toEqual(['ridge-outside shape.ridgeOffset']);
  });
});

describe('a cross-gable', () => {
  test('over a whole square has eight triangles and four valleys', () => {
    const solid = solidOf('cross-gable', { width: 60, depth: 60, rise: 30, wingWidth: 60 });
    expect(rolesOf(solid)).toEqual({ valley: 4, ridge: 4, verge: 8, foot: 4 });
    // Each triangle: half a side long at the gable, as wide as its slope.
    expect(areaOf(solid, (id) => !id.endsWith('gable'))).toBeCloseTo((8 * (30 * Math.SQRT2 * 30)) / 2, 6);
  });

  test('with a lower and narrower wing keeps its main ridge whole', () => {
    const solid = solidOf('cross-gable', { width: 100, depth: 60, rise: 30, wingWidth: 40, wingRise: 20 });
    expect(rolesOf(solid)).toEqual({ eave: 4, valley: 4, ridge: 3, verge: 8, foot: 4 });
    const lengths = solid.edges.filter(({ role }) => role === 'ridge').map(({ length }) => Number(length.toFixed(9)));
    // The wing's ridge reaches the slope where that is 20 high: 20 in from the eave.
    expect(lengths.sort((a, b) => a - b)).toEqual([20, 20, 100]);
  });

  test('over a cross has eaves at the inner corners', () => {
    const solid = solidOf('cross-gable', { width: 100, depth: 90, rise: 25, wingWidth: 40, mainDepth: 50 });
    expect(rolesOf(solid)).toEqual({ eave: 8, valley: 4, ridge: 4, verge: 8, foot: 4 });
  });

  test('refuses wings larger than what they cross', () => {
    const base = { width: 60, depth: 50, rise: 30 };
    expect(codesOf('cross-gable', { ...base, wingWidth: 61 })).toEqual(['wing-too-wide shape.wingWidth']);
    expect(codesOf('cross-gable', { ...base, wingWidth: 40, wingRise: 31 })).toEqual(['wing-too-high shape.wingRise']);
    expect(codesOf('cross-gable', { ...base, wingWidth: 40, mainDepth: 51 })).toEqual([
      'main-too-deep shape.mainDepth',
    ]);
  });
});

describe('a butterfly', () => {
  test('falls to a valley, with a wall under each high side and two at each end', () => {
    const solid = solidOf('butterfly', { width: 90, depth: 60, rise: 12 });
    expect(rolesOf(solid)).toMatchObject({ valley: 1, foot: 6 });
    expect(areaOf(solid, (id) => /^(east|west)-wall/.test(id))).toBeCloseTo(2 * 30 * 12, 9);
  });
});

describe('a sawtooth', () => {
  test('has a slope and upright glazing for each tooth', () => {
    const solid = solidOf('sawtooth', { width: 80, depth: 90, rise: 14, teeth: 3 });
    expect(pitchOf(solid, 'slope-2')).toBeCloseTo(toDegrees(Math.atan2(14, 30)), 9);
    expect(areaOf(solid, (id) => id.startsWith('glazing'))).toBeCloseTo(3 * 14 * 80, 9);
  });

  test.each([
    ['pitch', fromDegrees(30)],
    ['slant', 29],
  ])('takes the %s of its slopes with glazing that leans', (key, value) => {
    const solid = solidOf('sawtooth', { width: 80, depth: 90, [key]: value, teeth: 3, glazingPitch: fromDegrees(70) });
    const { pitch, slant } = measureSolid(solid).faces[0] ?? { pitch: 0, slant: 0 };
    expect(key === 'pitch' ? pitch : slant).toBeCloseTo(Number(value), 9);
    expect(pitchOf(solid, 'glazing-3')).toBeCloseTo(70, 9);
  });

  test('has no end wall where the body’s wall stands right under its upright glazing', () => {
    // Teeth of 10 mm: the walls 20 mm off the middle stand under the foot of the glazing in front and of that at the back.
    const walls: Body['outline'] = [
      [-35, -20],
      [35, -20],
      [35, 20],
      [-35, 20],
    ];
    const shape = { width: 80, depth: 80, rise: 14, teeth: 8, ends: 'walls', glazingPitch: fromDegrees(90) };
    const built = findKind('sawtooth')?.build(shape, {
      outline: walls,
      height: 50,
      rectangle: { width: 70, depth: 40 },
    });
    if (!built?.ok) throw new Error('no roof');
    expect(checkSolid(built.value)).toEqual([]);
    expect(built.value.faces.filter(({ id }) => /^(south|north)-wall/.test(id))).toEqual([]);
    expect(built.value.faces.filter(({ id }) => /^(east|west)-wall/.test(id))).toHaveLength(8);
  });

  test('says when a tooth has no room for its slope', () => {
    const codes = codesOf('sawtooth', { width: 80, depth: 90, rise: 14, teeth: 6, glazingPitch: fromDegrees(40) });
    expect(codes).toEqual(['glazing-too-flat shape.glazingPitch']);
  });
});

describe('a flat roof', () => {
  test('has a parapet of three strips a side, or a fascia under its edge', () => {
    const parapet = solidOf('flat', { width: 80, depth: 60, borderHeight: 6, parapetWidth: 4 });
    expect(topOf(parapet)).toBe(6);
    expect(measureSolid(parapet).area).toBeCloseTo(80 * 60 + 2 * (80 + 60) * 6 + 2 * (72 + 52) * 6, 9);
    const fascia = solidOf('flat', { width: 80, depth: 60, border: 'fascia', borderHeight: 6 });
    expect([topOf(fascia), Math.min(...fascia.vertices.map((v) => v[2]))]).toEqual([0, -6]);
    expect(codesOf('flat', { width: 80, depth: 60, parapetWidth: 30 })).toEqual([
      'parapet-too-wide shape.parapetWidth',
    ]);
  });
});

describe('a flare', () => {
  test('of one step is a straight facet of its own pitch', () => {
    const solid = solidOf('bell-cast-hip', { width: 100, depth: 70, rise: 40, flareRise: 6, flarePitch: 0.4 });
    expect(pitchOf(solid, 'south')).toBeCloseTo(toDegrees(0.4), 9);
    expect(build('bell-cast-hip', { width: 100, depth: 70, rise: 40 }).issues).toEqual([]);
  });

  test.each(['bell-cast-hip', 'bell-cast-gable', 'bell-cast-pyramid'])('of a %s is a curve in more steps', (kind) => {
    const shape = { width: 70, depth: 70, rise: 50, flareRise: 20, flarePitch: fromDegrees(20) };
    const built = build(kind, { ...shape, flareSteps: 8 });
    const [note] = built.issues;
    const solid = solidOf(kind, { ...shape, flareSteps: 8 });
    expect(topOf(solid)).toBeCloseTo(50, 9);
    const pitches = Array.from({ length: 9 }, (_, i) => pitchOf(solid, i === 0 ? 'south' : `south-band-${i + 1}`));
    expect(pitches).toEqual([...pitches].sort((a, b) => a - b));
    // The curve: run as a parabola of the level, from the pitch of the eave to that of the last band.
    const [flat, steep] = [1 / Math.tan(fromDegrees(20)), 1 / Math.tan(fromDegrees(pitches[8] ?? 0))];
    const runAt = (z: number): number => flat * z + ((steep - flat) * z * z) / 40;
    let off = 0;
    for (let i = 0; i < 8; i++) {
      const [low, high] = [i * 2.5, (i + 1) * 2.5];
      const chord = (runAt(high) - runAt(low)) / 2.5;
      for (let z = low; z <= high; z += 0.01) {
        off = Math.max(off, Math.abs(runAt(low) + chord * (z - low) - runAt(z)) / Math.hypot(chord, 1));
      }
    }
    expect(note).toMatchObject({ level: 'note', code: 'curve-in-facets' });
    expect(note?.numbers?.['off']).toBeCloseTo(off, 4);
  });

  test('says when it is too wide', () => {
    const wide = { width: 70, depth: 40, rise: 50, flareRise: 20, flarePitch: fromDegrees(20) };
    expect(codesOf('bell-cast-hip', wide)).toEqual(['flare-too-wide shape.flareRise']);
  });
});

describe('ends of their own', () => {
  test('a side hip has one hip end and one gable', () => {
    const solid = solidOf('side-hip', { width: 90, depth: 60, rise: 30, endPitch: fromDegrees(60) });
    expect(rolesOf(solid)).toEqual({ eave: 3, hip: 2, ridge: 1, verge: 2, foot: 1 });
    expect(pitchOf(solid, 'east')).toBeCloseTo(60, 9);
    expect(codesOf('side-hip', { width: 30, depth: 60, rise: 30 })).toEqual(['roof-too-short shape']);
  });

  test('a half-hip may have one end hipped, at its own pitch', () => {
    const solid = solidOf('half-hip', {
      width: 90,
      depth: 60,
      rise: 30,
      gableRise: 12,
      hipped: 'one',
      endPitch: fromDegrees(65),
    });
    expect(solid.edges.find(({ role }) => role === 'ridge')?.length).toBeCloseTo(
      90 - 18 / Math.tan(fromDegrees(65)),
      9,
    );
    expect(pitchOf(solid, 'east-band-2')).toBeCloseTo(65, 9);
  });

  test.each(['north', 'east', 'south', 'west'])('a shed is high at its %s side where wanted', (high) => {
    const solid = solidOf('shed', { width: 90, depth: 60, rise: 15, high });
    const ridge = solid.vertices.filter((v) => v[2] > 1);
    const sum = [0, 1].map((axis) => ridge.reduce((total, v) => total + Math.sign(v[axis] ?? 0), 0));
    expect(sum).toEqual({ north: [0, 2], east: [2, 0], south: [0, -2], west: [-2, 0] }[high]);
  });

  test.each(['gambrel', 'mansard'])('a %s takes its upper pitch in place of the rise', (kind) => {
    const shape = { width: 90, depth: 60, breakRise: 20, lowerPitch: Math.atan(2), upperPitch: fromDegrees(30) };
    expect(topOf(solidOf(kind, shape))).toBeCloseTo(20 + 20 * Math.tan(fromDegrees(30)), 9);
  });
});

describe('over a body', () => {
  const rectangular = kinds.filter((kind) => kind.params.some(({ key }) => key === 'depth'));
  const cases = rectangular.flatMap((kind) => [0, 6].map((overhang) => [kind.id, overhang, kind] as const));

  test.each(cases)('a %s that stands out by %d fits', (kind, overhang, { params, examples }) => {
    for (const { shape } of examples.filter((example) => example.shape['width'] !== undefined)) {
      const own = Object.fromEntries(
        Object.entries(shape).filter(([key]) => !params.find((p) => p.key === key)?.outline),
      );
      const read = resolveProject({
        format: 'spirewright-project',
        version: 1,
        title: 'Example',
        units: 'mm',
        stock: [{ id: 'plain', width: 700, height: 700, direction: 'any' }],
        roofs: [
          {
            id: 'one',
            kind,
            shape: own,
            body: { width: Number(shape['width']), depth: Number(shape['depth']), height: 90 },
            overhang,
            layers: [{ as: 'cover', stock: 'plain' }],
          },
        ],
      });
      if (!read.ok) throw new Error(JSON.stringify(read.issues));
      const { project } = read.value;
      const roof = makeRoof(project.roofs[0] as (typeof project.roofs)[number], project, 0);
      // A cross on a rectangle leaves the corners of the body open.
      const isCross = own['mainDepth'] !== undefined;
      expect(roof.issues.filter(({ level }) => level === 'error').map(({ code }) => code)).toEqual(
        isCross ? ['roof-too-small'] : [],
      );
      // Against a wall the back is flush.
      const isAgainstWall = kind.startsWith('lean-to');
      if (!isCross) expect(roof.made?.fit.overhang?.min).toBeCloseTo(isAgainstWall ? 0 : overhang, 9);
      expect(roof.made?.fit.rest).toBeLessThanOrEqual(90 + 1e-9);
    }
  });
});

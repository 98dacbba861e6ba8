import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitRoof } from '../fit/fit.ts';
import { boxOf } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Body, ShapeValues } from '../project/project.ts';
import { checkSolid } from '../solid/check-solid.ts';
import { measureSolid } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { findKind } from './catalogue.ts';
import { halfRegular } from './half-regular.ts';
import { solidVolume } from './testing/solid-volume.ts';

const solidOf = (kind: string, shape: ShapeValues, body: Body | null = null): Solid => {
  const built = findKind(kind)?.build(shape, body);
  if (!built?.ok) throw new Error(JSON.stringify(built));
  return built.value;
};
const rolesOf = ({ edges }: Solid): string[] => [...new Set(edges.map(({ role }) => role))].sort();
const slopeArea = (solid: Solid): number => {
  const { faces } = measureSolid(solid);
  return solid.faces.reduce((sum, { part }, f) => sum + (part === 'slope' ? (faces[f]?.area ?? 0) : 0), 0);
};

const bodyOf = (outline: readonly Vec2[], rectangle: Body['rectangle'] = null): Body => {
  const { minX, maxX, minY, maxY } = boxOf(outline);
  const centred = outline.map(([x, y]): Vec2 => [x - (minX + maxX) / 2, y - (minY + maxY) / 2]);
  return { outline: centred, height: 50, rectangle };
};
/** Over a body with an overhang, as a project asks for it. */
const over = (kind: string, body: Body, eave: number, shape: ShapeValues): Solid => {
  const outline = findKind(kind)?.outlineFromBody(body, { eave, verge: eave }, shape);
  if (!outline?.ok) throw new Error(JSON.stringify(outline));
  return solidOf(kind, { ...shape, ...outline.value }, body);
};

describe('half of a roof', () => {
  const sizes = fc.record({
    half: fc.integer({ min: 2, max: 12 }),
    width: fc.double({ min: 10, max: 400, noNaN: true }),
    share: fc.double({ min: 0.1, max: 4, noNaN: true }),
    cut: fc.constantFrom('flats', 'corners'),
  });

  test('has half the slopes and half the volume of the whole spire', () => {
    fc.assert(
      fc.property(sizes, ({ half, width, share, cut }) => {
        const [sides, rise] = [2 * half, share * width];
        const whole = solidOf('spire', { sides, [cut === 'flats' ? 'acrossFlats' : 'acrossCorners']: width, rise });
        const shape = { sides, width, rise, cut };
        const open = solidOf('lean-to-half-spire', { ...shape, back: 'open' });
        expect(slopeArea(open) / slopeArea(whole)).toBeCloseTo(0.5, 9);
        const closed = solidOf('lean-to-half-spire', { ...shape, back: 'wall' });
        expect(solidVolume(closed) / solidVolume(whole)).toBeCloseTo(0.5, 9);
        expect(measureSolid(closed).area - slopeArea(closed)).toBeCloseTo((width * rise) / 2, 6);
      }),
    );
  });

  test.each([3, 4, 5, 6, 7])('is an apse of %i like sides where it is cut through corners', (sides) => {
    const solid = solidOf('apse', { sides, width: 60, pitch: 0.8, back: 'open' });
    expect(solid.faces).toHaveLength(sides);
    const { faces } = measureSolid(solid);
    for (const { pitch, area } of faces) {
      expect(Math.abs(pitch - 0.8)).toBeLessThan(1e-9);
      expect(area).toBeCloseTo(faces[0]?.area ?? 0, 9);
    }
    expect(new Set(solid.faces.map(({ id }) => id)).size).toBe(sides);
  });

  test('of a pyramid rises to its wall, the front as steep as asked', () => {
    const solid = solidOf('lean-to-half-pyramid', { width: 62, depth: 30, pitch: 0.7, peakX: 8 });
    const [west, south, east, back] = measureSolid(solid).faces;
    const rise = 30 * Math.tan(0.7);
    expect(south?.pitch).toBeCloseTo(0.7, 12);
    expect(west?.pitch).toBeCloseTo(Math.atan2(rise, 31 + 8), 12);
    expect(east?.pitch).toBeCloseTo(Math.atan2(rise, 31 - 8), 12);
    expect(back?.area).toBeCloseTo((62 * rise) / 2, 9);
    expect(rolesOf(solid)).toEqual(['eave', 'foot', 'hip', 'verge']);
  });

  test('open behind has verges along the wall and no panel there', () => {
    const solid = solidOf('apse', { sides: 5, width: 60, rise: 30, back: 'open' });
    expect(rolesOf(solid)).toEqual(['eave', 'hip', 'verge']);
    expect(solid.edges.filter(({ role }) => role === 'verge').every(({ faces }) => faces.length === 1)).toBe(true);
  });

  test('has no slant so near to the run that it says nothing about the rise', () => {
    // A pitch of one degree is the flattest that can be given.
    const build = (slant: number): readonly string[] =>
      findKind('lean-to-half-pyramid')
        ?.build({ width: 80, depth: 40, slant }, null)
        .issues.map(({ code }) => code) ?? [];
    const least = 40 / Math.cos(Math.PI / 180);
    expect(build(least - 1e-6)).toEqual(['slant-too-short']);
    expect(build(least + 1e-6)).toEqual([]);
  });

  test('has no halves of an odd number of sides', () => {
    const built = findKind('lean-to-half-spire')?.build({ sides: 7, width: 50, rise: 40 }, null);
    expect(built?.issues.map(({ code, path }) => `${code} ${path}`)).toEqual(['no-like-halves shape.sides']);
  });
});

describe('over a body against a wall', () => {
  const rectangle = bodyOf(
    [
      [-30, -14],
      [30, -14],
      [30, 14],
      [-30, 14],
    ],
    { width: 60, depth: 28 },
  );
  const octagon = bodyOf(halfRegular({ sides: 8, cut: 'flats', width: 48 }));
  const decagon = bodyOf(halfRegular({ sides: 10, cut: 'corners', width: 66 }));
  const cases = [
    ['lean-to-half-pyramid', rectangle, { rise: 30, peakX: 0 }],
    ['lean-to-half-spire', octagon, { sides: 8, cut: 'flats', rise: 50 }],
    ['apse', decagon, { sides: 5, rise: 30 }],
  ] as const;

  test.each(cases)('a %s stands out all round the front and is flush behind', (kind, body, shape) => {
    for (const back of ['wall', 'open']) {
      const solid = over(kind, body, 4, { ...shape, back });
      expect(checkSolid(solid)).toEqual([]);
      const { fit, issues } = fitRoof(solid, [], { body, ruler: '1mm', units: 'mm' });
      expect(issues).toEqual([]);
      expect(fit.overhang?.min).toBeCloseTo(0, 9);
      expect(Math.max(...solid.vertices.map(([, y]) => y))).toBeCloseTo(boxOf(body.outline).maxY, 9);
      expect(boxOf(solid.vertices.map(([x, y]): Vec2 => [x, y])).minY).toBeCloseTo(boxOf(body.outline).minY - 4, 9);
      expect(fit.rest).toBeLessThan(50);
    }
  });

  test.each(cases)('the back panel of a %s is as wide as the wall and stands on it', (kind, body, shape) => {
    const solid = over(kind, body, 4, { ...shape, back: 'wall' });
    const { fit } = fitRoof(solid, [], { body, ruler: '1mm', units: 'mm' });
    const panel = (solid.faces.find(({ id }) => id === 'back')?.loop ?? []).map((v) => solid.vertices[v] ?? [0, 0, 0]);
    const [left, right] = [Math.min(...panel.map(([x]) => x)), Math.max(...panel.map(([x]) => x))];
    const behind = boxOf(body.outline);
    expect([left, right]).toEqual([expect.closeTo(behind.minX, 6), expect.closeTo(behind.maxX, 6)]);
    expect(fit.rest + Math.min(...panel.map(([, , z]) => z))).toBeCloseTo(50, 9);
  });

  test('refuses a body that is not half of such a plan', () => {
    const issues = findKind('apse')?.outlineFromBody(rectangle, { eave: 3, verge: 3 }, { sides: 5 }).issues;
    expect(issues?.map(({ code }) => code)).toEqual(['body-not-half-regular']);
  });
});

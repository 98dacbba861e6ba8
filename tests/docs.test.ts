import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { kindsPages, solidOfShape } from '../scripts/docs/kinds-page.ts';
import { lineDrawing } from '../scripts/docs/line-drawing.ts';
import { nearest, roofShapesPage, shapes } from '../scripts/docs/roof-shapes-page.ts';
import type { Vec3 } from '../src/core/geometry/vector.ts';
import type { Body } from '../src/core/project/project.ts';
import { findKind, kinds } from '../src/core/roofs/catalogue.ts';
import { fileKeysOf } from '../src/core/roofs/definition.ts';
import { buildSolid, type FaceDraft } from '../src/core/solid/build-solid.ts';
import { checkSolid } from '../src/core/solid/check-solid.ts';

const docs = fileURLToPath(new URL('../docs/', import.meta.url));

test('the pages on kinds are those of the definitions (node scripts/run.mjs scripts/docs/write-docs.ts)', () => {
  const pages = kindsPages();
  const stale = [...pages].filter(
    ([path, text]) => !existsSync(docs + path) || readFileSync(docs + path, 'utf8') !== text,
  );
  expect(stale.map(([path]) => path)).toEqual([]);
  const drawings = readdirSync(`${docs}kinds`).map((name) => `kinds/${name}`);
  expect(drawings.filter((path) => !pages.has(path))).toEqual([]);
});

test('a drawing leaves out what lies behind a panel, and cuts lines where they come out from behind it', () => {
  const wall = (name: string, y: number, width: number, height: number): FaceDraft => {
    const points: Vec3[] = [
      [0, y, 0],
      [width, y, 0],
      [width, y, height],
      [0, y, height],
    ];
    return { id: name, title: name, part: 'wall', side: name, points };
  };
  const lines = (...walls: readonly FaceDraft[]): number =>
    [...lineDrawing(buildSolid(walls), 'Walls').matchAll(/M[^L]+L[^M"]+/g)].length;
  const front = wall('front', 0, 100, 100);
  expect(lines(front)).toBe(4);
  // The eye looks along (-1, 1, -1): the wall a little behind is covered from 10 to the left and 10 below.
  expect(lines(front, wall('behind', 10, 60, 60))).toBe(4);
  expect(lines(front, wall('beside', 10, 200, 60))).toBe(4 + 3);
  expect(lines(front, wall('above', 10, 60, 200))).toBe(4 + 3);
});

/**
 * OpenStreetMap wiki, Template:Roof:shape (22 values); Overture Maps schema v1.18, roof_shape; ISO 16739 (IFC4),
 * IfcRoofTypeEnum; CityGML 2.0 external code list of roof types (SIG3D); INSPIRE Buildings, RoofTypeValue.
 */
const vocabulary = {
  osm: 'flat skillion gabled gabled_height_moved saltbox hipped half-hipped side_hipped side_half-hipped hipped-and-gabled mansard gambrel bellcast_gable pyramidal crosspitched sawtooth butterfly cone dome onion round many',
  overture:
    'dome flat gabled gambrel half_hipped hipped mansard onion pyramidal round saltbox sawtooth skillion spherical',
  ifc: 'FLAT_ROOF SHED_ROOF GABLE_ROOF HIP_ROOF HIPPED_GABLE_ROOF GAMBREL_ROOF MANSARD_ROOF BARREL_ROOF RAINBOW_ROOF BUTTERFLY_ROOF PAVILION_ROOF DOME_ROOF FREEFORM',
  citygml: '1000 1010 1020 1030 1040 1050 1060 1070 1080 1090 1100 1110 1120 1130',
  inspire:
    'flatRoof monopitchRoof dualPentRoof gabledRoof hippedRoof halfHippedRoof mansardRoof pavilionRoof conicalRoof domedRoof sawToothRoof archRoof pyramidalBroachRoof hyperbolicParabaloidalRoof',
};

test('a drawing leaves out where a wall ends under a slope, but for a slope seen from below', () => {
  const [x, y] = [30, 30];
  const body: Body = {
    outline: [
      [-x, -y],
      [x, -y],
      [x, y],
      [-x, y],
    ],
    height: 40,
    rectangle: { width: 2 * x, depth: 2 * y },
  };
  const lines = (over: Body | null): number => {
    const built = findKind('gable')?.build({ width: 80, depth: 60, rise: 40 }, over);
    if (!built?.ok) throw new Error('no roof');
    return [...lineDrawing(built.value, 'Gable').matchAll(/M[^L]+L[^M"]+/g)].length;
  };
  // The front slope, the verge behind it, and the foot of the wall.
  expect(lines(null)).toBe(4 + 1 + 1);
  // Set back, the wall meets the slope behind where its underside is seen, and so is the end of the eave there.
  expect(lines(body)).toBe(4 + 1 + 1 + 2);
});

describe('names of roof shapes', () => {
  test('the page is that of the table (node scripts/run.mjs scripts/docs/write-docs.ts)', () => {
    expect(readFileSync(`${docs}roof-shapes.md`, 'utf8')).toBe(roofShapesPage());
  });

  test('every value of the vocabulary is in the table once', () => {
    expect(shapes.map(({ osm }) => osm).sort()).toEqual(vocabulary.osm.split(' ').sort());
  });

  test.each(['overture', 'ifc', 'citygml', 'inspire'] as const)(
    'every value of %s is on the page, and no other',
    (list) => {
      const known = vocabulary[list].split(' ');
      expect(shapes.flatMap((shape) => shape[list] ?? []).filter((value) => !known.includes(value))).toEqual([]);
      const page = roofShapesPage();
      expect(known.filter((value) => !new RegExp(`\\b${value}\\b`).test(page))).toEqual([]);
    },
  );

  test.each(shapes.map((shape) => [shape.osm, shape] as const))(
    '%s is made, with the parameters it names',
    (_, shape) => {
      const keys = findKind(shape.kind)?.params.flatMap(fileKeysOf);
      expect(shape.needs.filter((key) => !keys?.includes(key))).toEqual([]);
      // What decides the value is said in the example.
      expect(shape.needs.filter((key) => !(key in shape.shape))).toEqual([]);
      const solid = solidOfShape(shape.kind, shape.shape);
      expect(checkSolid(solid)).toEqual([]);
      for (const key of [...shape.says.matchAll(/`([a-z]+[A-Za-z]*)`/g)].map(([, word = '']) => word))
        expect([...(keys ?? []), ...kinds.map(({ id }) => id), 'spherical'], shape.says).toContain(key);
    },
  );

  test('every kind is what a value means, or is told apart from the nearest one', () => {
    const meant = new Set(shapes.map(({ kind }) => kind));
    expect(kinds.filter(({ id }) => meant.has(id) === id in nearest).map(({ id }) => id)).toEqual([]);
    expect(Object.keys(nearest).filter((id) => !findKind(id))).toEqual([]);
    const known = shapes.map(({ osm }) => osm);
    expect(Object.values(nearest).filter(({ osm }) => !known.includes(osm))).toEqual([]);
  });
});

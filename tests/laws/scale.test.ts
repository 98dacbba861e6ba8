import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../src/core/footprint/offset.ts';
import { at, distanceToSegment } from '../../src/core/geometry/polygon.ts';
import { distance2, type Vec2 } from '../../src/core/geometry/vector.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import type { Body, ShapeValue, ShapeValues, TierSpec } from '../../src/core/project/project.ts';
import { findKind } from '../../src/core/roofs/catalogue.ts';
import type { RoofDefinition } from '../../src/core/roofs/definition.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { NOISE_MM, SNAP_MM } from '../../src/core/tolerance.ts';
import { arbitraryRoof, type DrawnRoof, kinds, panelsOf } from './arbitrary-roof.ts';
import { runsOver } from './runs.ts';

const scaledRing = (ring: readonly Vec2[], by: number): Vec2[] => ring.map(([x, y]): Vec2 => [x * by, y * by]);

const scaledBody = (body: Body | null, by: number): Body | null =>
  body && {
    ...body,
    outline: scaledRing(body.outline, by),
    ...(body.courts ? { courts: body.courts.map((court) => scaledRing(court, by)) } : {}),
    height: body.height * by,
    rectangle: body.rectangle && { width: body.rectangle.width * by, depth: body.rectangle.depth * by },
  };

/**
 * Corners of an outline. Those that lie nearer to each other than parts are told apart count as one; one that stands out no
 * more than noise at a tenth of the size counts for none.
 */
function cornersOf(outline: readonly Vec2[], times: number): number {
  const ring = outline.filter((p, i) => distance2(p, at(outline, i + 1)) > SNAP_MM * times);
  const kept: Vec2[] = [];
  ring.forEach((p, i) => {
    const [before, after] = [kept.at(-1) ?? at(ring, -1), at(ring, i + 1)];
    if (distanceToSegment(p, before, after) > 10 * NOISE_MM * times) kept.push(p);
  });
  return kept.length;
}

function scaledShape(kind: RoofDefinition, shape: ShapeValues, by: number): ShapeValues {
  const quantities = new Map(kind.params.map(({ key, quantity }) => [key, quantity]));
  const scaled = (key: string, value: ShapeValue): ShapeValue => {
    const quantity = quantities.get(key);
    if (quantity === 'length') return Number(value) * by;
    if (quantity === 'wall') return scaledBody(value as Body, by) as Body;
    if (quantity !== 'roof') return value;
    const tier = value as TierSpec;
    const { overhang } = tier;
    return {
      ...tier,
      shape: scaledShape(findKind(tier.kind) as RoofDefinition, tier.shape, by),
      ...(overhang ? { overhang: { eave: overhang.eave * by, verge: overhang.verge * by } } : {}),
    };
  };
  const { corners, courts } = shape as Partial<Plan>;
  return {
    ...Object.fromEntries(Object.entries(shape).map(([key, value]) => [key, scaled(key, value)])),
    ...(corners ? { corners: scaledRing(corners, by) } : {}),
    ...(courts ? { courts: courts.map((court) => scaledRing(court, by)) } : {}),
  };
}

/** That a roof whose every length is so many times as long is the same roof. */
function expectAlike(kind: RoofDefinition, { shape, body, solid }: Omit<DrawnRoof, 'kind'>, by: number): void {
  const built = kind.build(scaledShape(kind, shape, by), scaledBody(body, by));
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  // A larger curve takes more samples, and more teeth.
  const isSmooth = solid.faces.some((face) => face.roll);
  const faces = (one: Solid): unknown => one.faces.map(({ id, loop }) => [id, isSmooth || loop]);
  expect(faces(built.value)).toEqual(faces(solid));
  expect(built.value.edges.map(({ id, role }) => [id, role])).toEqual(solid.edges.map(({ id, role }) => [id, role]));
  built.value.edges.forEach(({ length, dihedral }, e) => {
    expect(length / by / (solid.edges[e]?.length ?? 0)).toBeCloseTo(1, 9);
    if (dihedral !== null) expect(dihedral).toBeCloseTo(solid.edges[e]?.dihedral ?? 0, 9);
  });
  // Where many flaps lie side by side a hair decides which line parts two of them, and so how many corners they have.
  const isStacked = kind.params.some(({ quantity }) => quantity === 'roof');
  const isMany = solid.faces.length > 24;
  // Per panel: over a whole roof the search takes another way where two nets are as good to a hair.
  const netOf = (one: Solid, times: number): unknown =>
    buildNet(one, {
      pieces: 'per-panel',
      flaps: { width: 5 * times, on: 'alternate', clearance: 0.5 * times, least: 1 * times },
      search: { neck: 8 * times },
    }).net.pieces.map((piece) =>
      isSmooth || isStacked ? piece.id : [piece.id, isMany || cornersOf(piece.outline, times), piece.flaps.length],
    );
  expect(netOf(built.value, by)).toEqual(netOf(solid, 1));
}

/** No two corners lie so near to each other in plan that at a tenth of the size they would be one. */
const areToldApart = ({ vertices }: Solid): boolean =>
  vertices.every(([x, y], v) =>
    vertices.slice(v + 1).every((other) => {
      const apart = distance2([x, y], [other[0], other[1]]);
      return apart <= NOISE_MM || apart > 20 * SNAP_MM;
    }),
  );

describe.each(kinds.map((kind) => [kind.id, kind] as const))('every %s', (_, kind) => {
  const counts = { numRuns: runsOver(panelsOf(kind), 6) };

  test.each([0.1, 10])('times %d is the same roof: alike in corners, edges, roles, pieces and marks', (by) => {
    fc.assert(
      fc.property(arbitraryRoof(kind), (roof) => {
        fc.pre(areToldApart(roof.solid));
        expectAlike(kind, roof, by);
      }),
      counts,
    );
  });
});

// Their flaps are slivers, with ends as near to the seam as noise.
test.each([
  ['mansard', { width: 48.5, depth: 48.5, rise: 210.88858839, breakRise: 12.75, lowerPitch: 0.50623382 }],
  ['bell-cast-pyramid', { width: 73, depth: 72.9554, rise: 302, flareRise: 10, flarePitch: 0.28093649, flareSteps: 1 }],
  ['bell-cast-hip', { width: 73, depth: 72.9554, rise: 298.5, flareRise: 10, flarePitch: 0.28093649, flareSteps: 1 }],
])('a needle of a %s is the same at a tenth', (id, shape) => {
  const kind = findKind(id) as RoofDefinition;
  const built = kind.build(shape, null);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  expectAlike(kind, { shape, body: null, solid: built.value }, 0.1);
});

// Four sides of the plan come to a square of four equal sides at one level.
test('where much happens at one level panels come in the same order at every size', () => {
  const corners: readonly Vec2[] = [
    [-31.5, -42],
    [-10.5, -42],
    [-10.5, -21],
    [10.5, -21],
    [10.5, 0],
    [31.5, 0],
    [31.5, 21],
    [-10.5, 21],
    [-10.5, 42],
    [-31.5, 42],
  ];
  const kind = findKind('bell-cast-hip') as RoofDefinition;
  const shape = { rise: 10.526315789473685, flareRise: 10, flarePitch: 0.2602293725933301, flareSteps: 4, corners };
  const built = kind.build(shape, null);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  for (const by of [0.1, 10]) expectAlike(kind, { shape, body: null, solid: built.value }, by);
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../src/core/footprint/offset.ts';
import type { Vec2 } from '../../src/core/geometry/vector.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import type { Body, ShapeValue } from '../../src/core/project/project.ts';
import { arbitraryRoof, kinds, panelsOf } from './arbitrary-roof.ts';
import { runsOver } from './runs.ts';

const scaledRing = (ring: readonly Vec2[], by: number): Vec2[] => ring.map(([x, y]): Vec2 => [x * by, y * by]);

const scaledBody = (body: Body | null, by: number): Body | null =>
  body && {
    outline: scaledRing(body.outline, by),
    ...(body.courts ? { courts: body.courts.map((court) => scaledRing(court, by)) } : {}),
    height: body.height * by,
    rectangle: body.rectangle && { width: body.rectangle.width * by, depth: body.rectangle.depth * by },
  };

describe.each(kinds.map((kind) => [kind.id, kind] as const))('every %s', (_, kind) => {
  const counts = { numRuns: runsOver(panelsOf(kind), 200) };

  test.each([0.1, 10])('times %d is the same roof: alike in corners, edges, roles, pieces and marks', (by) => {
    fc.assert(
      fc.property(arbitraryRoof(kind), ({ shape, body, solid }) => {
        const lengths = new Set(kind.params.filter((param) => param.quantity === 'length').map((param) => param.key));
        const larger: Record<string, ShapeValue> = Object.fromEntries(
          Object.entries(shape).map(([key, value]) => [key, lengths.has(key) ? Number(value) * by : value]),
        );
        const { corners, courts } = shape as Partial<Plan>;
        if (corners) larger['corners'] = scaledRing(corners, by);
        if (courts) larger['courts'] = courts.map((court) => scaledRing(court, by));
        const built = kind.build(larger, scaledBody(body, by));
        if (!built.ok) throw new Error(JSON.stringify(built.issues));
        // A larger curve takes more samples, and more teeth.
        const isSmooth = solid.faces.some((face) => face.roll);
        const faces = (one: typeof solid): unknown => one.faces.map(({ id, loop }) => [id, isSmooth || loop]);
        expect(faces(built.value)).toEqual(faces(solid));
        expect(built.value.edges.map(({ id, role }) => [id, role])).toEqual(
          solid.edges.map(({ id, role }) => [id, role]),
        );
        built.value.edges.forEach(({ length, dihedral }, e) => {
          expect(length / by / (solid.edges[e]?.length ?? 0)).toBeCloseTo(1, 9);
          if (dihedral !== null) expect(dihedral).toBeCloseTo(solid.edges[e]?.dihedral ?? 0, 9);
        });
        const netOf = (one: typeof solid, times: number): unknown =>
          buildNet(one, {
            pieces: 'one-piece',
            flaps: { width: 5 * times, on: 'alternate', clearance: 0.5 * times, least: 1 * times },
          }).net.pieces.map((piece) => (isSmooth ? piece.id : [piece.id, piece.outline.length, piece.flaps.length]));
        expect(netOf(built.value, by)).toEqual(netOf(solid, 1));
      }),
      counts,
    );
  });
});

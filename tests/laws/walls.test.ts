import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dot3, sub3, type Vec3 } from '../../src/core/geometry/vector.ts';
import { insideOf, layerSolids, wallSeat } from '../../src/core/layers/layer-solids.ts';
import { layerOffsets, type StackedLayer } from '../../src/core/layers/stack.ts';
import { buildBoard } from '../../src/core/net/build-board.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import { checkNet } from '../../src/core/net/check-net.ts';
import { hasTiers } from '../../src/core/roofs/definition.ts';
import { checkSolid, distanceToFace } from '../../src/core/solid/check-solid.ts';
import { faceFrame } from '../../src/core/solid/face-frame.ts';
import { isFootOnFace } from '../../src/core/solid/measure.ts';
import { edgePath, type Solid } from '../../src/core/solid/solid.ts';
import { arbitraryRoof, kinds } from './arbitrary-roof.ts';
import { board, cover, shell } from './arbitrary-stack.ts';
import { runs } from './runs.ts';

const stack: fc.Arbitrary<readonly StackedLayer[]> = fc.oneof(
  fc.tuple(board, cover),
  fc.tuple(shell, cover),
  fc.tuple(shell),
  fc.tuple(cover),
);

/** Panels up to which nets are proved too. */
const SMALL = 24;

const hasWalls = ({ faces }: Solid): boolean => faces.some(({ part }) => part === 'wall');
const walled = kinds.filter((kind) =>
  fc.sample(arbitraryRoof(kind), { numRuns: 4, seed: 1 }).some(({ solid }) => hasWalls(solid)),
);

describe.each(walled.map((kind) => [kind.id, kind] as const))('every %s with walls', (_, kind) => {
  test('in layers: walls end at the underside of the roof, stand on the outside of their layer, begin where the roof rests', () => {
    fc.assert(
      fc.property(
        arbitraryRoof(kind).filter(({ solid }) => hasWalls(solid)),
        stack,
        ({ solid, body }, layers) => {
          const inside = insideOf(solid, layers);
          if (!inside.ok) return;
          const seat = wallSeat(solid, inside.value, body);
          const under = layers[0]?.as === 'cover' ? 0 : (layers[0]?.thickness ?? 0);
          layerSolids(solid, layers, seat).forEach((made, l) => {
            if (!made.ok) {
              expect(made.issues[0]?.code).toBe('layer-too-thick');
              return;
            }
            const { as, thickness } = layers[l] as StackedLayer;
            const outside = (layerOffsets(layers)[l] ?? 0) + (as === 'board' ? 0 : thickness / 2);
            expect(checkSolid(made.value, { isLayer: true })).toEqual([]);
            made.value.edges.forEach((edge, e) => {
              if (edge.role !== 'abutment') return;
              const host = edge.faces[1] as number;
              const far = isFootOnFace(made.value, e) ? outside : -under;
              for (const v of edgePath(edge)) {
                const p = made.value.vertices[v] as Vec3;
                if (solid.faces[host]?.roll)
                  expect(Math.abs(distanceToFace(solid, host, p) - Math.abs(far))).toBeLessThan(1e-5);
                else {
                  const { normal, origin } = faceFrame(solid, host);
                  expect(Math.abs(dot3(normal, sub3(p, origin)) - far)).toBeLessThan(1e-5);
                }
              }
            });
            const begins = ({ edges, vertices }: Solid): ReadonlyMap<string, number> =>
              new Map(
                edges.flatMap(({ id, role, ends }) => (role === 'foot' ? [[id, vertices[ends[0]]?.[2] ?? 0]] : [])),
              );
            const eaves = solid.edges.flatMap(({ role, ends }) =>
              role === 'eave' ? [solid.vertices[ends[0]]?.[2]] : [],
            );
            for (const [id, level] of begins(made.value)) {
              const before = begins(solid).get(id);
              if (before === undefined) {
                // A wall let down below the eave beside it keeps a ledge under that eave.
                expect(eaves.some((own = Number.NaN) => Math.abs(own - level) < 1e-6)).toBe(true);
                continue;
              }
              const isSeated = seat !== null && Math.abs(before - seat.level) < 1e-6;
              expect(Math.abs(before - (isSeated ? seat.drop : 0) - level)).toBeLessThan(1e-6);
            }
            // Larger ones are unfolded by the law of stacks.
            if (solid.faces.length > SMALL || solid.faces.some(({ roll }) => roll)) return;
            const flaps = { width: 6, on: 'alternate', clearance: 0.5, least: 1 } as const;
            if (as === 'board') {
              const built = buildBoard(made.value, { thickness, edges: 'square' });
              if (built.ok) expect(checkNet(made.value, built.value, flaps)).toEqual([]);
            } else
              expect(checkNet(made.value, buildNet(made.value, { pieces: 'per-panel', flaps }).net, flaps)).toEqual([]);
          });
        },
      ),
      { numRuns: runs(hasTiers(kind) ? 2 : 6) },
    );
  });
});

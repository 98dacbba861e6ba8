import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { overhangs } from '../../src/core/fit/overhang.ts';
import { restHeight } from '../../src/core/fit/rest.ts';
import { placePoint, poseNet } from '../../src/core/fold/pose.ts';
import { ringArea } from '../../src/core/geometry/polygon.ts';
import { distance3, type Vec2, type Vec3 } from '../../src/core/geometry/vector.ts';
import { arrangeOnTable } from '../../src/core/net/arrange.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import { checkNet } from '../../src/core/net/check-net.ts';
import type { FlapSides, PiecesMode } from '../../src/core/project/project.ts';
import { addFascia } from '../../src/core/roofs/construct/fascia.ts';
import { checkSolid } from '../../src/core/solid/check-solid.ts';
import { measureSolid } from '../../src/core/solid/measure.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { arbitraryRoof, kinds, panelsOf } from './arbitrary-roof.ts';
import { runsOver } from './runs.ts';

const drops = fc.double({ min: 1, max: 60, noNaN: true });
const options = fc.record({
  pieces: fc.constantFrom<PiecesMode>('per-panel', 'one-piece'),
  flaps: fc.record({
    width: fc.double({ min: 2, max: 25, noNaN: true }),
    on: fc.constantFrom<FlapSides>('alternate', 'one-side', 'none'),
    clearance: fc.constantFrom(0, 0.5, 1),
    least: fc.constant(2),
  }),
});

describe.each(kinds.map((kind) => [kind.id, kind] as const))('a fascia on every %s', (_, kind) => {
  const counts = { numRuns: runsOver(panelsOf(kind), 6) };

  test('hangs a strip from each free eave and leaves the roof as it was', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), drops, ({ solid, body }, drop) => {
        const hung = addFascia(solid, drop);
        expect(checkSolid(hung)).toEqual([]);
        expect(hung.faces.slice(0, solid.faces.length)).toEqual(solid.faces);
        const strips = hung.faces.slice(solid.faces.length);
        const free = solid.edges.filter(({ role, faces }) => role === 'eave' && faces.length === 1);
        expect(strips.length).toBeGreaterThanOrEqual(free.length);
        const feet = hung.edges.slice(solid.edges.length).filter(({ role }) => role === 'foot');
        const added = measureSolid(hung).area - measureSolid(solid).area;
        const eaves = feet.reduce((sum, { length }) => sum + length, 0);
        expect(Math.abs(added - drop * eaves)).toBeLessThan(1e-9 * measureSolid(hung).area);
        if (!body) return;
        expect(restHeight(hung, body)).toBeCloseTo(restHeight(solid, body), 9);
        const least = (roof: Solid): number => Math.min(...overhangs(roof, body).flatMap((wall) => wall.distances));
        expect(least(hung)).toBeCloseTo(least(solid), 9);
      }),
      counts,
    );
  });

  test('has a true net that folds up', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), drops, options, ({ solid: bare, body }, drop, choice) => {
        const solid = addFascia(bare, drop);
        const { net } = buildNet(solid, choice);
        expect(checkNet(solid, net, choice.flaps)).toEqual([]);
        const area = net.pieces.flatMap(({ panels }) => panels).reduce((sum, p) => sum + ringArea(p.polygon), 0);
        expect(Math.abs(area / measureSolid(solid).area - 1)).toBeLessThan(1e-12);
        const rest = drop + 10;
        const pose = poseNet(solid, net, 1, { rest, spots: arrangeOnTable([{ solid, net }], body)[0] ?? [] });
        net.pieces.forEach(({ panels }, p) => {
          panels.forEach(({ face, polygon }, i) => {
            solid.faces[face]?.loop.forEach((v, k) => {
              const [a, b, c] = solid.vertices[v] as Vec3;
              const there = placePoint(pose.pieces[p]?.panels[i] as never, polygon[k] as Vec2);
              expect(distance3(there, [a, b, c + rest])).toBeLessThan(1e-6);
            });
          });
        });
      }),
      counts,
    );
  });
});

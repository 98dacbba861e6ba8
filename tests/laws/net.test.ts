import { Clipper, FillRule, type Path64 } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { everyPoint, type PiecePose, placePoint, poseNet } from '../../src/core/fold/pose.ts';
import { convexOverlap, ringArea, ringLength } from '../../src/core/geometry/polygon.ts';
import { distance2, distance3, type Vec2, type Vec3 } from '../../src/core/geometry/vector.ts';
import { arrangeOnTable } from '../../src/core/net/arrange.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import { checkNet } from '../../src/core/net/check-net.ts';
import { fitsOn } from '../../src/core/net/plan-cuts.ts';
import type { FlapSides, PiecesMode, SeamInstead } from '../../src/core/project/project.ts';
import { checkSolid, distanceToFace } from '../../src/core/solid/check-solid.ts';
import { measureSolid } from '../../src/core/solid/measure.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { arbitraryRoof, kinds, panelsOf } from './arbitrary-roof.ts';
import { arbitraryPicks, arbitrarySheets, choicesOf } from './arbitrary-seams.ts';
import { runsOver } from './runs.ts';

const options = fc.record({
  hem: fc.option(fc.double({ min: 1, max: 12, noNaN: true }), { nil: undefined }),
  pieces: fc.constantFrom<PiecesMode>('per-panel', 'one-piece', 'fewest'),
  sheets: arbitrarySheets,
  picks: arbitraryPicks,
  flaps: fc.record({
    width: fc.double({ min: 2, max: 25, noNaN: true }),
    on: fc.constantFrom<FlapSides>('alternate', 'one-side', 'none'),
    clearance: fc.constantFrom(0, 0.5, 1),
    least: fc.constant(2),
    instead: fc.constantFrom<SeamInstead>('tape', 'strip'),
  }),
});

describe.each(kinds.map((kind) => [kind.id, kind] as const))('every %s', (_, kind) => {
  const cases = fc
    .tuple(arbitraryRoof(kind), options)
    .map(([roof, { picks, ...rest }]) => [roof, { ...rest, seams: choicesOf(roof.solid, picks) }] as const);
  const panels = panelsOf(kind);
  const counts = { numRuns: runsOver(panels, 8) };

  test('is a sound solid', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), ({ solid }) => {
        expect(checkSolid(solid)).toEqual([]);
      }),
      counts,
    );
  });

  test('has a net that passes its check: true panels, one flap or strip a seam, inside its mate, nothing overlapping', () => {
    fc.assert(
      fc.property(cases, ([{ solid }, choice]) => {
        const { net } = buildNet(solid, choice);
        expect(checkNet(solid, net, choice.flaps)).toEqual([]);
      }),
      counts,
    );
  });

  test('keeps to what is chosen by hand, or says why not; every piece fits a sheet where few are asked for, or says so', () => {
    fc.assert(
      fc.property(cases, ([{ solid }, choice]) => {
        const { net, issues } = buildNet(solid, choice);
        const refused = issues.filter(({ level }) => level === 'error');
        for (const { path, message } of refused) {
          expect(path).toMatch(/^seams\./);
          expect(message.length).toBeGreaterThan(20);
        }
        const refusedIds = new Set(refused.map(({ path }) => path.split('.')[1]));
        for (const [id, { join, on }] of Object.entries(choice.seams)) {
          if (refusedIds.has(id)) continue;
          const edge = solid.edges.findIndex((one) => one.id === id);
          const seam = net.seams.find((one) => one.edge === edge);
          expect(seam === undefined).toBe(join === 'fold');
          const flaps = net.pieces.flatMap((piece) => piece.flaps).filter((flap) => flap.edge === edge);
          if (seam?.join === 'flap' && on !== undefined)
            expect(new Set(flaps.map(({ from }) => solid.faces[from]?.id))).toEqual(new Set([on]));
          if (join === 'tape') expect(seam?.join).toBe('tape');
          if (seam && seam.join !== join)
            expect(issues.some(({ code, place }) => code !== 'closing-seam' && place?.edges?.includes(id))).toBe(true);
        }
        if (choice.pieces !== 'fewest') return;
        const told = issues.filter(({ code }) => code === 'piece-over-sheet').length;
        const over = net.pieces.filter(({ width, height }) => !fitsOn(choice.sheets, width, height));
        expect(told).toBe(over.length);
        if (Object.keys(choice.seams).length === 0 && choice.hem === undefined)
          for (const piece of over.filter(({ flaps }) => flaps.length === 0)) expect(piece.panels).toHaveLength(1);
      }),
      counts,
    );
  });

  test('keeps area and edge lengths from solid to net', () => {
    fc.assert(
      fc.property(cases, ([{ solid }, choice]) => {
        const { net } = buildNet(solid, choice);
        const panels = net.pieces.flatMap((piece) => piece.panels);
        const area = panels.reduce((sum, panel) => sum + ringArea(panel.polygon), 0);
        expect(Math.abs(area / measureSolid(solid).area - 1)).toBeLessThan(1e-12);
        for (const { edge, sides } of net.seams) {
          const { length, via } = solid.edges[edge] as Solid['edges'][number];
          // Along a curve both panels have the same length of paper; straight across they differ.
          if (via) continue;
          for (const { ends } of sides) expect(Math.abs(distance2(...ends) - length)).toBeLessThan(1e-9);
        }
      }),
      counts,
    );
  });

  test('folds up: at the end every panel lies on its face and every flap under its mate', () => {
    fc.assert(
      fc.property(cases, ([{ solid, body }, choice]) => {
        const { net } = buildNet(solid, choice);
        const rest = 37;
        const pose = poseNet(solid, net, 1, { rest, spots: arrangeOnTable([{ solid, net }], body)[0] ?? [] });
        net.pieces.forEach((piece, p) => {
          piece.panels.forEach(({ face, polygon }, i) => {
            solid.faces[face]?.loop.forEach((v, k) => {
              const there = placePoint(pose.pieces[p]?.panels[i] as never, polygon[k] as Vec2);
              const [a, b, c] = solid.vertices[v] as Vec3;
              expect(distance3(there, [a, b, c + rest])).toBeLessThan(1e-6);
            });
          });
          piece.flaps.forEach(({ edge, to, polygon, angle }, i) => {
            // Under a rolled panel of another surface a flap is stiff and touches along its seam only.
            if (solid.faces[to]?.roll && (angle > 0 || piece.strip)) return;
            const there = polygon.map((point): Vec3 => {
              const [x, y, z] = placePoint(pose.pieces[p]?.flaps[i] as never, point);
              return [x, y, z - rest];
            });
            const off = Math.max(...there.map((point) => distanceToFace(solid, to, point)));
            // The base of a tooth follows its curve, which it is bent across.
            expect(off).toBeLessThan(solid.edges[edge]?.via ? 0.25 : 1e-6);
          });
          piece.hems.forEach(({ edge, polygon, base }, i) => {
            const { via, ends } = solid.edges[edge] as Solid['edges'][number];
            const level = (solid.vertices[ends[0]]?.[2] ?? 0) + rest;
            for (const point of polygon.slice(base)) {
              const there = placePoint(pose.pieces[p]?.hems[i] as never, point);
              expect(Math.abs(there[2] - level)).toBeLessThan(via ? 0.25 : 1e-6);
            }
          });
        });
      }),
      counts,
    );
  });

  test('stays rigid and above the table at every moment', () => {
    fc.assert(
      fc.property(cases, fc.double({ min: 0, max: 1, noNaN: true }), ([{ solid, body }, choice], t) => {
        const { net } = buildNet(solid, choice);
        // What hangs below the eave plane hangs clear of the table.
        const rest = 20 - Math.min(...solid.vertices.map((v) => v[2]));
        const pose = poseNet(solid, net, t, { rest, spots: arrangeOnTable([{ solid, net }], body)[0] ?? [] });
        net.pieces.forEach((piece, p) => {
          const moved = everyPoint(piece, pose.pieces[p] as never);
          expect(Math.min(...moved.map((point) => point[2]))).toBeGreaterThan(-1e-6);
          const parts = [...piece.panels, ...piece.flaps, ...piece.hems];
          const posed = pose.pieces[p] as PiecePose;
          const poses = [...posed.panels, ...posed.flaps, ...posed.hems];
          let k = 0;
          for (const [i, { polygon }] of parts.entries()) {
            const here = moved.slice(k, k + polygon.length);
            k += polygon.length;
            if (poses[i]?.bend) continue;
            const off = Math.abs(
              distance3(here[0] as Vec3, here[2] as Vec3) - distance2(polygon[0] as Vec2, polygon[2] as Vec2),
            );
            expect(off).toBeLessThan(1e-6);
          }
          // What is rolled keeps its rulings straight, and no stretch of paper becomes longer than it is.
          piece.panels.forEach(({ face, polygon }, i) => {
            const here = polygon.map((point) => placePoint(poses[i] as never, point));
            for (const [a, b] of solid.faces[face]?.roll?.rulings ?? []) {
              const long = distance2(polygon[a] as Vec2, polygon[b] as Vec2);
              expect(Math.abs(distance3(here[a] as Vec3, here[b] as Vec3) - long)).toBeLessThan(1e-6);
            }
            polygon.forEach((point, j) => {
              const k = (j + 1) % polygon.length;
              const chord = distance3(here[j] as Vec3, here[k] as Vec3);
              expect(chord).toBeLessThan(distance2(point, polygon[k] as Vec2) + 1e-6);
            });
          });
        });
      }),
      counts,
    );
  });

  test('overlaps nowhere by the account of a polygon library', () => {
    fc.assert(
      fc.property(cases, ([{ solid }, choice]) => {
        for (const piece of buildNet(solid, choice).net.pieces) {
          const rings = [...piece.panels, ...piece.flaps, ...piece.hems].map((part) => part.polygon);
          const parts = rings.map(path);
          parts.forEach((a, i) => {
            const rest = parts.slice(0, i);
            const shared = Clipper.intersect([a], rest, FillRule.NonZero);
            // The library works on a grid of a ten-thousandth of a millimetre; two sides rounded by up to 0.71 steps each
            // share a sliver as long as the edge.
            const area = shared.reduce((sum, part) => sum + Math.abs(Clipper.area(part)), 0) / GRID ** 2;
            expect(area).toBeLessThanOrEqual((1.42 / GRID) * ringLength(rings[i] as Vec2[]));
          });
        }
      }),
      { numRuns: runsOver(panels, 6) },
    );
  });
});

describe('a flap mode', () => {
  const withRing = fc.integer({ min: 3, max: 24 });
  const flapCounts = (on: FlapSides, sides: number): number[] => {
    const built = kinds.find((kind) => kind.id === 'spire')?.build({ sides, acrossCorners: 120, rise: 90 }, null);
    if (!built?.ok) throw new Error('no spire');
    const { net } = buildNet(built.value, { pieces: 'per-panel', flaps: { width: 4, on, clearance: 0.5, least: 1 } });
    return net.pieces.map((piece) => piece.flaps.length).sort();
  };
  const times = (value: number, count: number): number[] => Array.from({ length: count }, () => value);

  test('alternate: on an even ring half the panels carry two flaps and half none; an odd one has one panel with one', () => {
    fc.assert(
      fc.property(withRing, (n) => {
        const half = Math.floor(n / 2);
        expect(flapCounts('alternate', n)).toEqual([...times(0, half), ...times(1, n % 2), ...times(2, half)]);
      }),
    );
  });

  test('one-side: each panel carries one', () => {
    fc.assert(
      fc.property(withRing, (n) => {
        expect(flapCounts('one-side', n)).toEqual(times(1, n));
      }),
    );
  });

  test('none: nobody carries any', () => {
    fc.assert(
      fc.property(withRing, (n) => {
        expect(flapCounts('none', n)).toEqual(times(0, n));
      }),
    );
  });
});

test('the overlap of two squares is what it is', () => {
  const square = (x: number, y: number): Vec2[] => [
    [x, y],
    [x + 3, y],
    [x + 3, y + 3],
    [x, y + 3],
  ];
  expect(convexOverlap(square(0, 0), square(1, 2))).toBeCloseTo(2, 12);
  expect(convexOverlap(square(0, 0), square(3, 0))).toBe(0);
});

const GRID = 1e4;
const path = (ring: readonly Vec2[]): Path64 =>
  ring.map(([x, y]) => ({ x: Math.round(x * GRID), y: Math.round(y * GRID) })) as Path64;

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { standOut } from '../../src/core/footprint/offset.ts';
import { move3 } from '../../src/core/geometry/motion.ts';
import { distance3, dot3, sub3, type Vec2, type Vec3 } from '../../src/core/geometry/vector.ts';
import { velocityOf } from '../../src/core/layers/moving-plane.ts';
import { holdsStill, meshOf, planesOf } from '../../src/core/layers/offset-mesh.ts';
import { offsetSolid } from '../../src/core/layers/offset-solid.ts';
import { hipAndValley } from '../../src/core/roofs/hip-and-valley.ts';
import { pyramid } from '../../src/core/roofs/pyramid.ts';
import { checkSolid } from '../../src/core/solid/check-solid.ts';
import { faceFrame, frameMotion, normalAt, pointInFace } from '../../src/core/solid/face-frame.ts';
import { bendPoint } from '../../src/core/solid/roll.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { arbitraryPlan } from './arbitrary-plan.ts';
import { arbitraryRoof, kinds, panelsOf } from './arbitrary-roof.ts';
import { runs, runsOver } from './runs.ts';

/** mm outwards or inwards: from half a sheet of paper to thick board. */
const thickness = fc
  .tuple(fc.double({ min: 0.05, max: 2, noNaN: true }), fc.constantFrom(1, -1))
  .map(([d, way]) => d * way);

describe.each(kinds.map((kind) => [kind.id, kind] as const))('every %s', (_, kind) => {
  const counts = { numRuns: runsOver(panelsOf(kind), 10) };

  test('offset: a sound solid whose every face lies exactly so far out, or an issue that says how far it can go', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), thickness, ({ solid }, by) => {
        const moved = offsetSolid(solid, by);
        if (!moved.ok) {
          const [issue] = moved.issues;
          expect(issue?.code).toBe('layer-too-thick');
          const most = issue?.numbers?.['most'] ?? Number.NaN;
          expect(most).toBeLessThanOrEqual(Math.abs(by));
          if (most > 1e-3) expect(offsetSolid(solid, Math.sign(by) * most * 0.999).ok).toBe(true);
          return;
        }
        expect(checkSolid(moved.value, { isLayer: true })).toEqual([]);
        expectMoved(solid, moved.value, by);
      }),
      counts,
    );
  });
});

/** Whether a corner comes apart by less than 1e-6 mm, and so stays one corner. */
const partsHardly = (solid: Solid, by: number): boolean =>
  [...meshOf(solid).corners.values()].some(({ ring }) => {
    const planes = planesOf(ring);
    if (!planes) return false;
    const { velocity, isTogether } = velocityOf(planes);
    const apart = Math.max(...planes.map(({ normal, speed }) => Math.abs(dot3(normal, velocity) - speed)));
    return !isTogether && apart * Math.abs(by) < 1e-6;
  });

function expectMoved(solid: Solid, moved: Solid, by: number): void {
  const names = (one: Solid): unknown => one.faces.map(({ id, title, side, part }) => ({ id, title, side, part }));
  expect(names(moved)).toEqual(names(solid));
  const isCrowded = moved.edges.some(({ length }) => length < 1e-3) || partsHardly(solid, by);
  solid.faces.forEach((face, f) => {
    const points = (moved.faces[f]?.loop ?? []).map((v) => moved.vertices[v] as Vec3);
    if (face.roll) {
      for (const p of points) expect(Math.abs(heightOver(solid, f, p) - by)).toBeLessThan(1e-6);
      return;
    }
    const { normal, origin } = faceFrame(solid, f);
    const far = holdsStill(solid, f) ? 0 : by;
    // The corners of a solid lie in its faces up to 1e-6 mm themselves.
    const flat = Math.max(...face.loop.map((v) => Math.abs(dot3(normal, sub3(solid.vertices[v] as Vec3, origin)))));
    // Corners that come nearer to each other than 1e-6 mm are one: next to hardly any edge at all a corner may be so far off.
    const most = isCrowded ? 1e-6 : 1e-9 + 3 * flat;
    for (const p of points) expect(Math.abs(dot3(normal, sub3(p, origin)) - far)).toBeLessThan(most);
  });
  // Free eaves keep their level.
  const levels = ({ edges, vertices }: Solid): ReadonlyMap<string, number> =>
    new Map(
      edges.flatMap(({ id, role, faces, ends }) =>
        role === 'eave' && faces.length === 1 ? [[id, vertices[ends[0]]?.[2] ?? 0]] : [],
      ),
    );
  const before = levels(solid);
  for (const [id, z] of levels(moved)) {
    const own = before.get(id);
    const face = moved.faces[moved.edges.find((edge) => edge.id === id)?.faces[0] ?? -1];
    const isDeck = face && Math.hypot(...faceFrame({ ...moved, faces: [face] }, 0).normal.slice(0, 2)) < 1e-9;
    if (own !== undefined && !isDeck) expect(Math.abs(z - own)).toBeLessThan(1e-9);
  }
}

/** How far a point lies outside a rolled face, from the plane that touches it at the point's ruling. */
function heightOver(solid: Solid, f: number, p: Vec3): number {
  const face = solid.faces[f] as Solid['faces'][number];
  const { surface, rulings, flat } = face.roll as NonNullable<typeof face.roll>;
  const apex =
    surface.form === 'cone' ? move3(frameMotion(faceFrame(solid, f)), bendPoint(surface, [0, surface.apex], 1)) : null;
  const isPeak = apex && Math.hypot(p[0] - apex[0], p[1] - apex[1]) < 1e-6;
  const local = isPeak ? (flat[rulings[3]?.[1] ?? 0] as Vec2) : pointInFace(solid, f, p);
  const on = move3(frameMotion(faceFrame(solid, f)), bendPoint(surface, local, 1));
  return dot3(normalAt(solid.vertices, face, on), sub3(p, on));
}

test('a pyramid ten times as large, offset ten times as far, is ten times the offset pyramid', () => {
  const size = fc.double({ min: 20, max: 90, noNaN: true });
  fc.assert(
    fc.property(size, size, size, thickness, (width, depth, rise, by) => {
      const moved = [1, 10].map((times) => {
        const built = pyramid.build({ width: width * times, depth: depth * times, rise: rise * times }, null);
        const found = built.ok ? offsetSolid(built.value, by * times) : null;
        return found?.ok ? found.value : null;
      });
      const [one, ten] = moved as [Solid | null, Solid | null];
      expect(one === null).toBe(ten === null);
      expect(ten?.edges.map(({ id, role }) => [id, role])).toEqual(one?.edges.map(({ id, role }) => [id, role]));
      one?.edges.forEach(({ length }, e) => {
        expect(Math.abs((ten?.edges[e]?.length ?? 0) / 10 - length)).toBeLessThan(1e-8);
      });
    }),
    { numRuns: runs(50) },
  );
});

test('slopes of one pitch: the same as the roof built anew from the outline moved out by d over the sine of the pitch', () => {
  let compared = 0;
  fc.assert(
    fc.property(arbitraryPlan(false), fc.double({ min: 0.2, max: 1.3, noNaN: true }), thickness, (plan, pitch, by) => {
      const built = hipAndValley.build({ corners: plan.corners, pitch, ends: 'open' }, null);
      const outline = standOut(
        plan,
        plan.corners.map(() => by / Math.sin(pitch)),
      );
      if (!built.ok || !outline.ok) return;
      const anew = hipAndValley.build({ corners: outline.value.corners, pitch, ends: 'open' }, null);
      const moved = offsetSolid(built.value, by);
      if (!anew.ok || !moved.ok) return;
      compared++;
      const isIn = (p: Vec3, { vertices }: Solid): boolean => vertices.some((q) => distance3(p, q) < 1e-6);
      expect(moved.value.vertices.filter((p) => !isIn(p, anew.value))).toEqual([]);
      expect(anew.value.vertices.filter((p) => !isIn(p, moved.value))).toEqual([]);
    }),
    { numRuns: runs(60) },
  );
  expect(compared).toBeGreaterThan(runs(20));
});

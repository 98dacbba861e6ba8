import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arbitraryRoof, kinds, panelsOf } from '../../../tests/laws/arbitrary-roof.ts';
import { runsOver } from '../../../tests/laws/runs.ts';
import type { Solid } from '../solid/solid.ts';
import { NOISE_RAD } from '../tolerance.ts';
import { chooseCarriers, turningAlong } from './choose-flaps.ts';

const seamsOf = (solid: Solid): number[] => solid.edges.flatMap((edge, e) => (edge.faces.length === 2 ? [e] : []));

/**
 * Size of the largest set of faces, no two sharing a seam and none bound to carry a flap, by trying every set. Bound are walls
 * that meet a slope, and the one of two panels that carries the teeth of a curved seam.
 */
function mostPlain(solid: Solid, carriers: ReadonlyMap<number, number>): number {
  const seams = seamsOf(solid).map((e) => ({
    ...(solid.edges[e] as Solid['edges'][number]),
    carrier: carriers.get(e),
  }));
  const isBound = (edge: (typeof seams)[number]): boolean => edge.role === 'abutment' || edge.via !== undefined;
  const bound = new Set(seams.filter(isBound).map((edge) => (edge.via ? edge.carrier : edge.faces[0])));
  let most = 0;
  for (let set = 0; set < 2 ** solid.faces.length; set++) {
    const has = (f: number | undefined): boolean => f !== undefined && (set >> f) % 2 === 1;
    const isFree = seams.every((edge) => isBound(edge) || !(has(edge.faces[0]) && has(edge.faces[1])));
    if (!isFree || [...bound].some(has)) continue;
    most = Math.max(most, solid.faces.filter((_, f) => has(f)).length);
  }
  return most;
}

describe.each(kinds.map((kind) => [kind.id, kind] as const))('flaps of every %s', (_, kind) => {
  const roofs = arbitraryRoof(kind);
  const counts = { numRuns: runsOver(panelsOf(kind), 20) };

  test('alternate: as many panels without a flap as can be, and each flap on one of the two panels of its seam', () => {
    fc.assert(
      fc.property(roofs, ({ solid }) => {
        const { from: carriers } = chooseCarriers(solid, seamsOf(solid), 'alternate');
        for (const [seam, face] of carriers) expect(solid.edges[seam]?.faces).toContain(face);
        const flapped = new Set(carriers.values());
        expect(carriers.size).toBe(seamsOf(solid).length);
        const plain = solid.faces.filter((_face, f) => !flapped.has(f)).length;
        // Every set of more faces than this would take too long to try.
        if (solid.faces.length <= 10) expect(plain).toBe(mostPlain(solid, carriers));
      }),
      counts,
    );
  });

  test('the teeth of a curved seam stand on the edge that is hollow or straight when flat', () => {
    fc.assert(
      fc.property(roofs, ({ solid }) => {
        for (const [seam, face] of chooseCarriers(solid, seamsOf(solid), 'alternate').from) {
          const { via, role, faces } = solid.edges[seam] as Solid['edges'][number];
          if (!via || role === 'abutment') continue;
          const other = faces.find((f) => f !== face) as number;
          expect(turningAlong(solid, seam, face)).toBeLessThan(NOISE_RAD);
          expect(turningAlong(solid, seam, other)).toBeGreaterThan(-NOISE_RAD);
        }
      }),
      counts,
    );
  });

  test('a wall carries the flap along a slope it meets', () => {
    fc.assert(
      fc.property(roofs, fc.constantFrom('alternate' as const, 'one-side' as const), ({ solid }, on) => {
        for (const [seam, face] of chooseCarriers(solid, seamsOf(solid), on).from) {
          if (solid.edges[seam]?.role === 'abutment') expect(solid.faces[face]?.part).toBe('wall');
        }
      }),
      counts,
    );
  });
});

test('a ring of five keeps two panels plain and gives one of the others a single flap', () => {
  const built = kinds.find((kind) => kind.id === 'spire')?.build({ sides: 5, side: 30, rise: 40 }, null);
  if (!built?.ok) throw new Error('no spire');
  const carriers = [...chooseCarriers(built.value, seamsOf(built.value), 'alternate').from.values()];
  const count = (f: number): number => carriers.filter((face) => face === f).length;
  expect(built.value.faces.map((_, f) => count(f)).sort()).toEqual([0, 0, 1, 2, 2]);
  expect(count(0)).toBe(0);
});

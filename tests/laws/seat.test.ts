import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placePoint, poseNet } from '../../src/core/fold/pose.ts';
import { distance3, type Vec2, type Vec3 } from '../../src/core/geometry/vector.ts';
import { arrangeOnTable } from '../../src/core/net/arrange.ts';
import { checkNet } from '../../src/core/net/check-net.ts';
import type { MadeSeat } from '../../src/core/seat/make-seat.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { arbitraryRoof, kinds, panelsOf } from './arbitrary-roof.ts';
import { seatChoices, seatOn } from './arbitrary-seat.ts';
import { runsOver } from './runs.ts';

const refusals = ['seat-no-room', 'seat-outside-roof', 'seat-needs-plate', 'seat-no-plate', 'seat-too-short'];

describe.each(kinds.map((kind) => [kind.id, kind] as const))('a seat under every %s', (_, kind) => {
  test('passes the check of its net and folds up under the roof, or is refused with a reason', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), seatChoices, (roof, choice) => {
        const made = seatOn(roof, choice);
        if (!made.ok) {
          expect(refusals).toContain(made.issues[0]?.code);
          return;
        }
        const { solid, net, faces } = made.value;
        const flaps = { width: 5, on: 'alternate', clearance: 0.5, least: 2 } as const;
        expect(checkNet(solid, net, flaps, new Set(faces))).toEqual([]);
        expectFolded(solid, net);
      }),
      { numRuns: runsOver(panelsOf(kind), 4) },
    );
  });
});

function expectFolded(solid: Solid, net: MadeSeat['net']): void {
  const pose = poseNet(solid, net, 1, { rest: 0, spots: arrangeOnTable([{ solid, net }], null)[0] ?? [] });
  net.pieces.forEach((piece, p) => {
    piece.panels.forEach(({ face, polygon }, i) => {
      solid.faces[face]?.loop.forEach((v, k) => {
        const there = placePoint(pose.pieces[p]?.panels[i] as never, polygon[k] as Vec2);
        expect(distance3(there, solid.vertices[v] as Vec3)).toBeLessThan(1e-6);
      });
    });
  });
}

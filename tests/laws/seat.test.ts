import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { restHeight } from '../../src/core/fit/rest.ts';
import { placePoint, poseNet } from '../../src/core/fold/pose.ts';
import { rectangularBody } from '../../src/core/footprint/rectangular-body.ts';
import { boxOf } from '../../src/core/geometry/polygon.ts';
import { distance3, type Vec2, type Vec3 } from '../../src/core/geometry/vector.ts';
import { arrangeOnTable } from '../../src/core/net/arrange.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import { checkNet } from '../../src/core/net/check-net.ts';
import type { LayerSpec, PiecesMode, SeatSpec } from '../../src/core/project/project.ts';
import { type MadeSeat, makeSeat } from '../../src/core/seat/make-seat.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { arbitraryRoof, type DrawnRoof, kinds, panelsOf } from './arbitrary-roof.ts';
import { runsOver } from './runs.ts';

const choices = fc.record({
  fits: fc.constantFrom<SeatSpec['fits']>('inside', 'outside'),
  isRound: fc.boolean(),
  plate: fc.boolean(),
  share: fc.double({ min: 0.2, max: 0.95, noNaN: true }),
  play: fc.constantFrom(0, 0.3, 1),
  height: fc.double({ min: 1, max: 20, noNaN: true }),
  pieces: fc.constantFrom<PiecesMode>('one-piece', 'per-panel'),
});
type Choice = typeof choices extends fc.Arbitrary<infer T> ? T : never;

/** A seat of a share of the roof's size about its middle: a rectangle, or a circle. */
function seatOn({ solid }: DrawnRoof, choice: Choice): ReturnType<typeof makeSeat> {
  const box = boxOf(solid.vertices.map(([x, y]): Vec2 => [x, y]));
  const [width, depth] = [choice.share * (box.maxX - box.minX), choice.share * (box.maxY - box.minY)];
  const radius = Math.min(width, depth) / 2;
  const circle = Array.from({ length: 40 }, (_, i): Vec2 => {
    const angle = (Math.PI * i) / 20;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
  const body = rectangularBody(width, depth, 50);
  const plan = choice.isRound ? circle : body.outline;
  const layer: LayerSpec = {
    as: 'shell',
    stock: ['card'],
    pieces: 'one-piece',
    flaps: { width: 5, on: 'alternate', clearance: 0.5, least: 2 },
    thickness: 'ignore',
  };
  const { net } = buildNet(solid, { ...layer, pieces: choice.pieces });
  const wallTop = 50 - restHeight(solid, body);
  const seat: SeatSpec = { ...choice, plan, layer };
  return makeSeat(seat, {
    host: { spec: layer, solid, net },
    inside: solid,
    thickness: 0,
    wallTop: choice.isRound ? null : wallTop,
    firstMark: 0,
  });
}

const refusals = ['seat-no-room', 'seat-outside-roof', 'seat-needs-plate', 'seat-no-plate', 'seat-too-short'];

describe.each(kinds.map((kind) => [kind.id, kind] as const))('a seat under every %s', (_, kind) => {
  test('passes the check of its net and folds up under the roof, or is refused with a reason', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), choices, (roof, choice) => {
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
      { numRuns: runsOver(panelsOf(kind), 6) },
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

import fc from 'fast-check';
import { restHeight } from '../../src/core/fit/rest.ts';
import { rectangularBody } from '../../src/core/footprint/rectangular-body.ts';
import { boxOf } from '../../src/core/geometry/polygon.ts';
import type { Vec2 } from '../../src/core/geometry/vector.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import type { LayerSpec, PiecesMode, SeatSpec } from '../../src/core/project/project.ts';
import { makeSeat } from '../../src/core/seat/make-seat.ts';
import type { DrawnRoof } from './arbitrary-roof.ts';

/** Collars inside and outside the walls, round ones too, with a plate or without. */
export const seatChoices = fc.record({
  fits: fc.constantFrom<SeatSpec['fits']>('inside', 'outside'),
  isRound: fc.boolean(),
  plate: fc.boolean(),
  share: fc.double({ min: 0.2, max: 0.95, noNaN: true }),
  play: fc.constantFrom(0, 0.3, 1),
  height: fc.double({ min: 1, max: 20, noNaN: true }),
  pieces: fc.constantFrom<PiecesMode>('one-piece', 'per-panel'),
});
type Choice = typeof seatChoices extends fc.Arbitrary<infer T> ? T : never;

/** A seat of a share of the roof's size about its middle: a rectangle, or a circle. */
export function seatOn({ solid }: DrawnRoof, choice: Choice): ReturnType<typeof makeSeat> {
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

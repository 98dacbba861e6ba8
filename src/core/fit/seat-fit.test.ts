import { expect, it } from 'vitest';
import type { Vec2 } from '../geometry/vector.ts';
import { seatFit, seatJams } from './seat-fit.ts';

const square = (side: number): readonly Vec2[] => [
  [0, 0],
  [side, 0],
  [side, side],
  [0, side],
];

it('the play that is meant is what true measures leave; marks give or take half of what they are off', () => {
  // Inside walls of 50 mm with a play of 0.3: 49.4, marked as 49 or, by halves, as 49.5.
  const collar = { fits: 'inside', plan: square(49.4), isRound: false } as const;
  expect(seatFit(collar, 0.3, '1mm').marked).toEqual({ min: expect.closeTo(0.5, 9), max: expect.closeTo(0.5, 9) });
  expect(seatFit(collar, 0.3, '0.5mm').marked.min).toBeCloseTo(0.25, 9);
  expect(seatJams(seatFit(collar, 0.3, '1mm'), '1mm')).toEqual([]);
});

it('a collar that is marked too long jams inside, and one marked too short jams outside', () => {
  const inside = seatFit({ fits: 'inside', plan: square(49.6), isRound: false }, 0.1, '1mm');
  expect(inside.marked.min).toBeCloseTo(-0.1, 9);
  expect(seatJams(inside, '1mm')).toMatchObject([{ code: 'seat-jams', numbers: { by: expect.closeTo(0.1, 9) } }]);
  const outside = seatFit({ fits: 'outside', plan: square(50.4), isRound: false }, 0.1, '1mm');
  expect(outside.marked.min).toBeCloseTo(-0.1, 9);
});

it('a round collar shares what its length is off all round', () => {
  const round = Array.from({ length: 720 }, (_, i): Vec2 => {
    const angle = (i * Math.PI) / 360;
    return [20 * Math.cos(angle), 20 * Math.sin(angle)];
  });
  // 125.66 mm round, marked as 126.
  const { marked } = seatFit({ fits: 'inside', plan: round, isRound: true }, 0.3, '1mm');
  expect(marked.min).toBeCloseTo(0.3 - (126 - 40 * Math.PI) / (2 * Math.PI), 3);
});

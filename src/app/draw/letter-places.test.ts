import { describe, expect, it } from 'vitest';
import { distance2, type Vec2 } from '../../core/geometry/vector.ts';
import { type LetterToPlace, letterPlaces } from './letter-places.ts';

const box = (width: number, height: number): readonly [Vec2, Vec2, Vec2, Vec2] => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];
/** A letter at the left and one at the right end of an upright strip of paper. */
const atBothEnds = (width: number, height: number): readonly LetterToPlace[] => {
  const [a, b, c, d] = box(width, height);
  return [
    { ends: [d, a], side: [1, 0], panel: [a, b, c, d] },
    { ends: [c, b], side: [-1, 0], panel: [a, b, c, d] },
  ];
};

describe('the letters of a piece', () => {
  it('have their usual size where there is room', () => {
    expect(letterPlaces(atBothEnds(300, 120)).map(({ size }) => size)).toEqual([15, 15]);
  });

  it('get smaller in a low fascia, and keep between its edges', () => {
    for (const { at, size } of letterPlaces(atBothEnds(280, 11))) {
      expect(size).toBeLessThan(15);
      expect(at[1] - 0.36 * size).toBeGreaterThan(0);
      expect(at[1] + 0.36 * size).toBeLessThan(11);
    }
  });

  it('keep clear of each other where two seams meet in a slender panel', () => {
    const panel: readonly Vec2[] = [
      [0, 60],
      [40, 60],
      [20, 0],
    ];
    const [low, right, top] = panel as [Vec2, Vec2, Vec2];
    const along = Math.hypot(20, 60);
    const [first, second] = letterPlaces([
      { ends: [low, top], side: [60 / along, 20 / along], panel },
      { ends: [right, top], side: [-60 / along, 20 / along], panel },
    ]);
    if (!first || !second) throw new Error('a letter is missing');
    expect(distance2(first.at, second.at)).toBeGreaterThanOrEqual(0.36 * (first.size + second.size));
  });
});

import { describe, expect, it } from 'vitest';
import { ringArea } from '../../core/geometry/polygon.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { addCorner, addCourt, moveCorner, type Rings, removeCorner, setSideLength, sideLength } from './plan-edits.ts';

/** An L: 100 along the front, 70 up the right, the notch at the back right. */
const ell: Rings = [
  [
    [0, 0],
    [100, 0],
    [100, 40],
    [60, 40],
    [60, 70],
    [0, 70],
  ],
];
const court: readonly Vec2[] = [
  [10, 10],
  [30, 10],
  [30, 25],
];

describe('editing a plan', () => {
  it('moves one corner and leaves every other point the same object', () => {
    const { rings } = moveCorner(ell, { ring: 0, index: 3 }, [55, 45]);
    expect(rings[0]?.[3]).toEqual([55, 45]);
    for (const i of [0, 1, 2, 4, 5]) expect(rings[0]?.[i]).toBe(ell[0]?.[i]);
  });

  it('adds a corner in the middle of a side, and both halves come out of it', () => {
    const { rings, from } = addCorner(ell, { ring: 0, index: 5 });
    expect(rings[0]?.[6]).toEqual([0, 35]);
    expect(from[0]?.map(({ index }) => index)).toEqual([0, 1, 2, 3, 4, 5, 5]);
    expect(addCorner(ell, { ring: 0, index: 1 }).from[0]?.map(({ index }) => index)).toEqual([0, 1, 1, 2, 3, 4, 5]);
  });

  it('takes a corner away, the first one too, and the front stays the front', () => {
    const third = removeCorner(ell, { ring: 0, index: 2 });
    expect(third?.rings[0]).toHaveLength(5);
    expect(third?.from[0]?.map(({ index }) => index)).toEqual([0, 1, 3, 4, 5]);
    const first = removeCorner(ell, { ring: 0, index: 0 });
    expect(first?.rings[0]?.slice(0, 2)).toEqual([
      [0, 70],
      [100, 0],
    ]);
    expect(first?.from[0]?.map(({ index }) => index)).toEqual([0, 1, 2, 3, 4]);
  });

  it('keeps an outline of three corners, and takes a court of three away', () => {
    expect(removeCorner([court], { ring: 0, index: 1 })).toBeNull();
    expect(removeCorner([ell[0] ?? [], court], { ring: 1, index: 1 })?.rings).toEqual(ell);
  });

  it('gives a side a length and keeps right angles right', () => {
    const front = setSideLength(ell, { ring: 0, index: 0 }, 120);
    expect(front.rings[0]).toEqual([
      [0, 0],
      [120, 0],
      [120, 40],
      [60, 40],
      [60, 70],
      [0, 70],
    ]);
    const left = setSideLength(ell, { ring: 0, index: 5 }, 50);
    expect(sideLength(left.rings, { ring: 0, index: 5 })).toBeCloseTo(50, 9);
    // The left side runs down: its far end is the front left corner, and the front moves with it.
    expect(left.rings[0]?.slice(0, 2)).toEqual([
      [0, 20],
      [100, 20],
    ]);
  });

  it('gives a side of a slanted plan a length and keeps the directions of the others', () => {
    const kite: Rings = [
      [
        [0, 0],
        [50, 3],
        [61, 48],
        [-4, 40],
      ],
    ];
    const { rings } = setSideLength(kite, { ring: 0, index: 1 }, 30);
    expect(sideLength(rings, { ring: 0, index: 1 })).toBeCloseTo(30, 9);
    const slope = (points: readonly Vec2[], i: number): number => {
      const [a, b] = [points[i] as Vec2, points[(i + 1) % 4] as Vec2];
      return (b[1] - a[1]) / (b[0] - a[0]);
    };
    for (const i of [0, 1, 2, 3]) expect(slope(rings[0] ?? [], i)).toBeCloseTo(slope(kite[0] ?? [], i), 9);
  });

  it('offers courts on whole marks, the largest in the middle first', () => {
    const [first] = addCourt(ell, 5);
    const made = first?.rings[1] ?? [];
    expect(ringArea(made)).toBeGreaterThan(0);
    for (const figure of made.flat()) expect(figure % 5).toBe(0);
    expect(first?.from[1]).toEqual([]);
  });
});

import { describe, expect, it } from 'vitest';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { type Surroundings, snap, snapTurn } from './snap.ts';

const box = (x: number, y: number, width: number, height: number): readonly Vec2[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];
const sheet: Surroundings = { border: box(0, 0, 300, 200), margin: 0, gap: 0, others: [], print: null };
const moved = (x: number, y: number, more: Partial<Surroundings> = {}, reach = 4): Vec2 => {
  const { shift } = snap(box(x, y, 40, 30), [], { ...sheet, ...more }, reach);
  return [x + shift[0], y + shift[1]];
};

describe('a piece that is let go', () => {
  it('comes to lie in the corner of its sheet, or within its margin', () => {
    expect(moved(2, 3)).toEqual([0, 0]);
    expect(moved(257, 171)).toEqual([260, 170]);
    expect(moved(4, 8, { margin: 6 })).toEqual([6, 6]);
  });

  it('stays where the hand has it with nothing near', () => {
    expect(moved(100, 80)).toEqual([100, 80]);
    expect(snap(box(100, 80, 40, 30), [], sheet, 4).caught).toEqual([]);
  });

  it('lies edge to edge with another piece and end to end, or the gap apart', () => {
    const others = [box(100, 80, 40, 30)];
    expect(moved(143, 82, { others })).toEqual([140, 80]);
    expect(moved(143, 82, { others, gap: 2 })).toEqual([142, 80]);
    // From the other side, and over it.
    expect(moved(58.5, 81, { others })).toEqual([60, 80]);
    expect(moved(101, 112, { others })).toEqual([100, 110]);
  });

  it('lays a slope on a slope', () => {
    // Two right triangles that make a square of 50, the second half a millimetre up and away.
    const lower: readonly Vec2[] = [
      [100, 50],
      [150, 50],
      [100, 100],
    ];
    const upper: readonly Vec2[] = [
      [151, 101.2],
      [101, 101.2],
      [151, 51.2],
    ];
    const { shift, caught } = snap(upper, [], { ...sheet, others: [lower] }, 4);
    expect(shift[0]).toBeCloseTo(-1, 9);
    expect(shift[1]).toBeCloseTo(-1.2, 9);
    expect(caught.map(({ by }) => by)).toEqual(['piece', 'piece']);
  });

  it('centres a fall line on a stripe, and an eave on the foot of a course', () => {
    const stripes = { x: { period: 20, isEven: true }, y: null, isSquare: false };
    const fall = {
      kind: 'fall' as const,
      ends: [
        [121.3, 80],
        [121.3, 110],
      ] as const,
    };
    const onStripe = snap(box(101.3, 80, 40, 30), [fall], { ...sheet, print: stripes }, 4);
    // Stripes of 20 have their middles and the middles between them on every 10.
    expect(onStripe.shift[0]).toBeCloseTo(-1.3, 9);
    expect(onStripe.caught).toMatchObject([{ by: 'print' }]);
    const courses = { x: null, y: { period: 12, isEven: false }, isSquare: false };
    const eave = {
      kind: 'eave' as const,
      ends: [
        [100, 84.9],
        [140, 84.9],
      ] as const,
    };
    expect(snap(box(100, 84.9, 40, 30), [eave], { ...sheet, print: courses }, 4).shift[1]).toBeCloseTo(-0.9, 9);
    // Farther than a tenth of the repeat it lies as the hand has it.
    expect(
      snap(
        box(100, 87, 40, 30),
        [
          {
            ...eave,
            ends: [
              [100, 87],
              [140, 87],
            ],
          },
        ],
        { ...sheet, print: courses },
        4,
      ).caught,
    ).toEqual([]);
  });
});

describe('a turn', () => {
  it('comes to rest with a side along the sheet', () => {
    const leaning = (angle: number): readonly Vec2[] =>
      box(0, 0, 40, 30).map(
        ([x, y]): Vec2 => [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)],
      );
    expect(snapTurn(leaning(0.04), 0.06)).toBeCloseTo(-0.04, 9);
    expect(snapTurn(leaning(Math.PI / 2 - 0.03), 0.06)).toBeCloseTo(0.03, 9);
    expect(snapTurn(leaning(0.5), 0.06)).toBeNull();
  });
});

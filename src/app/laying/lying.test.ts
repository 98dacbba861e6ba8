import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../tests/laws/runs.ts';
import { boxOf } from '../../core/geometry/polygon.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { LaidSheet } from '../../core/layout/layout.ts';
import type { Stock } from '../../core/project/project.ts';
import {
  addSheet,
  hasAnother,
  keptWhereSame,
  middleOf,
  movePiece,
  ringAt,
  spotOf,
  troublesOf,
  turnAbout,
} from './lying.ts';

const paper = (more: Partial<Stock> = {}): Stock => ({
  id: 'slate',
  name: 'Slate',
  width: 200,
  height: 100,
  count: 2,
  thickness: 0,
  direction: 'any',
  margin: 0,
  gap: 0,
  ...more,
});

/** A right triangle, 40 wide and 30 high. */
const corner: readonly Vec2[] = [
  [0, 0],
  [40, 0],
  [0, 30],
];
const pieces = [0, 1].map((piece) => ({
  roof: 0,
  layer: 0,
  piece,
  copy: 0,
  id: `p${piece}`,
  fingerprint: '',
  title: `Panel ${piece}`,
  path: '',
  outline: corner,
  width: 40,
  height: 30,
  stock: [0],
}));
const [first, second] = pieces as [(typeof pieces)[number], (typeof pieces)[number]];
const key = (piece: number) => ({ roof: 0, layer: 0, piece, copy: 0 });
const sheets: readonly LaidSheet[] = [
  {
    stock: 0,
    index: 0,
    width: 200,
    height: 100,
    used: 1200 / 20000,
    placements: [
      { ...key(0), x: 0, y: 0, rotation: 0 },
      { ...key(1), x: 100, y: 0, rotation: 0 },
    ],
  },
];
const spot = (x: number, y: number, rotation = 0) => ({ stock: 0, index: 0, x, y, rotation });
const troubles = (at: ReturnType<typeof spot>, stock = paper()) =>
  troublesOf(movePiece(sheets, second, at, false), pieces, [stock], second);

describe('a piece that is moved', () => {
  it('leaves its sheet and comes to another; a sheet it does not touch stays the very same', () => {
    const two = addSheet(addSheet(sheets, 0, paper()), 0, paper());
    const moved = movePiece(two, second, { ...spot(5, 6), index: 1 }, true);
    expect(moved.map(({ placements }) => placements.length)).toEqual([1, 1, 0]);
    expect(spotOf(moved, second)).toEqual({ ...spot(5, 6), index: 1, locked: true });
    expect(moved[2]).toBe(two[2]);
    // 600 mm² of 20 000.
    expect(moved[0]?.used).toBeCloseTo(0.03, 12);
    expect(moved[1]?.used).toBeCloseTo(0.03, 12);
  });

  it('finds no sheet more than there are', () => {
    expect(hasAnother(paper(), sheets, 0)).toBe(true);
    expect(hasAnother(paper(), addSheet(sheets, 0, paper()), 0)).toBe(false);
    expect(hasAnother(paper({ count: null }), sheets, 0)).toBe(true);
  });

  it('may touch another and the edge of its sheet', () => {
    expect(troubles(spot(40, 0))).toEqual([]);
    expect(troubles(spot(160, 70))).toEqual([]);
    // Turned half round, its long side on the long side of the other.
    expect(troubles(spot(40, 30, Math.PI))).toEqual([]);
  });

  it('says what it lies on, and by how much it stands out or is too near', () => {
    expect(troubles(spot(39, 0))).toMatchObject([{ kind: 'overlap', other: key(0) }]);
    expect(troubles(spot(0, 0))).toMatchObject([{ kind: 'overlap' }]);
    expect(troubles(spot(165, 0))).toMatchObject([{ kind: 'off-sheet', by: 5 }]);
    expect(troubles(spot(100, 0), paper({ margin: 3 }))).toMatchObject([{ kind: 'off-sheet', by: 3 }]);
    const near = troubles(spot(41.5, 0), paper({ gap: 2 }));
    expect(near).toMatchObject([{ kind: 'gap', other: key(0) }]);
    expect(near[0]?.by).toBeCloseTo(0.5, 12);
  });

  it('keeps to an offcut: the cut-off corner is no paper', () => {
    const outline: readonly Vec2[] = [
      [0, 0],
      [200, 0],
      [200, 50],
      [100, 100],
      [0, 100],
    ];
    const cut = [{ ...(sheets[0] as LaidSheet), outline }];
    const found = (x: number, y: number) =>
      troublesOf(movePiece(cut, second, spot(x, y), false), pieces, [paper({ outline })], second);
    expect(found(160, 0)).toEqual([]);
    expect(found(160, 60)).toMatchObject([{ kind: 'off-sheet' }]);
  });

  it('turned, keeps its middle and its size', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -200, max: 200, noNaN: true }),
        fc.double({ min: -200, max: 200, noNaN: true }),
        fc.integer({ min: -30, max: 30 }),
        (x, y, steps) => {
          const turned = turnAbout(first.outline, spot(x, y), (steps * Math.PI) / 12);
          const [before, after] = [ringAt(corner, spot(x, y)), ringAt(corner, turned)].map(middleOf) as [Vec2, Vec2];
          expect(after[0]).toBeCloseTo(before[0], 9);
          expect(after[1]).toBeCloseTo(before[1], 9);
          expect(Math.abs(turned.rotation)).toBeLessThanOrEqual(Math.PI);
          const back = turnAbout(first.outline, turned, (-steps * Math.PI) / 12);
          expect(boxOf(ringAt(corner, back)).minX).toBeCloseTo(boxOf(ringAt(corner, spot(x, y))).minX, 9);
        },
      ),
      { numRuns: runs(50) },
    );
  });
});

describe('a better layout', () => {
  it('keeps the very same placements where pieces stay, and only there', () => {
    const better = movePiece(structuredClone(sheets), second, spot(90, 0), false);
    const kept = keptWhereSame(sheets, better);
    expect(kept).toEqual(better);
    expect(kept[0]?.placements[0]).toBe(sheets[0]?.placements[0]);
    expect(kept[0]?.placements[1]).toBe(better[0]?.placements[1]);
    const locked = movePiece(structuredClone(sheets), first, spot(0, 0), true);
    expect(keptWhereSame(sheets, locked)).toEqual(locked);
  });
});

import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../geometry/vector.ts';
import { checkLayout } from './check-layout.ts';
import type { LaidSheet, Layout } from './layout.ts';
import { jobOf, panel, paper, pieceOf } from './testing/arbitrary-job.ts';

const square = (size: number): readonly Vec2[] => [
  [0, 0],
  [size, 0],
  [size, size],
  [0, size],
];
const at = (piece: number, x: number, y: number, rotation = 0) => ({
  roof: 0,
  layer: 0,
  piece,
  copy: 0,
  x,
  y,
  rotation,
});
const sheet = (placements: LaidSheet['placements'], index = 0): LaidSheet => ({
  stock: 0,
  index,
  width: 100,
  height: 100,
  used: 0,
  placements,
});

describe('the check of a layout', () => {
  const stock = [paper(100, 100, { margin: 5, count: 2 })];
  const job = jobOf([panel(0, 40, 40), panel(1, 40, 40)], stock);
  const codes = (layout: Layout, one = job): string[] => checkLayout(one, layout).map((issue) => issue.code);
  const lay = (x: number, rotation = 0): string[] =>
    codes({ sheets: [sheet([at(0, 5, 5), at(1, x, 5, rotation)])], leftOut: [] });

  test('passes what is right and tells what is wrong', () => {
    expect(lay(45)).toEqual([]);
    expect(lay(44)).toEqual(['layout-overlap']);
    expect(lay(45 - 2e-6)).toEqual(['layout-overlap']);
    expect(lay(5)).toEqual(['layout-overlap']);
    expect(lay(56)).toEqual(['layout-off-sheet']);
    expect(lay(90, Math.PI / 2)).toEqual(['layout-turned']);
  });

  test('counts pieces and sheets', () => {
    expect(codes({ sheets: [sheet([at(0, 5, 5)])], leftOut: [] })).toEqual(['layout-count']);
    expect(codes({ sheets: [sheet([at(0, 5, 5)])], leftOut: [1] })).toEqual([]);
    expect(codes({ sheets: [sheet([at(0, 5, 5)], 2)], leftOut: [1] })).toEqual(['layout-no-sheet']);
  });

  test('sees a gap that is too narrow, a paper that is not for the piece, and what was fixed and has moved', () => {
    const gap = jobOf(job.pieces, [paper(100, 100, { gap: 3 })]);
    const two = (x: number): Layout => ({ sheets: [sheet([at(0, 0, 0), at(1, x, 0)])], leftOut: [] });
    expect(codes(two(43), gap)).toEqual([]);
    expect(codes(two(42.9), gap)).toEqual(['layout-gap']);
    expect(codes(two(50), jobOf([panel(0, 40, 40), panel(1, 40, 40, [1])], [paper(100, 100), paper(9, 9)]))).toEqual([
      'layout-stock',
    ]);
    expect(codes(two(50), jobOf(job.pieces, [paper(100, 100)], { fixed: [sheet([at(1, 50, 0)])] }))).toEqual([]);
    expect(codes(two(50), jobOf(job.pieces, [paper(100, 100)], { fixed: [sheet([at(1, 51, 0)])] }))).toEqual([
      'layout-moved',
    ]);
  });

  test('keeps to the outline of an offcut: its slanted edge, its notch, its margin', () => {
    const notched: readonly Vec2[] = [
      [0, 0],
      [100, 0],
      [100, 100],
      [51, 100],
      [50, 20],
      [49, 100],
      [0, 100],
    ];
    const on = (x: number, y: number, size: number, margin = 0): string[] =>
      codes(
        { sheets: [sheet([at(0, x, y)])], leftOut: [] },
        jobOf([pieceOf(0, square(size))], [paper(100, 100, { outline: notched, margin })]),
      );
    expect(on(0, 0, 20)).toEqual([]);
    expect(on(40, 0, 20)).toEqual([]);
    expect(on(40, 1, 20)).toEqual(['layout-off-sheet']);
    // The notch runs right through the piece, which has all its corners on the paper.
    expect(on(30, 40, 40)).toEqual(['layout-off-sheet']);
    expect(on(52, 30, 40)).toEqual([]);
    expect(on(52, 30, 40, 5)).toEqual(['layout-off-sheet']);
    expect(on(57, 30, 38, 5)).toEqual([]);
  });
});

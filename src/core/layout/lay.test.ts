import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Direction, Stock } from '../project/project.ts';
import { checkLayout } from './check-layout.ts';
import { layPieces, type PieceToLay } from './lay.ts';

const sheet = (width: number, height: number, more: Partial<Stock> = {}): Stock => ({
  id: 'slate',
  name: 'Slate',
  width,
  height,
  count: null,
  thickness: 0.2,
  direction: 'one-way',
  margin: 0,
  gap: 0,
  ...more,
});

/** A triangle that fills its box, as a panel of a pyramid does. */
const panel = (piece: number, width: number, height: number, stock: readonly number[] = [0]): PieceToLay => ({
  roof: 0,
  layer: 0,
  piece,
  copy: 0,
  id: `panel-${piece}`,
  fingerprint: '',
  title: `Panel ${piece}`,
  path: 'roofs[0].layers[0]',
  width,
  height,
  stock,
  outline: [
    [0, 0],
    [width, 0],
    [width / 2, height],
  ],
});

const size = fc.double({ min: 5, max: 130, noNaN: true });
const stocks = fc.array(
  fc
    .record({
      width: fc.double({ min: 60, max: 300, noNaN: true }),
      height: fc.double({ min: 60, max: 300, noNaN: true }),
      count: fc.option(fc.integer({ min: 1, max: 3 })),
      direction: fc.constantFrom<Direction>('one-way', 'two-way', 'any'),
      margin: fc.constantFrom(0, 5),
      gap: fc.constantFrom(0, 2),
    })
    .map(({ width, height, ...more }) => sheet(width, height, more)),
  { minLength: 1, maxLength: 3 },
);

describe('laying', () => {
  test('every piece lies once inside its sheet and on no other, or an issue names it', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(size, size), { maxLength: 40 }), stocks, (sizes, stock) => {
        const pieces = sizes.map(([w, h], i) =>
          panel(
            i,
            w,
            h,
            stock.map((_, s) => s),
          ),
        );
        const { sheets, leftOut, issues } = layPieces(pieces, stock);
        expect(checkLayout(pieces, sheets, stock, leftOut.length)).toEqual([]);
        expect(issues.length === 0).toBe(leftOut.length === 0);
        for (const { stock: s, index } of sheets)
          expect(index).toBeLessThan(stock[s]?.count ?? Number.POSITIVE_INFINITY);
      }),
    );
  });

  test('pieces that fill a sheet exactly are laid edge to edge', () => {
    const pieces = [0, 1, 2, 3].map((i) => panel(i, 38.1, 76.2));
    const { sheets, issues } = layPieces(pieces, [sheet(4 * 38.1, 76.2, { count: 1 })]);
    expect(issues).toEqual([]);
    expect(sheets.map(({ placements }) => placements.map(({ x }) => Number(x.toFixed(6))))).toEqual([
      [0, 38.1, 76.2, 114.3],
    ]);
    expect(sheets[0]?.used).toBeCloseTo(0.5, 12);
  });

  test('only paper that may be turned to any angle takes a piece on its side', () => {
    const tall = panel(0, 40, 100);
    expect(layPieces([tall], [sheet(120, 60, { direction: 'two-way' })]).issues.map((issue) => issue.code)).toEqual([
      'piece-too-large',
    ]);
    const { sheets } = layPieces([tall], [sheet(120, 60, { direction: 'any' })]);
    expect(sheets[0]?.placements).toEqual([
      { roof: 0, layer: 0, piece: 0, copy: 0, x: 100, y: 0, rotation: Math.PI / 2 },
    ]);
  });

  test('a piece that is too large is named once for all its copies', () => {
    const pieces = [0, 1, 2].map((copy) => ({ ...panel(0, 90, 90), copy }));
    const { leftOut, issues } = layPieces(pieces, [sheet(60, 60)]);
    expect(leftOut).toHaveLength(3);
    expect(issues.map(({ code }) => code)).toEqual(['piece-too-large']);
  });

  test('the first stock is used up before the second', () => {
    const pieces = [0, 1, 2].map((i) => panel(i, 50, 50, [1, 0]));
    const { sheets } = layPieces(pieces, [sheet(200, 60), sheet(60, 60, { count: 2 })]);
    expect(sheets.map(({ stock }) => stock)).toEqual([0, 1, 1]);
  });

  test('too little paper: what fits is laid, what does not is named', () => {
    const pieces = [0, 1, 2].map((i) => panel(i, 50, 50));
    const { sheets, issues } = layPieces(pieces, [sheet(60, 60, { count: 2 })]);
    expect(sheets.flatMap(({ placements }) => placements)).toHaveLength(2);
    expect(issues.map(({ code, path }) => [code, path])).toEqual([['stock-too-small', 'roofs[0].layers[0]']]);
  });
});

describe('the check', () => {
  const stock = [sheet(100, 100, { margin: 5 })];
  const pieces = [panel(0, 40, 40), panel(1, 40, 40)];
  const lay = (x: number, rotation = 0): string[] =>
    checkLayout(
      pieces,
      [
        {
          stock: 0,
          index: 0,
          width: 100,
          height: 100,
          used: 0,
          placements: [
            { roof: 0, layer: 0, piece: 0, copy: 0, x: 5, y: 5, rotation: 0 },
            { roof: 0, layer: 0, piece: 1, copy: 0, x, y: 5, rotation },
          ],
        },
      ],
      stock,
      0,
    ).map((issue) => issue.code);

  test('passes what is right and tells what is wrong', () => {
    expect(lay(45)).toEqual([]);
    expect(lay(44)).toEqual(['layout-overlap']);
    expect(lay(5)).toEqual(['layout-overlap']);
    expect(lay(56)).toEqual(['layout-off-sheet']);
    expect(lay(90, Math.PI / 2)).toEqual(['layout-turned']);
  });
});

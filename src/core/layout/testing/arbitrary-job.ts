import fc from 'fast-check';
import { boxOf } from '../../geometry/polygon.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import type { Direction, Stock } from '../../project/project.ts';
import type { LayoutJob } from '../job.ts';
import type { PieceToLay } from '../layout.ts';

export const paper = (width: number, height: number, more: Partial<Stock> = {}): Stock => ({
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

/** A piece of any outline; its box is moved to the origin. */
export function pieceOf(piece: number, outline: readonly Vec2[], stock: readonly number[] = [0]): PieceToLay {
  const { minX, minY, maxX, maxY } = boxOf(outline);
  return {
    roof: 0,
    layer: 0,
    piece,
    copy: 0,
    id: `panel-${piece}`,
    fingerprint: '',
    title: `Panel ${piece}`,
    path: 'roofs[0].layers[0]',
    width: maxX - minX,
    height: maxY - minY,
    stock,
    outline: outline.map(([x, y]): Vec2 => [x - minX, y - minY]),
  };
}

/** A triangle that fills its box, as a panel of a pyramid does. */
export const panel = (piece: number, width: number, height: number, stock?: readonly number[]): PieceToLay =>
  pieceOf(
    piece,
    [
      [0, 0],
      [width, 0],
      [width / 2, height],
    ],
    stock,
  );

export const jobOf = (
  pieces: readonly PieceToLay[],
  stock: readonly Stock[],
  more: Partial<LayoutJob> = {},
): LayoutJob => ({
  pieces,
  stock,
  rules: { cuts: 'free', prefer: 'sheets', offcuts: 'as-listed' },
  fixed: [],
  seed: 1,
  ...more,
});

const size = fc.double({ min: 5, max: 130, noNaN: true });

/** Panels: trapezoids that lean, down to triangles. */
const outline = fc
  .record({
    width: size,
    height: size,
    top: fc.double({ min: 0, max: 1, noNaN: true }),
    lean: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map(({ width, height, top, lean }): readonly Vec2[] => {
    const left = width * (1 - top) * lean;
    const right = left + width * top;
    return right - left < 1
      ? [
          [0, 0],
          [width, 0],
          [left, height],
        ]
      : [
          [0, 0],
          [width, 0],
          [right, height],
          [left, height],
        ];
  });

type OffcutKind = 'whole' | 'corner' | 'notch' | 'waist';

/** A sheet, now and then with a corner or a notch gone, or with a waist that a margin cuts through. */
const offcut = (width: number, height: number, kind: OffcutKind, share: number): readonly Vec2[] | null => {
  const [x, y] = [width * share, height * (1 - share / 2)];
  if (kind === 'corner')
    return [
      [0, 0],
      [width, 0],
      [width, y],
      [x, height],
      [0, height],
    ];
  if (kind === 'notch')
    return [
      [0, 0],
      [width, 0],
      [width, height],
      [x, height],
      [x / 2, y / 2],
      [0, height],
    ];
  if (kind === 'waist')
    return [
      [0, 0],
      [width, 0],
      [width, height / 2 - 4],
      [x + 2, height / 2],
      [width, height / 2 + 4],
      [width, height],
      [0, height],
      [0, height / 2 + 4],
      [x - 2, height / 2],
      [0, height / 2 - 4],
    ];
  return null;
};

const stocks = fc.array(
  fc
    .record({
      width: fc.double({ min: 60, max: 300, noNaN: true }),
      height: fc.double({ min: 60, max: 300, noNaN: true }),
      kind: fc.constantFrom<OffcutKind>('whole', 'whole', 'corner', 'notch', 'waist'),
      share: fc.double({ min: 0.3, max: 0.9, noNaN: true }),
      count: fc.option(fc.integer({ min: 1, max: 3 })),
      direction: fc.constantFrom<Direction>('one-way', 'two-way', 'any'),
      margin: fc.constantFrom(0, 5),
      gap: fc.constantFrom(0, 2),
    })
    .map(({ width, height, kind, share, ...more }) => {
      const ring = offcut(width, height, kind, share);
      return paper(width, height, { ...more, ...(ring ? { outline: ring, count: more.count ?? 2 } : {}) });
    }),
  { minLength: 1, maxLength: 3 },
);

/** Jobs on one to three papers of all directions, with margins, gaps and offcuts; pieces may go on any of them. */
export const arbitraryJob = (most: number, cuts: 'free' | 'strips' = 'free'): fc.Arbitrary<LayoutJob> =>
  fc
    .record({
      outlines: fc.array(outline, { maxLength: most }),
      stock: stocks,
      seed: fc.nat(1000),
      offcuts: fc.constantFrom<'first' | 'as-listed'>('first', 'as-listed'),
    })
    .map(({ outlines, stock, seed, offcuts }) =>
      jobOf(
        outlines.map((ring, i) =>
          pieceOf(
            i,
            ring,
            stock.map((_, s) => s),
          ),
        ),
        stock,
        { seed, rules: { cuts, prefer: 'sheets', offcuts } },
      ),
    );

import type { Box } from '../../core/geometry/polygon.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { Size } from './arrange-pages.ts';

/**
 * A box too large for the page, cut into windows that overlap. Frame: the box's own, mm, origin at its lower left.
 * Rows are lettered from the top, columns numbered from the left, as one reads.
 */
export interface Tiling {
  readonly rows: number;
  readonly columns: number;
  readonly tiles: readonly Tile[];
  readonly marks: readonly JoinMark[];
}

export interface Tile {
  /** As `Row A, column 2`. */
  readonly name: string;
  /** What the tile shows. */
  readonly window: Box;
  /** The tile's own part: up to the middle of each overlap, where tiles meet. */
  readonly own: Box;
  /** The lines where it meets its neighbours, over the whole window. */
  readonly trims: readonly (readonly [Vec2, Vec2])[];
}

/** A diamond on a line where two tiles meet, at the same place on both, with a number. */
export interface JoinMark {
  readonly at: Vec2;
  /** Middle to corner, mm. */
  readonly reach: number;
  readonly name: string;
}

interface Span {
  readonly from: number;
  readonly to: number;
  readonly ownFrom: number;
  readonly ownTo: number;
}

const REACH = 2;
/** mm */
const ROOM_FOR_TWO = 25;

export const tileBox = (box: Size, area: Size, overlap: number): Tiling => {
  // On a page hardly larger than the overlap, tiles still have to get on by half a page.
  const shared = Math.min(overlap, area.width / 2, area.height / 2);
  const across = spans(box.width, area.width, shared);
  const down = spans(box.height, area.height, shared).toReversed();
  const tiles = down.flatMap((row, r) =>
    across.map((column, c): Tile => {
      const window = { minX: column.from, maxX: column.to, minY: row.from, maxY: row.to };
      return {
        name: `Row ${String.fromCharCode(65 + r)}, column ${c + 1}`,
        window,
        own: { minX: column.ownFrom, maxX: column.ownTo, minY: row.ownFrom, maxY: row.ownTo },
        trims: [
          ...inner(column).map(
            (x) =>
              [
                [x, window.minY],
                [x, window.maxY],
              ] as const,
          ),
          ...inner(row).map(
            (y) =>
              [
                [window.minX, y],
                [window.maxX, y],
              ] as const,
          ),
        ],
      };
    }),
  );
  return {
    rows: down.length,
    columns: across.length,
    tiles,
    marks: joinMarks(across, down, Math.min(REACH, shared / 2)),
  };
};

/** As few windows as the room allows, all of one length, each sharing the overlap with the next. */
const spans = (length: number, room: number, overlap: number): readonly Span[] => {
  if (length <= room) return [{ from: 0, to: length, ownFrom: 0, ownTo: length }];
  const count = Math.ceil((length - overlap) / (room - overlap));
  const step = (length - overlap) / count;
  return Array.from({ length: count }, (_, i) => ({
    from: i * step,
    to: i === count - 1 ? length : (i + 1) * step + overlap,
    ownFrom: i === 0 ? 0 : i * step + overlap / 2,
    ownTo: i === count - 1 ? length : (i + 1) * step + overlap / 2,
  }));
};

/** The ends of a tile's own part that lie within its window: where a neighbour joins on. */
const inner = ({ from, to, ownFrom, ownTo }: Span): readonly number[] => [
  ...(ownFrom > from ? [ownFrom] : []),
  ...(ownTo < to ? [ownTo] : []),
];

/** Two marks on every side that two tiles share, at a quarter and three quarters of it; on a short one in its middle. */
const joinMarks = (across: readonly Span[], down: readonly Span[], reach: number): readonly JoinMark[] => {
  const quarters = ({ ownFrom, ownTo }: Span): readonly number[] =>
    (ownTo - ownFrom > ROOM_FOR_TWO ? [0.25, 0.75] : [0.5]).map((share) => ownFrom + (ownTo - ownFrom) * share);
  const places: readonly Vec2[] = [
    ...down.flatMap((row) => across.slice(1).flatMap(({ ownFrom: x }) => quarters(row).map((y): Vec2 => [x, y]))),
    ...down
      .slice(0, -1)
      .flatMap(({ ownFrom: y }) => across.flatMap((column) => quarters(column).map((x): Vec2 => [x, y]))),
  ];
  return places.map((at, i) => ({ at, reach, name: String(i + 1) }));
};

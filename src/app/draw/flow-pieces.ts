import type { Vec2 } from '../../core/geometry/vector.ts';

export interface FlowSize {
  readonly width: number;
  readonly height: number;
}

export interface FlowSpace {
  /** Pixels across that may be used. */
  readonly width: number;
  /** Pixels down that are seen without scrolling. */
  readonly height: number;
  /** Pixels kept free round every piece for its measures. */
  readonly room: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  /** The scale never falls below this, pixels per mm, unless the widest piece would not fit across. */
  readonly least: number;
  readonly most: number;
}

export interface Flow {
  /** Pixels per mm; the same for all pieces: true proportions. */
  readonly scale: number;
  /** Upper left corner of each piece's box (without its room), pixels, y down. */
  readonly spots: readonly Vec2[];
  /** Pixels down that the pieces take. */
  readonly height: number;
}

interface Row {
  readonly indices: number[];
  width: number;
  height: number;
}

const rowsAt = (sizes: readonly FlowSize[], space: FlowSpace, scale: number, most: number): readonly Row[] => {
  const { left, right, top, bottom } = space.room;
  const rows: Row[] = [];
  sizes.forEach((size, i) => {
    const width = left + size.width * scale + right;
    const height = top + size.height * scale + bottom;
    const row = rows.at(-1);
    if (row === undefined || row.indices.length === most || row.width + width > space.width + 0.01)
      rows.push({ indices: [i], width, height });
    else {
      row.indices.push(i);
      row.width += width;
      row.height = Math.max(row.height, height);
    }
  });
  return rows;
};

/** Rows as full as the width allows, then evened out: four pieces that need two rows stand two and two. */
const flowAt = (sizes: readonly FlowSize[], space: FlowSpace, scale: number): Flow => {
  const { left, right, bottom } = space.room;
  const full = rowsAt(sizes, space, scale, sizes.length);
  const even = rowsAt(sizes, space, scale, Math.ceil(sizes.length / full.length));
  const rows = even.length === full.length ? even : full;
  const spots: Vec2[] = [];
  let y = 0;
  for (const row of rows) {
    let x = (space.width - row.width) / 2;
    for (const i of row.indices) {
      const size = sizes[i] as FlowSize;
      spots[i] = [x + left, y + row.height - bottom - size.height * scale];
      x += left + size.width * scale + right;
    }
    y += row.height;
  }
  return { scale, spots, height: y };
};

/**
 * Pieces in rows, standing on a common line, in reading order, at one scale: the largest at which all are seen
 * without scrolling, within the limits of the space. Sizes in mm.
 */
export const flowPieces = (sizes: readonly FlowSize[], space: FlowSpace): Flow => {
  const widest = Math.max(...sizes.map((size) => size.width), 1e-3);
  const across = Math.max(1, space.width - space.room.left - space.room.right) / widest;
  const most = Math.min(space.most, across);
  const least = Math.min(space.least, most);
  let low = least;
  let high = most;
  if (flowAt(sizes, space, high).height <= space.height) return flowAt(sizes, space, high);
  // The height grows with the scale but for jumps at row breaks: halving finds a scale that fits if `least` does.
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (flowAt(sizes, space, middle).height <= space.height) low = middle;
    else high = middle;
  }
  return flowAt(sizes, space, low);
};

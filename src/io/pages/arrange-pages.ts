/** A piece's bounding box, mm. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Where a box lies: lower left corner from the area's lower left; turned: a quarter turn counter-clockwise. */
export interface PageSpot {
  readonly page: number;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

interface Shelf {
  readonly page: number;
  /** Upper edge of the shelf, from the top of the area downwards. */
  readonly top: number;
  readonly height: number;
  used: number;
}

/**
 * Boxes on as few pages as rows of them give: highest first, each in the first row that has room, rows from the top of
 * the page down, all standing on the row's lower edge. They stay upright unless turning some of them saves a page.
 *
 * Same boxes, same places. A box too large either way has no place (null): it is tiled.
 */
export const arrangePages = (boxes: readonly Size[], area: Size, gap: number): readonly (PageSpot | null)[] => {
  const upright = fillShelves(boxes, area, gap, false);
  const free = fillShelves(boxes, area, gap, true);
  return pageCount(free) < pageCount(upright) ? free : upright;
};

const pageCount = (spots: readonly (PageSpot | null)[]): number =>
  spots.reduce((count, spot) => (spot === null ? count : Math.max(count, spot.page + 1)), 0);

const fits = (box: Size, area: Size): boolean => box.width <= area.width && box.height <= area.height;

export const turnSize = ({ width, height }: Size): Size => ({ width: height, height: width });

const fillShelves = (
  boxes: readonly Size[],
  area: Size,
  gap: number,
  mayTurn: boolean,
): readonly (PageSpot | null)[] => {
  const shelves: Shelf[] = [];
  const spots: (PageSpot | null)[] = boxes.map(() => null);
  const place = (index: number, shelf: Shelf, size: Size, turned: boolean): void => {
    spots[index] = { page: shelf.page, x: shelf.used, y: area.height - shelf.top - shelf.height, turned };
    shelf.used += size.width + gap;
  };
  for (const index of byHeight(boxes)) {
    const box = boxes[index] as Size;
    const ways = [
      ...(fits(box, area) ? [{ size: box, turned: false }] : []),
      ...((mayTurn || !fits(box, area)) && fits(turnSize(box), area) ? [{ size: turnSize(box), turned: true }] : []),
    ];
    const found = ways
      .flatMap((way) => shelves.filter((shelf) => hasRoom(shelf, way.size, area)).map((shelf) => ({ shelf, way })))
      .at(0);
    const first = ways[0];
    if (found !== undefined) place(index, found.shelf, found.way.size, found.way.turned);
    else if (first !== undefined) {
      const shelf = openShelf(shelves, first.size, area, gap);
      shelves.push(shelf);
      place(index, shelf, first.size, first.turned);
    }
  }
  return spots;
};

const byHeight = (boxes: readonly Size[]): readonly number[] =>
  boxes
    .map((box, index) => ({ box, index }))
    .sort((a, b) => b.box.height - a.box.height || a.index - b.index)
    .map(({ index }) => index);

const hasRoom = (shelf: Shelf, size: Size, area: Size): boolean =>
  size.height <= shelf.height && shelf.used + size.width <= area.width;

/** Under the lowest shelf of the last page, or at the top of a new one. */
const openShelf = (shelves: readonly Shelf[], { height }: Size, area: Size, gap: number): Shelf => {
  const last = shelves.at(-1);
  if (last === undefined) return { page: 0, top: 0, height, used: 0 };
  const top = last.top + last.height + gap;
  return top + height <= area.height
    ? { page: last.page, top, height, used: 0 }
    : { page: last.page + 1, top: 0, height, used: 0 };
};

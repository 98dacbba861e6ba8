import type { Box } from './boxes.ts';

/** A box on its page: from the left end of the room, and from its top down, mm. */
export interface PlacedBox {
  readonly box: Box;
  readonly x: number;
  readonly y: number;
}

/** Between two columns, mm. */
const GUTTER = 8;

/** Under this, columns do not begin on what is left of a page, mm. */
const LEAST = 40;

export const columnWidth = (width: number): number => (width - GUTTER) / 2;

/** Boxes that stand together. */
interface Unit {
  readonly boxes: readonly Box[];
  readonly height: number;
  readonly isColumn: boolean;
}

/**
 * Boxes on pages, in order; what stays with its next one goes over with it. Boxes of columns run down the left column, then down
 * the right one; where they end, both columns are about as high.
 */
export function paginate(
  boxes: readonly Box[],
  { width, height: room }: { readonly width: number; readonly height: number },
): readonly (readonly PlacedBox[])[] {
  const units = unitsOf(boxes);
  const pages: PlacedBox[][] = [[]];
  let y = 0;
  const turn = (): void => {
    pages.push([]);
    y = 0;
  };
  for (let i = 0; i < units.length; ) {
    const unit = units[i] as Unit;
    if (!unit.isColumn) {
      const next = unit.boxes.at(-1)?.staysWithNext ? beginning(runFrom(units, i + 1)) : 0;
      if (y > 0 && (y + unit.height + next > room || unit.boxes[0]?.startsPage)) turn();
      y = put(pages.at(-1) ?? [], unit.boxes, 0, y);
      i++;
      continue;
    }
    let rest = runFrom(units, i);
    i += rest.length;
    while (rest.length > 0) {
      if (y > 0 && room - y < beginning(rest)) turn();
      const [left, right] = columns(rest, room - y);
      const page = pages.at(-1) ?? [];
      const ends = [left, right].map((own, c) => {
        const column = own.flatMap((one) => one.boxes);
        return put(page, column, c * (columnWidth(width) + GUTTER), y);
      });
      rest = rest.slice(left.length + right.length);
      if (rest.length > 0) turn();
      else y = Math.max(...ends);
    }
  }
  return pages;
}

/** A unit over the whole width by itself, or all the units of columns from here on. */
function runFrom(units: readonly Unit[], from: number): readonly Unit[] {
  if (!units[from]?.isColumn) return units.slice(from, from + 1);
  const end = units.findIndex(({ isColumn }, k) => k > from && !isColumn);
  return units.slice(from, end < 0 ? units.length : end);
}

/** How much room a run of units needs at the foot of a page to begin there, mm. */
const beginning = (run: readonly Unit[]): number => {
  const [first] = run;
  if (!first?.isColumn) return first?.height ?? 0;
  return Math.max(first.height, Math.min(LEAST, total(run) / 2));
};

/** Puts boxes below each other; returns where they end. */
function put(page: PlacedBox[], boxes: readonly Box[], x: number, top: number): number {
  let y = top;
  for (const box of boxes) {
    page.push({ box, x, y });
    y += box.height;
  }
  return y;
}

function unitsOf(boxes: readonly Box[]): readonly Unit[] {
  const groups: Box[][] = [];
  boxes.forEach((box, i) => {
    const before = boxes[i - 1];
    const last = groups.at(-1);
    if (last && before?.staysWithNext && isColumn(before) === isColumn(box)) last.push(box);
    else groups.push([box]);
  });
  return groups.map((own) => ({
    boxes: own,
    height: own.reduce((sum, { height }) => sum + height, 0),
    isColumn: own.some(isColumn),
  }));
}

const isColumn = ({ isOfColumn }: Box): boolean => isOfColumn ?? false;

const total = (units: readonly Unit[]): number => units.reduce((sum, { height }) => sum + height, 0);

/** What goes into two columns of a height: all of it, both about as high, where there is room. */
function columns(units: readonly Unit[], room: number): readonly [readonly Unit[], readonly Unit[]] {
  const fill = (height: number): readonly [readonly Unit[], readonly Unit[]] => {
    const left = column(units, height);
    return [left, column(units.slice(left.length), height)];
  };
  for (let height = total(units) / 2; height < room; height++) {
    const [left, right] = fill(height);
    if (left.length + right.length === units.length) return [left, right];
  }
  const [left, right] = fill(room);
  return left.length > 0 ? [left, right] : [units.slice(0, 1), []];
}

function column(units: readonly Unit[], height: number): readonly Unit[] {
  let y = 0;
  const end = units.findIndex((unit) => {
    y += unit.height;
    return y > height;
  });
  return end < 0 ? units : units.slice(0, end);
}

import type { Box } from './boxes.ts';

/** A box on its page: from the left end of the room, and from its top down, mm. */
export interface PlacedBox {
  readonly box: Box;
  readonly x: number;
  readonly y: number;
}

/** Between two columns, mm. */
const GUTTER = 8;

/** Above columns, mm. */
const ABOVE = 2;

/** Under this, columns do not begin on what is left of a page, mm. */
const LEAST = 20;

/** So much higher, mm, columns may be that keep a group in one of them. */
const SPARE = 20;

export const columnWidth = (width: number): number => (width - GUTTER) / 2;

/** Boxes that stand together. */
interface Unit {
  readonly boxes: readonly Box[];
  readonly height: number;
  readonly isColumn: boolean;
  /** It stands on the page of the next unit. */
  readonly keepsPage: boolean;
}

/**
 * Boxes on pages, in order; what stays with its next one goes over with it. Boxes of columns run down the left column, then down
 * the right one; where they end, both columns are about as high. What keeps its page may go on from the left column to the right.
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
    if (isAir(unit)) {
      y += unit.height;
      i++;
      continue;
    }
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
      if (y > 0) y += ABOVE;
      const [left, right] = columns(rest, room - y);
      const page = pages.at(-1) ?? [];
      const ends = [left, right].map((own, c) => {
        const column = own.flatMap((one) => one.boxes);
        return put(page, column, c * (columnWidth(width) + GUTTER), y);
      });
      rest = rest.slice(left.length + right.length);
      if (rest.every(isAir)) rest = [];
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
  const group = groupsIn(run)[0] ?? [];
  const least = group.length > 1 ? balance(singly(group)).height : Math.min(LEAST, total(run) / 2);
  return ABOVE + Math.max(first.height, least);
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
    keepsPage: own.at(-1)?.keepsPage ?? false,
  }));
}

const isAir = ({ boxes }: Unit): boolean => boxes.every((box) => box.isAir);

const isColumn = ({ isOfColumn }: Box): boolean => isOfColumn ?? false;

const total = (units: readonly Unit[]): number => units.reduce((sum, { height }) => sum + height, 0);

/** Units that stand on one page each. */
function groupsIn(units: readonly Unit[]): readonly (readonly Unit[])[] {
  const groups: Unit[][] = [];
  units.forEach((unit, i) => {
    if (i > 0 && units[i - 1]?.keepsPage) groups.at(-1)?.push(unit);
    else groups.push([unit]);
  });
  return groups;
}

type Columns = readonly [left: readonly Unit[], right: readonly Unit[]];

/** What goes into two columns of a height: all of it, both about as high, where there is room; else whole groups, if one has room. */
function columns(units: readonly Unit[], room: number): Columns {
  const groups = groupsIn(units);
  const loose = balance(singly(units));
  const whole = balance(groups);
  if (loose.height <= room) {
    const isWhole = groups.length > 1 && whole.height <= Math.min(room, loose.height + SPARE);
    return isWhole ? whole.columns : loose.columns;
  }
  const [left, right] = fill(singly(units), room);
  if (left.length === 0) return [units.slice(0, 1), []];
  const ends = groups.map((_, g) => groups.slice(0, g + 1).flat().length);
  const end = ends.filter((count) => count <= left.length + right.length).at(-1);
  return end === undefined ? [left, right] : fill(singly(units.slice(0, end)), room);
}

/** All units in two columns, both about as high; no group goes over from one to the other. */
function balance(groups: readonly (readonly Unit[])[]): { readonly height: number; readonly columns: Columns } {
  const count = groups.flat().length;
  for (let height = total(groups.flat()) / 2; ; height++) {
    const [left, right] = fill(groups, height);
    if (left.length + right.length === count) return { height, columns: [left, right] };
  }
}

const singly = (units: readonly Unit[]): readonly (readonly Unit[])[] => units.map((unit) => [unit]);

const fill = (groups: readonly (readonly Unit[])[], height: number): Columns => {
  const left = column(groups, height);
  return [left.flat(), column(groups.slice(left.length), height).flat()];
};

function column(groups: readonly (readonly Unit[])[], height: number): readonly (readonly Unit[])[] {
  let y = 0;
  const end = groups.findIndex((own) => {
    y += total(own);
    return y > height;
  });
  return end < 0 ? groups : groups.slice(0, end);
}

import { type Box, boxOf } from '../../core/geometry/polygon.ts';
import type { Vec2, Vec3 } from '../../core/geometry/vector.ts';
import type { LaidSheet } from '../../core/layout/layout.ts';
import type { Net } from '../../core/net/net.ts';
import type { Body } from '../../core/project/project.ts';
import type { Units } from '../../core/units/units.ts';
import { engraveRule, type RuleScale } from './rule-ticks.ts';

/** What lies where on the table. Frame: the table, mm; the body is centred on the origin, the front is south. */
export interface Desk {
  /** mm on the table that one picture point covers in plan: sizes of lettering and lines follow it. */
  readonly point: number;
  /** Everything to be seen in plan: body and net or sheets, measures, rule. */
  readonly frame: Box;
  readonly rule: {
    readonly zero: number;
    /** y of the engraved edge, and how broad the rule is southwards from it. */
    readonly edge: number;
    readonly breadth: number;
    readonly scale: RuleScale;
  };
  /** y of the table's front edge. */
  readonly front: number;
  /** Lower left corner of every sheet that lies on the table. */
  readonly sheets: readonly Vec2[];
  /** Middle of the place of what stands beside the sheets. */
  readonly beside: Vec2;
}

export interface Picture {
  readonly width: number;
  readonly height: number;
}

/** Room between sheets for their captions in two lines, picture points. */
const CAPTION = 44;

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

export const corners = ({ minX, minY, maxX, maxY }: Box, z = 0): readonly Vec3[] => [
  [minX, minY, z],
  [maxX, minY, z],
  [maxX, maxY, z],
  [minX, maxY, z],
];

export const joinBoxes = (boxes: readonly Box[]): Box => ({
  minX: Math.min(...boxes.map((box) => box.minX)),
  minY: Math.min(...boxes.map((box) => box.minY)),
  maxX: Math.max(...boxes.map((box) => box.maxX)),
  maxY: Math.max(...boxes.map((box) => box.maxY)),
});

/** A net that lies on the table, and where each of its pieces does. */
export interface NetOnTable {
  readonly net: Net;
  readonly spots: readonly Vec2[];
}

/** Where the flat nets lie; null where there are none. */
const netBox = (nets: readonly NetOnTable[]): Box | null => {
  const points = nets.flatMap(({ net, spots }) =>
    net.pieces.flatMap((piece, i) => {
      const [x, y] = spots[i] ?? [0, 0];
      return piece.outline.map((p): Vec2 => [p[0] + x, p[1] + y]);
    }),
  );
  return points.length === 0 ? null : boxOf(points);
};

/**
 * Sheets in rows from the top left, as many to a row as fill a picture of this aspect best.
 * Returns lower left corners relative to the lower left corner of the whole, and its size.
 */
export const gridSheets = (
  sizes: readonly { readonly width: number; readonly height: number }[],
  aspect: number,
  gap: number,
): { readonly corners: readonly Vec2[]; readonly width: number; readonly height: number } => {
  const arrange = (columns: number) => {
    const rows: number[][] = [];
    sizes.forEach((_, i) => {
      if (i % columns === 0) rows.push([]);
      rows.at(-1)?.push(i);
    });
    const widths = rows.map((row) => row.reduce((sum, i) => sum + (sizes[i]?.width ?? 0) + gap, -gap));
    const heights = rows.map((row) => Math.max(...row.map((i) => sizes[i]?.height ?? 0)));
    const height = heights.reduce((sum, h) => sum + h + gap, -gap);
    const places: Vec2[] = [];
    let top = height;
    rows.forEach((row, r) => {
      let x = 0;
      for (const i of row) {
        places[i] = [x, top - (sizes[i]?.height ?? 0)];
        x += (sizes[i]?.width ?? 0) + gap;
      }
      top -= (heights[r] ?? 0) + gap;
    });
    return { corners: places, width: Math.max(...widths), height };
  };
  if (sizes.length === 0) return { corners: [], width: 0, height: 0 };
  const options = sizes.map((_, i) => arrange(i + 1));
  const need = (o: { width: number; height: number }): number => Math.max(o.width / aspect, o.height);
  return options.reduce((best, option) => (need(option) < need(best) - 1e-9 ? option : best));
};

/** Sheets are not moved further apart than this share of their longer side: where there are many, what is said of each is short. */
const MOST_APART = 0.8;

/**
 * The same with room of so many picture points between the sheets, for their captions.
 *
 * @param room picture points
 * @param scaleOf mm that a picture point covers where all of this size is to be seen
 */
export const gridWithRoom = (
  sizes: readonly { readonly width: number; readonly height: number }[],
  aspect: number,
  room: number,
  scaleOf: (width: number, height: number) => number,
): ReturnType<typeof gridSheets> => {
  const side = Math.max(0, ...sizes.map(({ width, height }) => Math.max(width, height)));
  let grid = gridSheets(sizes, aspect, 0);
  // The further apart they lie, the smaller is the picture, and the further apart they have to lie.
  for (let i = 0; i < 12; i++) {
    const gap = Math.min(room * scaleOf(grid.width, grid.height), MOST_APART * side);
    grid = gridSheets(sizes, aspect, gap);
  }
  return grid;
};

export interface OnTheDesk {
  readonly nets: readonly NetOnTable[];
  readonly body: Body | null;
  /** The sheets that lie on the table instead of the net; empty: the net lies there. */
  readonly sheets: readonly Pick<LaidSheet, 'width' | 'height'>[];
  /** Half the room that something takes which stands beside the sheets, mm; 0: nothing does. */
  readonly beside?: number;
  readonly units: Units;
  readonly picture: Picture;
  /** Sheets lie right against the rule, to be measured. */
  readonly isClose: boolean;
}

const baseBox: Box = { minX: -40, minY: -40, maxX: 40, maxY: 40 };

/** mm per picture point for work of this size, with room for measures, rule and edges. */
const scaleFor = (width: number, height: number, picture: Picture): number =>
  clamp(Math.max(width / Math.max(120, picture.width - 72), height / Math.max(120, picture.height - 150)), 0.08, 4);

/** Plans the table for one roof, or for its sheets, in one picture size. */
export const planDesk = ({ nets, body, sheets, beside = 0, units, picture, isClose }: OnTheDesk): Desk => {
  const aspect = picture.width / Math.max(1, picture.height - 110);
  const lying = beside > 0 ? [...sheets, { width: 2 * beside, height: 2 * beside }] : sheets;
  const grid = gridWithRoom(lying, aspect, CAPTION, (width, height) => scaleFor(width, height, picture));
  const found = [netBox(nets), body === null ? null : boxOf(body.outline)].filter((box) => box !== null);
  const table = found.length === 0 ? baseBox : joinBoxes(found);
  const work: Box =
    sheets.length === 0 ? table : { minX: -grid.width / 2, minY: 0, maxX: grid.width / 2, maxY: grid.height };
  const point = scaleFor(work.maxX - work.minX, work.maxY - work.minY, picture);
  const breadth = clamp(34 * point, 9, 60);
  // A tall picture: the spare height goes to the table, most of it behind the work, so that no room is lost below.
  const spare = Math.max(0, (picture.height - 150) * point - (work.maxY - work.minY));
  const edge = work.minY - (isClose ? 0.6 : 46 * point + spare * 0.35);
  const front = edge - breadth - 7 * point;
  const zero = work.minX;
  const onTable = grid.corners.map(([x, y]): Vec2 => [zero + x, work.minY + y]);
  return {
    point,
    front,
    frame: {
      minX: work.minX - 8 * point,
      minY: front - 4 * point,
      maxX: work.maxX + 8 * point,
      maxY: work.maxY + (isClose ? CAPTION : 6) * point + spare * (isClose ? 0 : 0.6),
    },
    rule: { zero, edge, breadth, scale: engraveRule(units, work.maxX - zero, 30 * point) },
    sheets: onTable.slice(0, sheets.length),
    beside: [(onTable[sheets.length]?.[0] ?? 0) + beside, (onTable[sheets.length]?.[1] ?? 0) + beside],
  };
};

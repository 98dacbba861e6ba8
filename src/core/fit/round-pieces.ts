import { PointIndex } from '../geometry/point-index.ts';
import { type Box, boxOf } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Net, NetPoint, Piece } from '../net/net.ts';
import { SNAP_MM } from '../tolerance.ts';
import { type Ruler, rulerStep } from '../units/units.ts';
import { type Fan, fanClass, fanOf, hungCorners, isOnMarks } from './fan.ts';
import { matchSeams, type SeamTerm } from './match-seams.ts';
import { gridClass, type PieceClass } from './piece-class.ts';
import { type AxisPlace, ruleAxis } from './round-axis.ts';

/** A piece with its corners on the marks of a ruler. */
export interface RoundedPiece {
  /** Where the mark (0, 0) lies on the piece, mm: the lower left corner of the box round its rounded panels. */
  readonly origin: NetPoint;
  /**
   * Marks of a corner or of an end of a seam or a glue line, steps of the ruler to the right and up from the origin: whole ones,
   * but round a fan's apex, where radii and chords are whole.
   */
  readonly marks: (point: NetPoint) => Vec2;
  /** How many steps wide and high its panels are. */
  readonly size: Vec2;
  /** It is the same on both sides of its upright middle line, and so are its marks. */
  readonly isSymmetric: boolean;
  /** Slopes round one peak, set out by compass; true corners, mm. Null where it is none. */
  readonly fan: Fan | null;
}

interface Sorted {
  readonly known: PieceClass;
  readonly isSymmetric: readonly [boolean, boolean];
  readonly fan: Fan | null;
  readonly points: readonly Vec2[];
  readonly box: Box;
  readonly isMirrored: boolean;
}

/** Over so many points in all, pieces are rounded each by itself: seams are then too many to be matched in passing. */
const MOST_POINTS = 1500;

/**
 * Every piece of a net on the marks of a ruler. A piece that is the same on both sides of a middle stays so; pieces that are
 * the same get the same marks. Then corners are moved by a mark, no further than one step off their true place, where that
 * brings the two sides of a seam nearer to one length.
 */
export function roundPieces(net: Net, ruler: Ruler): readonly RoundedPiece[] {
  const own = known.get(net) ?? new Map<Ruler, readonly RoundedPiece[]>();
  known.set(net, own);
  const pieces = own.get(ruler) ?? roundAll(net, ruler);
  own.set(ruler, pieces);
  return pieces;
}

/** Fit and set-out ask for the same again and again. */
const known = new WeakMap<Net, Map<Ruler, readonly RoundedPiece[]>>();

function roundAll(net: Net, ruler: Ruler): readonly RoundedPiece[] {
  const points = net.pieces.map((piece, p) => pointsOf(net, piece, p));
  const classes = new Map<string, PieceClass>();
  const sorted = net.pieces.map((piece, p): Sorted => {
    const own = points[p] as readonly Vec2[];
    const box = boxOf(cornersOf(piece));
    const [plain, turned] = [signature(own, box, false), signature(own, box, true)];
    const isMirrored = turned < plain;
    // Lines inside a fan would have to follow its radii.
    const found = fanOf(piece);
    const fan =
      found && isOnMarks(found, rulerStep(ruler)) && own.length === found.rim.length + 1 + hungCorners(found).length
        ? found
        : null;
    const key = `${fan ? 'fan ' : ''}${isMirrored ? turned : plain}`;
    const known =
      classes.get(key) ??
      (fan ? ruleFan(fan, own, { box, isMirrored }, ruler) : ruleClass(piece, own, box, isMirrored, ruler));
    classes.set(key, known);
    return { known, points: own, box, isMirrored, fan, isSymmetric: fan ? [false, false] : symmetry(piece, box) };
  });
  if (points.reduce((sum, own) => sum + own.length, 0) <= MOST_POINTS) {
    matchSeams([...classes.values()], seamTerms(net, sorted));
  }
  const step = rulerStep(ruler);
  return sorted.map((one) => roundedPiece(one, step));
}

/** The corners that say how large a piece is: of its panels; of a board its outline, of a strip its line. */
const cornersOf = ({ panels, board, outline, strip, flaps }: Piece): readonly Vec2[] => {
  const [half] = flaps;
  if (strip && half) return [half.polygon[0] as Vec2, half.polygon[half.base] as Vec2];
  return board ? outline : panels.flatMap(({ polygon }) => polygon);
};

/** All points that get marks, in an order that pieces of one shape share. */
function pointsOf(net: Net, piece: Piece, index: number): readonly Vec2[] {
  const ends = [
    ...net.seams.flatMap(({ sides }) => sides.filter((side) => side.piece === index).flatMap((side) => side.ends)),
    ...piece.glueLines.flatMap((line) => line.ends),
  ];
  const all = [...cornersOf(piece), ...piece.panels.flatMap(({ polygon }) => polygon), ...ends];
  const index2 = new PointIndex(all);
  return all.filter((p, i) => index2.find(p) === i);
}

const snap = (mm: number): number => Math.round(mm / SNAP_MM) * SNAP_MM;

const placed = (points: readonly Vec2[], box: Box, isMirrored: boolean): readonly Vec2[] =>
  points.map(([x, y]): Vec2 => [snap(isMirrored ? box.maxX - x : x - box.minX), snap(y - box.minY)]);

const inOrder = (points: readonly Vec2[]): readonly number[] =>
  points
    .map((_, i) => i)
    .sort((a, b) => {
      const [p, q] = [points[a] as Vec2, points[b] as Vec2];
      return p[0] - q[0] || p[1] - q[1];
    });

/** A text that congruent pieces share. */
function signature(points: readonly Vec2[], box: Box, isMirrored: boolean): string {
  const own = placed(points, box, isMirrored);
  return inOrder(own)
    .map((i) => own[i]?.map((mm) => mm.toFixed(4)).join())
    .join(' ');
}

function ruleClass(piece: Piece, points: readonly Vec2[], box: Box, isMirrored: boolean, ruler: Ruler): PieceClass {
  const symmetric = symmetry(piece, box);
  const offsets = (axis: 0 | 1, isSymmetric: boolean): readonly number[] => {
    const [low, high] = axis === 0 ? [box.minX, box.maxX] : [box.minY, box.maxY];
    const origin = isSymmetric ? (low + high) / 2 : isMirrored && axis === 0 ? high : low;
    const way = isMirrored && axis === 0 ? -1 : 1;
    return points.map((p) => way * (p[axis] - origin));
  };
  const [across, up] = ([0, 1] as const).map((axis) =>
    ruleAxis(offsets(axis, symmetric[axis]), symmetric[axis], ruler),
  ) as [ReturnType<typeof ruleAxis>, ReturnType<typeof ruleAxis>];
  const order = inOrder(placed(points, box, isMirrored));
  return gridClass(
    [across.axis, up.axis],
    order.map((i) => [across.places[i] as AxisPlace, up.places[i] as AxisPlace] as const),
  );
}

/** A fan in the frame that pieces of its shape share. */
function ruleFan(
  { apex, rim, hung }: Fan,
  points: readonly Vec2[],
  { box, isMirrored }: Pick<Sorted, 'box' | 'isMirrored'>,
  ruler: Ruler,
): PieceClass {
  const seen = ([x, y]: Vec2): Vec2 => [isMirrored ? box.maxX - x : x - box.minX, y - box.minY];
  const order = inOrder(placed(points, box, isMirrored));
  return fanClass(
    {
      apex: seen(apex),
      rim: rim.map(seen),
      hung: hung.map(({ foot, corners }) => ({ foot, corners: corners.map(seen) })),
    },
    order.map((i) => seen(points[i] as Vec2)),
    ruler,
  );
}

/** Whether a piece is the same on both sides of its upright and of its level middle line. */
const symmetry = (piece: Piece, box: Box): readonly [boolean, boolean] => {
  const corners = cornersOf(piece);
  return [mirrors(corners, box, 0), mirrors(corners, box, 1)];
};

/** Over so many corners nobody looks whether a piece is the same on both sides. */
const MOST_CORNERS = 2000;

/** Whether corners are the same on both sides of the middle of their box. */
function mirrors(corners: readonly Vec2[], box: Box, axis: 0 | 1): boolean {
  if (corners.length > MOST_CORNERS) return false;
  const sum = axis === 0 ? box.minX + box.maxX : box.minY + box.maxY;
  const index = new PointIndex(corners);
  return corners.every(([x, y]) => index.find(axis === 0 ? [sum - x, y] : [x, sum - y]) !== undefined);
}

/** The seams whose two sides are both drawn on pieces of this net, by the points of their classes. */
function seamTerms(net: Net, sorted: readonly Sorted[]): readonly SeamTerm[] {
  const finders = sorted.map(({ points, box, isMirrored }) => {
    const ranks = new Map(inOrder(placed(points, box, isMirrored)).map((i, rank) => [i, rank] as const));
    const index = new PointIndex(points);
    return (p: Vec2): number => ranks.get(index.find(p) ?? -1) ?? -1;
  });
  return net.seams.flatMap(({ sides }): SeamTerm[] => {
    if (sides.some(({ piece, curve }) => piece < 0 || curve)) return [];
    const [a, b] = sides.map(({ piece, ends }) => {
      const find = finders[piece] as (p: Vec2) => number;
      return { of: (sorted[piece] as Sorted).known, ends: [find(ends[0]), find(ends[1])] as const };
    });
    return a && b ? [{ sides: [a, b] }] : [];
  });
}

function roundedPiece(sorted: Sorted, step: number): RoundedPiece {
  const { known, points, box, isMirrored, isSymmetric, fan } = sorted;
  const order = inOrder(placed(points, box, isMirrored));
  const counts: Vec2[] = [];
  order.forEach((i, rank) => {
    const [x, y] = known.place(rank);
    counts[i] = [isMirrored ? -x : x, y];
  });
  // The outside of a board reaches out over its cut, and lines of walls may too.
  const isCorner = points.map(
    ([x, y]) =>
      x >= box.minX - SNAP_MM && x <= box.maxX + SNAP_MM && y >= box.minY - SNAP_MM && y <= box.maxY + SNAP_MM,
  );
  const around = boxOf(counts.filter((_, i) => isCorner[i]));
  const size: Vec2 = [around.maxX - around.minX, around.maxY - around.minY];
  const index = new PointIndex(points);
  return {
    origin: fan
      ? [(isMirrored ? box.maxX : box.minX) + around.minX * step, box.minY + around.minY * step]
      : originOf(sorted, size, step),
    size,
    isSymmetric: isSymmetric[0],
    fan,
    marks: (point) => {
      const i = index.find(point);
      if (i === undefined) throw new Error(`no corner of the piece at ${point.join(', ')}`);
      const [x, y] = counts[i] as Vec2;
      return [x - around.minX, y - around.minY];
    },
  };
}

/** What rounding adds to a piece on a grid goes to both sides of a middle, else to its far side. */
function originOf({ box, isMirrored, isSymmetric }: Sorted, size: Vec2, step: number): NetPoint {
  const spare = [box.maxX - box.minX - size[0] * step, box.maxY - box.minY - size[1] * step] as const;
  const x = isSymmetric[0] ? box.minX + spare[0] / 2 : isMirrored ? box.minX + spare[0] : box.minX;
  return [x, isSymmetric[1] ? box.minY + spare[1] / 2 : box.minY];
}

import { apply2, type Rigid2 } from '../geometry/rigid2.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Net, SeamSide } from '../net/net.ts';
import type { Solid } from '../solid/solid.ts';
import type { LaidSheet, Placement } from './layout.ts';
import { placementMotion } from './placed.ts';

/** How a print repeats along one axis of its sheet. */
export interface PrintAxis {
  /** mm */
  readonly period: number;
  /** It looks the same turned over about 0 and about half a period: stripes, checks. Courses have an up. */
  readonly isEven: boolean;
}

/**
 * What of a print the eye follows over a seam. Frame: the sheet, mm, origin at its lower left. An axis along which nothing can be
 * followed (a stripe's own direction, slates of uneven width) is null.
 */
export interface PrintRepeat {
  readonly x: PrintAxis | null;
  readonly y: PrintAxis | null;
  /** A quarter turn about the origin leaves it as it is: checks. */
  readonly isSquare: boolean;
}

/**
 * `runs-on`: as if the paper were folded there and not cut. `meets`: line meets line all along the seam, at an angle or mirrored, as
 * stripes do at a hip. `breaks`: neither.
 */
export type SeamRun = 'runs-on' | 'meets' | 'breaks';

/** One side of a seam: the points along it, and the motion that lays its piece on the sheet. */
export interface SeamOnSheet {
  readonly path: readonly Vec2[];
  readonly motion: Rigid2;
}

export interface PrintMatch {
  readonly run: SeamRun;
  /** Farthest that lines which should meet are apart along the seam, mm. */
  readonly off: number;
}

/** Lines of a print that are not farther apart than this look joined, mm: what a careful hand cuts and glues to. */
export const SEEN_MM = 0.5;

type Axis = 0 | 1;
const axes: readonly Axis[] = [0, 1];

/** How far a - b is from whole periods anywhere along the way, mm; half a period where the lines do not run alike. */
function apart(a: readonly number[], b: readonly number[], period: number): number {
  const between = a.map((value, i) => value - (b[i] ?? 0));
  const mean = between.reduce((sum, value) => sum + value, 0) / between.length;
  const whole = Math.round(mean / period) * period;
  return Math.min(period / 2, Math.max(...between.map((value) => Math.abs(value - whole))));
}

/** Counter-clockwise by so many quarters. */
const quarter = ([x, y]: Vec2, turns: number): Vec2 => {
  const turned: readonly Vec2[] = [
    [x, y],
    [-y, x],
    [-x, -y],
    [y, -x],
  ];
  return turned[turns] as Vec2;
};

/** Farthest that the paper of one side, turned by so many quarters, is from going on straight into the other, mm. */
function offRunningOn(a: readonly Vec2[], b: readonly Vec2[], turns: number, repeat: PrintRepeat): number {
  const turned = b.map((p) => quarter(p, turns));
  const [a0, b0] = [a[0] as Vec2, turned[0] as Vec2];
  const bent = Math.max(
    ...a.map((p, i) => {
      const q = turned[i] as Vec2;
      return Math.hypot(p[0] - a0[0] - (q[0] - b0[0]), p[1] - a0[1] - (q[1] - b0[1]));
    }),
  );
  return Math.max(bent, ...axes.map((axis) => offAlong(a, turned, [axis, axis], repeat, 1)));
}

function offAlong(
  a: readonly Vec2[],
  b: readonly Vec2[],
  [axisA, axisB]: readonly [Axis, Axis],
  repeat: PrintRepeat,
  sign: 1 | -1,
): number {
  const axis = axisA === 0 ? repeat.x : repeat.y;
  if (axis === null) return 0;
  return apart(
    a.map((p) => p[axisA]),
    b.map((p) => sign * p[axisB]),
    axis.period,
  );
}

/** Farthest that the lines of both sides miss each other along the seam, mm. */
function offMeeting(a: readonly Vec2[], b: readonly Vec2[], repeat: PrintRepeat): number {
  const either = (axisA: Axis, axisB: Axis): number => {
    const straight = offAlong(a, b, [axisA, axisB], repeat, 1);
    const isEven = (axisA === 0 ? repeat.x : repeat.y)?.isEven ?? false;
    return isEven ? Math.min(straight, offAlong(a, b, [axisA, axisB], repeat, -1)) : straight;
  };
  const upright = Math.max(either(0, 0), either(1, 1));
  return repeat.isSquare ? Math.min(upright, Math.max(either(0, 1), either(1, 0))) : upright;
}

/**
 * Whether a print runs on over a seam. Both paths go the same way and have the same number of points. Null for a print in which
 * nothing can be followed.
 */
export function matchPrint(
  [first, second]: readonly [SeamOnSheet, SeamOnSheet],
  repeat: PrintRepeat,
  tolerance: number = SEEN_MM,
): PrintMatch | null {
  if (repeat.x === null && repeat.y === null) return null;
  const a = first.path.map((p) => apply2(first.motion, p));
  const b = second.path.map((p) => apply2(second.motion, p));
  const isEven = (repeat.x?.isEven ?? true) && (repeat.y?.isEven ?? true);
  const turns = [0, ...(isEven ? [2] : []), ...(isEven && repeat.isSquare ? [1, 3] : [])];
  const off = Math.min(...turns.map((turn) => offRunningOn(a, b, turn, repeat)));
  if (off <= tolerance) return { run: 'runs-on', off };
  const met = offMeeting(a, b, repeat);
  return { run: met <= tolerance ? 'meets' : 'breaks', off: met };
}

/** How a print goes over one seam of a net. */
export interface SeamMatch {
  /** Index into `solid.edges`. */
  readonly edge: number;
  readonly mark: string;
  readonly run: SeamRun;
  /** As in `PrintMatch`; null where the sides are of different papers, which always breaks. */
  readonly off: number | null;
}

/**
 * The same points along both sides, from the first end of the edge to the second. A panel's own side goes against that on its second
 * panel; on the host of an abutment, which has the ends of a curve alone, it goes with it.
 */
function pathsOf([a, b]: readonly [SeamSide, SeamSide], isAbutment: boolean): [readonly Vec2[], readonly Vec2[]] {
  const hasCurve = a.curve && a.curve.length === b.curve?.length;
  const [one, other] = hasCurve && b.curve ? [a.curve, b.curve] : [a.ends, b.ends];
  return [one, isAbutment ? other : other.toReversed()];
}

/** Which layer of which copy of a roof is meant; indices as in `PieceKey`. */
export interface LaidLayer {
  readonly roof: number;
  readonly layer: number;
  readonly copy: number;
}

/**
 * Every seam of a layer whose both sides are laid on paper with something to follow. `repeatOf`: the print of a stock, by its index;
 * null for plain paper. Sides on different papers break.
 */
export function matchSeams(
  { edges }: Pick<Solid, 'edges'>,
  net: Net,
  { roof, layer, copy }: LaidLayer,
  sheets: readonly LaidSheet[],
  repeatOf: (stock: number) => PrintRepeat | null,
): readonly SeamMatch[] {
  const laid = new Map<number, { readonly stock: number; readonly placement: Placement }>();
  for (const { stock, placements } of sheets)
    for (const placement of placements)
      if (placement.roof === roof && placement.layer === layer && placement.copy === copy)
        laid.set(placement.piece, { stock, placement });
  return net.seams.flatMap(({ edge, mark, sides }): SeamMatch[] => {
    const [one, other] = sides;
    const [a, b] = [laid.get(one.piece), laid.get(other.piece)];
    if (!a || !b) return [];
    const repeat = repeatOf(a.stock);
    if (a.stock !== b.stock) return repeat || repeatOf(b.stock) ? [{ edge, mark, run: 'breaks', off: null }] : [];
    const [path, otherPath] = pathsOf(sides, edges[edge]?.role === 'abutment');
    const match =
      repeat &&
      matchPrint(
        [
          { path, motion: placementMotion(a.placement) },
          { path: otherPath, motion: placementMotion(b.placement) },
        ],
        repeat,
      );
    return match ? [{ edge, mark, ...match }] : [];
  });
}

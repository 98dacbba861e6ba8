import { at, boxOf } from '../../core/geometry/polygon.ts';
import { add2, cross2, lerp2, scale2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import { isSameAngle } from '../../core/tolerance.ts';

/**
 * A plan while it is drawn: the outline first, then its courts, every ring counter-clockwise and not closed. mm as typed,
 * in the frame of the typed corners. A point that an edit leaves alone keeps its figures, so that its text can stay.
 */
export type Rings = readonly (readonly Vec2[])[];

/** A corner, or the side that begins in it. */
export interface Spot {
  readonly ring: number;
  readonly index: number;
}

/** A plan after an edit. */
export interface Edited {
  readonly rings: Rings;
  /** For every side of every ring: the side it was before, or came out of. */
  readonly from: readonly (readonly Spot[])[];
}

/** No outline and no court has fewer. */
export const LEAST_CORNERS = 3;

export const sameSides = (rings: Rings): Edited['from'] =>
  rings.map((points, ring) => points.map((_, index) => ({ ring, index })));

/** One edit upon another: where the sides come from before both. */
export const upon = (first: Edited['from'], { rings, from }: Edited): Edited => ({
  rings,
  from: from.map((sides) =>
    sides.flatMap(({ ring, index }) => {
      const before = first[ring]?.[index];
      return before === undefined ? [] : [before];
    }),
  ),
});

const withRing = (rings: Rings, ring: number, points: readonly Vec2[]): Rings =>
  rings.map((before, r) => (r === ring ? points : before));

const withPoint = (points: readonly Vec2[], index: number, point: Vec2): readonly Vec2[] =>
  points.map((before, i) => (i === index ? point : before));

export const moveCorner = (rings: Rings, { ring, index }: Spot, to: Vec2): Edited => ({
  rings: withRing(rings, ring, withPoint(rings[ring] ?? [], index, to)),
  from: sameSides(rings),
});

/** A corner on a side, in its middle where nothing else is said: both halves are what the side was. */
export const addCorner = (rings: Rings, { ring, index }: Spot, point?: Vec2): Edited => {
  const points = rings[ring] ?? [];
  const middle = lerp2(at(points, index), at(points, index + 1), 0.5);
  const from = sameSides(rings);
  return {
    rings: withRing(rings, ring, points.toSpliced(index + 1, 0, point ?? middle)),
    from: from.map((sides, r) => (r === ring ? sides.toSpliced(index + 1, 0, { ring, index }) : sides)),
  };
};

/**
 * Without a corner: the side that ended in it goes on to the next corner. A court with three corners goes away whole;
 * null where the outline would.
 */
export const removeCorner = (rings: Rings, { ring, index }: Spot): Edited | null => {
  const points = rings[ring] ?? [];
  const from = sameSides(rings);
  if (points.length <= LEAST_CORNERS) {
    if (ring === 0) return null;
    return { rings: rings.toSpliced(ring, 1), from: from.toSpliced(ring, 1) };
  }
  // Without its first corner the ring begins in its last, so that the front stays the front.
  const last = points.length - 1;
  const kept = index === 0 ? [at(points, last), ...points.slice(1, last)] : points.toSpliced(index, 1);
  const sides = from[ring] ?? [];
  return {
    rings: withRing(rings, ring, kept),
    from: from.map((own, r) => (r === ring ? sides.toSpliced(index === 0 ? last : index, 1) : own)),
  };
};

export const removeCourt = (rings: Rings, ring: number): Edited => ({
  rings: rings.toSpliced(ring, 1),
  from: sameSides(rings).toSpliced(ring, 1),
});

export const sideLength = (rings: Rings, { ring, index }: Spot): number => {
  const points = rings[ring] ?? [];
  const [x, y] = sub2(at(points, index + 1), at(points, index));
  return Math.hypot(x, y);
};

/**
 * A side of another length, mm over 0: its far end moves along it, and the next side moves with it and keeps its
 * direction, so that right angles stay right.
 */
export const setSideLength = (rings: Rings, spot: Spot, length: number): Edited => {
  const { ring, index } = spot;
  const points = rings[ring] ?? [];
  const [a, b, c, d] = [0, 1, 2, 3].map((step) => at(points, index + step)) as [Vec2, Vec2, Vec2, Vec2];
  const end = add2(a, scale2(unit2(sub2(b, a)), length));
  const next = unit2(sub2(c, b));
  const after = unit2(sub2(d, c));
  const moved = withPoint(points, (index + 1) % points.length, end);
  const cross = cross2(next, after);
  // Where the side after the next runs on in the same line there is nowhere for it to slide.
  const isStraight = isSameAngle(Math.asin(Math.max(-1, Math.min(1, cross))), 0);
  const slid = isStraight ? c : add2(end, scale2(next, cross2(sub2(c, end), after) / cross));
  return {
    rings: withRing(rings, ring, withPoint(moved, (index + 2) % points.length, slid)),
    from: sameSides(rings),
  };
};

/** Sides of a new court, as shares of the outline's box. */
const COURT_SHARES = [1 / 3, 1 / 4, 1 / 6, 1 / 10];

/**
 * A rectangular court more, its corners on whole steps: candidates, the largest and the most in the middle first.
 */
export const addCourt = (rings: Rings, step: number): readonly Edited[] => {
  const { minX, minY, maxX, maxY } = boxOf(rings[0] ?? []);
  const [width, depth] = [maxX - minX, maxY - minY];
  const onStep = (mm: number): number => Math.round(mm / step) * step;
  const spots = [0.5, 0.25, 0.75].flatMap((y) => [0.5, 0.25, 0.75].map((x) => [x, y] as const));
  return COURT_SHARES.flatMap((share) =>
    spots.map(([x, y]): Edited => {
      const [left, front] = [onStep(minX + width * (x - share / 2)), onStep(minY + depth * (y - share / 2))];
      const [right, back] = [
        left + Math.max(step, onStep(width * share)),
        front + Math.max(step, onStep(depth * share)),
      ];
      const court: readonly Vec2[] = [
        [left, front],
        [right, front],
        [right, back],
        [left, back],
      ];
      // A court of its own sides: nothing was there before.
      return { rings: [...rings, court], from: [...sameSides(rings), []] };
    }),
  );
};

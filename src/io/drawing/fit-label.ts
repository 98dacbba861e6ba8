import { type Box, boxOf, isInside } from '../../core/geometry/polygon.ts';
import { add2, dot2, left2, scale2, sub2, type Vec2 } from '../../core/geometry/vector.ts';

/** A rectangle at any angle that a text or a mark takes up, mm. */
export interface Spot {
  readonly center: Vec2;
  /** Unit vector along the text. */
  readonly along: Vec2;
  readonly width: number;
  readonly height: number;
}

/** What a text must keep clear of. */
export interface Obstacles {
  readonly lines: readonly (readonly [Vec2, Vec2])[];
  readonly spots: readonly Spot[];
}

/** Air between text and the middle of a line, mm: half a wide line and as much again. */
const CLEAR = 0.6;

export const spotCorners = ({ center, along, width, height }: Spot): readonly Vec2[] => {
  const u = scale2(along, width / 2);
  const v = scale2(left2(along), height / 2);
  return [sub2(sub2(center, u), v), add2(sub2(center, v), u), add2(add2(center, u), v), add2(sub2(center, u), v)];
};

export const ringLines = (points: readonly Vec2[]): readonly (readonly [Vec2, Vec2])[] =>
  points.map((point, i) => [point, points[(i + 1) % points.length] as Vec2]);

/** Whether the spot lies inside the ring and keeps clear of its lines and of every obstacle. */
export const isClear = (spot: Spot, outline: readonly Vec2[], obstacles: Obstacles): boolean =>
  isInside(spot.center, outline) &&
  [...ringLines(outline), ...obstacles.lines].every(([a, b]) => !touches(spot, a, b)) &&
  obstacles.spots.every((other) => !overlap(spot, other));

/** Whether the segment comes within the clear distance of the rectangle (cut against its four sides in turn). */
const touches = (spot: Spot, a: Vec2, b: Vec2): boolean => {
  const across = left2(spot.along);
  const local = (p: Vec2): Vec2 => [dot2(sub2(p, spot.center), spot.along), dot2(sub2(p, spot.center), across)];
  const x = spot.width / 2 + CLEAR;
  const y = spot.height / 2 + CLEAR;
  return clipSegment(local(a), local(b), { minX: -x, minY: -y, maxX: x, maxY: y }) !== null;
};

/** Two rectangles are apart where a side of one of them separates them. */
const overlap = (a: Spot, b: Spot): boolean => {
  const axes = [a.along, left2(a.along), b.along, left2(b.along)];
  return axes.every((axis) => {
    const [lowA, highA] = reach(a, axis);
    const [lowB, highB] = reach(b, axis);
    return lowA < highB + CLEAR && lowB < highA + CLEAR;
  });
};

const reach = (spot: Spot, axis: Vec2): readonly [number, number] => {
  const values = spotCorners(spot).map((corner) => dot2(corner, axis));
  return [Math.min(...values), Math.max(...values)];
};

/** The part of a segment inside a box, borders included; null where there is none (Liang and Barsky, 1984). */
export const clipSegment = (a: Vec2, b: Vec2, box: Box): readonly [Vec2, Vec2] | null => {
  const [dx, dy] = sub2(b, a);
  let from = 0;
  let to = 1;
  for (const [step, room] of [
    [-dx, a[0] - box.minX],
    [dx, box.maxX - a[0]],
    [-dy, a[1] - box.minY],
    [dy, box.maxY - a[1]],
  ] as const) {
    if (step === 0) {
      if (room < 0) return null;
    } else if (step < 0) {
      from = Math.max(from, room / step);
    } else {
      to = Math.min(to, room / step);
    }
  }
  if (from > to) return null;
  // A point that lies inside is kept as it is, bit for bit.
  const point = (t: number): Vec2 => (t === 0 ? a : t === 1 ? b : [a[0] + dx * t, a[1] + dy * t]);
  return [point(from), point(to)];
};

/** Heights tried in a panel, as steps over its extent. */
const ROWS = 36;

/**
 * A place for a rectangle inside a ring, its long side along the given direction: of the heights tried the one nearest
 * to the middle, centred between the sides there. Null where none is clear.
 */
export const findSpot = (
  outline: readonly Vec2[],
  along: Vec2,
  size: { readonly width: number; readonly height: number },
  obstacles: Obstacles,
): Spot | null => {
  const across = left2(along);
  const local = outline.map((p): Vec2 => [dot2(p, along), dot2(p, across)]);
  const box = boxOf(local);
  const middle = (box.minY + box.maxY) / 2;
  const rows = Array.from({ length: ROWS + 1 }, (_, i) => box.minY + ((box.maxY - box.minY) * i) / ROWS);
  rows.sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle));
  for (const y of rows) {
    for (const x of columnsAt(local, y - size.height / 2, y + size.height / 2, size.width)) {
      const center = add2(scale2(along, x), scale2(across, y));
      const spot: Spot = { center, along, ...size };
      if (isClear(spot, outline, obstacles)) return spot;
    }
  }
  return null;
};

/** Middles to try between two heights: of the room between the sides, then towards either side. */
const columnsAt = (local: readonly Vec2[], low: number, high: number, width: number): readonly number[] => {
  const xs = ringLines(local).flatMap(([a, b]) => {
    const part = clipSegment(a, b, {
      minX: Number.NEGATIVE_INFINITY,
      maxX: Number.POSITIVE_INFINITY,
      minY: low,
      maxY: high,
    });
    return part === null ? [] : part.map((p) => p[0]);
  });
  if (xs.length === 0) return [];
  const center = boxOf(local);
  const mid = (center.minX + center.maxX) / 2;
  const left = Math.max(...xs.filter((x) => x <= mid), center.minX);
  const right = Math.min(...xs.filter((x) => x > mid), center.maxX);
  const room = right - left - width;
  if (room < 0) return [];
  const between = (left + right) / 2;
  return [between, between - room / 4, between + room / 4];
};

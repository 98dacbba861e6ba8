import { at, type Box, boxOf } from '../../geometry/polygon.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import { NOISE_MM } from '../../tolerance.ts';

/** An outline that stands in a strip: its box at the origin, and how it is turned and moved to get there. */
export interface Pose {
  readonly ring: readonly Vec2[];
  readonly rotation: number;
  /** Where the piece's own origin comes to. */
  readonly shift: Vec2;
  readonly width: number;
  readonly height: number;
}

/** The outline turned by quarters, counter-clockwise. */
export function poseOf(outline: readonly Vec2[], quarter: number): Pose {
  const turned = outline.map(([x, y]): Vec2 => {
    if (quarter === 1) return [0 - y, x];
    if (quarter === 2) return [0 - x, 0 - y];
    return quarter === 3 ? [y, 0 - x] : [x, y];
  });
  const { minX, minY, maxX, maxY } = boxOf(turned);
  return {
    ring: turned.map(([x, y]): Vec2 => [x - minX, y - minY]),
    rotation: (quarter * Math.PI) / 2,
    shift: [0 - minX, 0 - minY],
    width: maxX - minX,
    height: maxY - minY,
  };
}

export interface Standing {
  readonly ring: readonly Vec2[];
  readonly box: Box;
}

export function standingAt(ring: readonly Vec2[], x: number, y: number): Standing {
  const moved = ring.map(([px, py]): Vec2 => [px + x, py + y]);
  return { ring: moved, box: boxOf(moved) };
}

/**
 * How far `right` has to move along x so that at no height it begins before `left` ends, mm; under 0 where it may come nearer.
 * Minus infinity where they share no height.
 */
export function slideApart(left: Standing, right: Standing): number {
  const [low, high] = [Math.max(left.box.minY, right.box.minY), Math.min(left.box.maxY, right.box.maxY)];
  if (high - low <= NOISE_MM) return Number.NEGATIVE_INFINITY;
  // The borders run straight between corners, so the difference is greatest at the height of one.
  const heights = [low, high, ...[...left.ring, ...right.ring].map((p) => p[1]).filter((y) => y > low && y < high)];
  let most = Number.NEGATIVE_INFINITY;
  for (const y of heights) most = Math.max(most, reach(left.ring, y, 1) + reach(right.ring, y, -1));
  return most;
}

/** Farthest x of a ring at a height; with side -1 the least, its sign changed. */
function reach(ring: readonly Vec2[], y: number, side: 1 | -1): number {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < ring.length; i++) {
    const [a, b] = [at(ring, i), at(ring, i + 1)];
    if (Math.min(a[1], b[1]) > y || Math.max(a[1], b[1]) < y) continue;
    const rise = b[1] - a[1];
    const x = rise === 0 ? Math.max(side * a[0], side * b[0]) : side * (a[0] + ((b[0] - a[0]) * (y - a[1])) / rise);
    most = Math.max(most, x);
  }
  return most;
}

import type { Box } from '../../geometry/polygon.ts';
import { TOUCH_MM } from '../../tolerance.ts';
import type { Fixed, Job } from './job.ts';
import type { NoFit } from './no-fit.ts';
import type { Pose, Shape } from './shapes.ts';

/** One sheet while it is filled. */
export interface OpenSheet {
  readonly kind: number;
  readonly sheet: number;
  readonly box: Box;
  readonly fixed: readonly Fixed[];
  readonly laid: Laid[];
}

/** A piece on a sheet: the lower left corner of its shape's box at (x, y). */
export interface Laid {
  readonly piece: number;
  readonly pose: Pose;
  readonly x: number;
  readonly y: number;
}

/** How good a spot is for a shape's box, less is better. */
export type Wish = (x: number, y: number, shape: Shape) => number;

/** Far along x counts before all, then far along y: pieces crowd to the left. */
export const leftmost: Wish = (x, y, { width, height }) => (x + width) * 1000 + y + height / 2;
/** The same upwards: pieces crowd to the bottom. */
export const lowest: Wish = (x, y, { width, height }) => (y + height) * 1000 + x + width / 2;

interface Spot {
  readonly pose: Pose;
  readonly x: number;
  readonly y: number;
  readonly wish: number;
}

/** The spot on a sheet that a wish likes best, of all those where a piece touches two things; null where there is none. */
export function bestSpot(job: Job, sheet: OpenSheet, poses: readonly Pose[], wish: Wish): Spot | null {
  let best: Spot | null = null;
  const { gap } = job.kinds[sheet.kind]!;
  for (const pose of poses) {
    const { shape } = pose;
    const { minX, minY } = sheet.box;
    const [maxX, maxY] = [Math.max(minX, sheet.box.maxX - shape.width), Math.max(minY, sheet.box.maxY - shape.height)];
    if (maxX - minX + TOUCH_MM < 0 || maxY - minY + TOUCH_MM < 0) continue;
    const near: Near[] = [
      ...sheet.fixed.map((one): Near => nearOf(job.shapes.noFit(one.shape, shape, one.gap), one.x, one.y)),
      ...sheet.laid.map((one): Near => nearOf(job.shapes.noFit(one.pose.shape, shape, gap), one.x, one.y)),
    ];
    eachContact(near, { minX, minY, maxX, maxY }, (x, y) => {
      const value = wish(x, y, shape);
      if ((best === null || value < best.wish) && isFree(near, x, y)) best = { pose, x, y, wish: value };
    });
  }
  return best;
}

interface Near {
  readonly noFit: NoFit;
  readonly x: number;
  readonly y: number;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

const nearOf = (noFit: NoFit, x: number, y: number): Near => ({
  noFit,
  x,
  y,
  minX: x + noFit.minX,
  minY: y + noFit.minY,
  maxX: x + noFit.maxX,
  maxY: y + noFit.maxY,
});

function isFree(near: readonly Near[], x: number, y: number): boolean {
  for (const one of near) {
    if (x <= one.minX || x >= one.maxX || y <= one.minY || y >= one.maxY) continue;
    if (one.noFit.depth(x - one.x, y - one.y) > 0) return false;
  }
  return true;
}

/** Calls with every point of the box where a border line ends, or meets another one's or the edge of the box; and its corners. */
function eachContact(near: readonly Near[], box: Box, call: (x: number, y: number) => void): void {
  const { minX, minY, maxX, maxY } = box;
  const within = (x: number, y: number): void => {
    if (x < minX - TOUCH_MM || x > maxX + TOUCH_MM || y < minY - TOUCH_MM || y > maxY + TOUCH_MM) return;
    call(Math.min(maxX, Math.max(minX, x)), Math.min(maxY, Math.max(minY, y)));
  };
  for (const x of [minX, maxX]) for (const y of [minY, maxY]) call(x, y);
  near.forEach((one, i) => {
    const { border } = one.noFit;
    for (let k = 0; k < border.length; k += 4) {
      const [ax, ay] = [border[k]! + one.x, border[k + 1]! + one.y];
      const [bx, by] = [border[k + 2]! + one.x, border[k + 3]! + one.y];
      within(ax, ay);
      within(bx, by);
      for (const x of [minX, maxX]) if (ax < x !== bx < x) within(x, ay + ((by - ay) * (x - ax)) / (bx - ax));
      for (const y of [minY, maxY]) if (ay < y !== by < y) within(ax + ((bx - ax) * (y - ay)) / (by - ay), y);
    }
    for (let j = 0; j < i; j++) {
      const other = near[j]!;
      if (one.minX > other.maxX || other.minX > one.maxX || one.minY > other.maxY || other.minY > one.maxY) continue;
      eachCrossing(one, other, within);
    }
  });
}

function eachCrossing(one: Near, other: Near, call: (x: number, y: number) => void): void {
  const [a, b] = [one.noFit.border, other.noFit.border];
  const [ox, oy] = [other.x - one.x, other.y - one.y];
  for (let k = 0; k < a.length; k += 4) {
    const [ax, ay] = [a[k]!, a[k + 1]!];
    const [ux, uy] = [a[k + 2]! - ax, a[k + 3]! - ay];
    for (let l = 0; l < b.length; l += 4) {
      const [px, py] = [b[l]! + ox - ax, b[l + 1]! + oy - ay];
      const [vx, vy] = [b[l + 2]! - b[l]!, b[l + 3]! - b[l + 1]!];
      const det = ux * vy - uy * vx;
      const s = (px * vy - py * vx) / det;
      const t = (px * uy - py * ux) / det;
      if (s >= 0 && s <= 1 && t >= 0 && t <= 1) call(one.x + ax + ux * s, one.y + ay + uy * s);
    }
  }
}

/**
 * Lays the pieces one after the other, each on the sheet it would rather have of those that have room, opening a new one where
 * none has. The sheets it fills are handed back; what found no place is named.
 */
export function layInOrder(job: Job, order: readonly number[], wish: Wish): Construction {
  const sheets: OpenSheet[] = job.kinds.flatMap(({ taken }, kind) =>
    taken.flatMap((rings, sheet) => (rings.length > 0 ? [openSheet(job, kind, sheet)] : [])),
  );
  const leftOut: number[] = [];
  for (const piece of order) {
    const { kinds, poses } = job.pieces[piece]!;
    if (!kinds.some((kind) => layOn(job, sheets, piece, kind, poses[kind]!, wish))) leftOut.push(piece);
  }
  return { sheets, leftOut };
}

export interface Construction {
  readonly sheets: readonly OpenSheet[];
  readonly leftOut: readonly number[];
}

export function openSheet(job: Job, kind: number, sheet: number): OpenSheet {
  const { box, round, taken } = job.kinds[kind]!;
  return { kind, sheet, box, fixed: [...round, ...(taken[sheet] ?? [])], laid: [] };
}

function layOn(
  job: Job,
  sheets: OpenSheet[],
  piece: number,
  kind: number,
  poses: readonly Pose[],
  wish: Wish,
): boolean {
  const open = sheets.filter((sheet) => sheet.kind === kind);
  for (const sheet of open) if (layAt(sheet, piece, bestSpot(job, sheet, poses, wish))) return true;
  const { count } = job.kinds[kind]!;
  // Sheets with locked pieces are open from the start; the others follow in order.
  let index = 0;
  while (open.some(({ sheet }) => sheet === index)) index++;
  if (index >= count) return false;
  const fresh = openSheet(job, kind, index);
  if (!layAt(fresh, piece, bestSpot(job, fresh, poses, wish))) return false;
  sheets.push(fresh);
  return true;
}

function layAt(sheet: OpenSheet, piece: number, spot: Spot | null): boolean {
  if (!spot) return false;
  sheet.laid.push({ piece, pose: spot.pose, x: spot.x, y: spot.y });
  return true;
}

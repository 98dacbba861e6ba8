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
  /** Shapes that found no room: what is laid only grows, so they need not ask again. */
  readonly refused: Set<Shape>;
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
    if (sheet.refused.has(shape)) continue;
    const { minX, minY } = sheet.box;
    const [maxX, maxY] = [Math.max(minX, sheet.box.maxX - shape.width), Math.max(minY, sheet.box.maxY - shape.height)];
    if (maxX - minX + TOUCH_MM < 0 || maxY - minY + TOUCH_MM < 0) continue;
    const near: Near[] = [
      ...sheet.fixed.map((one): Near => nearOf(job.shapes.noFit(one.shape, shape, one.gap), one.x, one.y)),
      ...sheet.laid.map((one): Near => nearOf(job.shapes.noFit(one.pose.shape, shape, gap), one.x, one.y)),
    ];
    const room = { minX, minY, maxX, maxY };
    eachContact(near, room, {
      isWorth: (x, y) => best === null || wish(x, y, shape) < best.wish,
      offer: (x, y) => {
        const value = wish(x, y, shape);
        if ((best === null || value < best.wish) && isFree(near, x, y)) best = { pose, x, y, wish: value };
      },
    });
    if (best === null) sheet.refused.add(shape);
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
    if (one.noFit.overlaps(x - one.x, y - one.y)) return false;
  }
  return true;
}

interface Taker {
  /** Whether a point no nearer to the lower left than this could be wanted. */
  readonly isWorth: (x: number, y: number) => boolean;
  readonly offer: (x: number, y: number) => void;
}

/** Crossings of more lines than this are not worth their time: the ends of the lines have to do. */
const MOST_LINES = 1500;

/** Numbers kept of a border line: ax, ay, bx, by, and whose it is. */
const STRIDE = 5;

/** Offers the corners of the box, and every point of it where a border line ends or meets another one's or an edge of the box. */
function eachContact(near: readonly Near[], box: Box, { isWorth, offer }: Taker): void {
  const { minX, minY, maxX, maxY } = box;
  const within = (x: number, y: number): void => {
    if (x < minX - TOUCH_MM || x > maxX + TOUCH_MM || y < minY - TOUCH_MM || y > maxY + TOUCH_MM) return;
    offer(Math.min(maxX, Math.max(minX, x)), Math.min(maxY, Math.max(minY, y)));
  };
  offer(minX, minY);
  offer(minX, maxY);
  offer(maxX, minY);
  offer(maxX, maxY);
  const lines: number[] = [];
  for (let i = 0; i < near.length; i++) {
    const one = near[i]!;
    const { border } = one.noFit;
    for (let k = 0; k < border.length; k += 4) {
      const ax = border[k]! + one.x;
      const ay = border[k + 1]! + one.y;
      const bx = border[k + 2]! + one.x;
      const by = border[k + 3]! + one.y;
      const left = Math.min(ax, bx);
      const low = Math.min(ay, by);
      if (left > maxX || low > maxY || Math.max(ax, bx) < minX || Math.max(ay, by) < minY) continue;
      if (!isWorth(Math.max(minX, left), Math.max(minY, low))) continue;
      lines.push(ax, ay, bx, by, i);
      within(ax, ay);
      within(bx, by);
      if (ax < minX !== bx < minX) within(minX, ay + ((by - ay) * (minX - ax)) / (bx - ax));
      if (ax < maxX !== bx < maxX) within(maxX, ay + ((by - ay) * (maxX - ax)) / (bx - ax));
      if (ay < minY !== by < minY) within(ax + ((bx - ax) * (minY - ay)) / (by - ay), minY);
      if (ay < maxY !== by < maxY) within(ax + ((bx - ax) * (maxY - ay)) / (by - ay), maxY);
    }
  }
  const worth: number[] = [];
  for (let k = 0; k < lines.length; k += STRIDE) {
    const [left, low] = [Math.min(lines[k]!, lines[k + 2]!), Math.min(lines[k + 1]!, lines[k + 3]!)];
    if (isWorth(Math.max(minX, left), Math.max(minY, low))) worth.push(k);
  }
  if (worth.length > MOST_LINES) return;
  for (let i = 0; i < worth.length; i++) for (let j = 0; j < i; j++) meet(lines, worth[i]!, worth[j]!, within);
}

/** Where two border lines of different owners cross. */
function meet(lines: readonly number[], k: number, l: number, call: (x: number, y: number) => void): void {
  if (lines[k + 4] === lines[l + 4]) return;
  const ax = lines[k]!;
  const ay = lines[k + 1]!;
  const ux = lines[k + 2]! - ax;
  const uy = lines[k + 3]! - ay;
  const px = lines[l]! - ax;
  const py = lines[l + 1]! - ay;
  const vx = lines[l + 2]! - lines[l]!;
  const vy = lines[l + 3]! - lines[l + 1]!;
  const det = ux * vy - uy * vx;
  const s = (px * vy - py * vx) / det;
  if (!(s >= 0 && s <= 1)) return;
  const t = (px * uy - py * ux) / det;
  if (t >= 0 && t <= 1) call(ax + ux * s, ay + uy * s);
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
  return { kind, sheet, box, fixed: [...round, ...(taken[sheet] ?? [])], laid: [], refused: new Set() };
}

/** Where a piece may lie at many turns, the others are looked at only if none of the first has room. */
const FIRST_POSES = 4;

function layOn(
  job: Job,
  sheets: OpenSheet[],
  piece: number,
  kind: number,
  poses: readonly Pose[],
  wish: Wish,
): boolean {
  const open = sheets.filter((sheet) => sheet.kind === kind);
  const spotOn = (sheet: OpenSheet): Spot | null =>
    bestSpot(job, sheet, poses.slice(0, FIRST_POSES), wish) ?? bestSpot(job, sheet, poses.slice(FIRST_POSES), wish);
  for (const sheet of open) if (layAt(sheet, piece, spotOn(sheet))) return true;
  const { count } = job.kinds[kind]!;
  // Sheets with locked pieces are open from the start; the others follow in order.
  let index = 0;
  while (open.some(({ sheet }) => sheet === index)) index++;
  if (index >= count) return false;
  const fresh = openSheet(job, kind, index);
  if (!layAt(fresh, piece, spotOn(fresh))) return false;
  sheets.push(fresh);
  return true;
}

function layAt(sheet: OpenSheet, piece: number, spot: Spot | null): boolean {
  if (!spot) return false;
  sheet.laid.push({ piece, pose: spot.pose, x: spot.x, y: spot.y });
  return true;
}

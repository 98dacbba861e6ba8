import type { Box } from '../../geometry/polygon.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import { isAtMost, NOISE_MM } from '../../tolerance.ts';
import { offsetRing } from '../usable.ts';
import { type Pose, type Standing, slideApart, standingAt } from './slide.ts';

/** Something to be cut from strips. */
export interface StripItem {
  /** As it stands upright, and in every other turn that the paper allows. */
  readonly poses: readonly Pose[];
  readonly area: number;
  /** Items of one shape have one number. */
  readonly shape: number;
}

/** The lower left corner of the pose's box at (x, y). */
export interface StripSpot {
  readonly item: number;
  readonly pose: Pose;
  readonly x: number;
  readonly y: number;
}

export interface FillRules {
  readonly gap: number;
  /** In a strip stand pieces that are at least so high, as a share of the strip. */
  readonly slack: number;
  /** Whether, beside the pieces of a strip, the paper that an item is cut from is first cut across. */
  readonly isAcross: (item: number) => boolean;
  /** Which of its turns an item is tried in first. */
  readonly turn: (item: number) => number;
}

/**
 * Fills a rectangle by straight cuts from edge to edge: a strip as high as the first item (of those left, in the order given)
 * that has room, in it items of about that height, each as near to the one before as its slopes allow, upright or heads and
 * tails; then what is left beside them, then what is left above. Takes what it lays out of `left`.
 */
export function fillRectangle(items: readonly StripItem[], left: Set<number>, box: Box, rules: FillRules): StripSpot[] {
  return fill(items, left, box, rules, true);
}

/** `isStrip`: the rectangle is as wide as the sheet, so that it is cut into strips. */
function fill(
  items: readonly StripItem[],
  left: Set<number>,
  box: Box,
  rules: FillRules,
  isStrip: boolean,
): StripSpot[] {
  const first = firstFitting(items, left, box, rules);
  if (!first) return [];
  if (!isStrip && rules.isAcross(first.item)) return fillColumn(items, left, box, rules, first);
  const { height } = first.pose;
  const strip = { ...box, maxY: box.minY + height };
  const row = fillStrip(items, left, strip, rules, first);
  const end = Math.max(...row.map(({ x, pose }) => x + pose.width)) + rules.gap;
  const beside = fill(items, left, { ...strip, minX: end }, rules, false);
  const above = fill(items, left, { ...box, minY: strip.maxY + rules.gap }, rules, isStrip);
  return [...row, ...beside, ...above];
}

/** A cut across first: a column as wide as the item, filled above it; then what is left to the right. */
function fillColumn(
  items: readonly StripItem[],
  left: Set<number>,
  box: Box,
  rules: FillRules,
  { item, pose }: Choice,
): StripSpot[] {
  left.delete(item);
  const column = { ...box, maxX: box.minX + pose.width };
  const spot = { item, pose, x: box.minX, y: box.minY };
  const above = fill(items, left, { ...column, minY: box.minY + pose.height + rules.gap }, rules, false);
  const right = fill(items, left, { ...box, minX: column.maxX + rules.gap }, rules, false);
  return [spot, ...above, ...right];
}

interface Choice {
  readonly item: number;
  readonly pose: Pose;
}

/** The first item that has room; one that fills the rectangle from side to side or from bottom to top comes before all. */
function firstFitting(
  items: readonly StripItem[],
  left: ReadonlySet<number>,
  box: Box,
  { turn }: FillRules,
): Choice | null {
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  let first: Choice | null = null;
  const tried = new Set<number>();
  for (const item of left) {
    const { poses, shape } = items[item] as StripItem;
    if (tried.has(shape)) continue;
    tried.add(shape);
    for (const [k] of poses.entries()) {
      const pose = poses[(k + turn(item)) % poses.length] as Pose;
      if (!isAtMost(pose.width, width) || !isAtMost(pose.height, height)) continue;
      if (Math.abs(pose.width - width) <= NOISE_MM || Math.abs(pose.height - height) <= NOISE_MM) return { item, pose };
      first ??= { item, pose };
    }
  }
  return first;
}

/** Items side by side, each the one that wastes least of the strip behind those before it. */
function fillStrip(
  items: readonly StripItem[],
  left: Set<number>,
  strip: Box,
  { gap, slack }: FillRules,
  first: Choice,
): StripSpot[] {
  const height = strip.maxY - strip.minY;
  const row: StripSpot[] = [];
  const standing: Standing[] = [];
  let end = strip.minX;
  const put = ({ item, pose }: Choice, x: number, y: number): void => {
    left.delete(item);
    row.push({ item, pose, x, y });
    standing.push(grown(pose.ring, gap, x, y));
    end = Math.max(end, x + pose.width);
  };
  put(first, strip.minX, strip.minY);
  for (;;) {
    let best: (Choice & { readonly x: number; readonly y: number }) | null = null;
    let least = Number.POSITIVE_INFINITY;
    const tried = new Set<number>();
    for (const item of left) {
      const { poses, area, shape } = items[item] as StripItem;
      if (tried.has(shape)) continue;
      tried.add(shape);
      for (const pose of poses) {
        if (pose.height > height + NOISE_MM || pose.height < slack * height - NOISE_MM) continue;
        // Heads hang from the upper edge, so that they and tails are cut apart in one line.
        const y = pose.rotation === Math.PI ? strip.maxY - pose.height : strip.minY;
        const x = nearest(standing, pose, y, (row.at(-1) as StripSpot).x);
        if (!isAtMost(x + pose.width, strip.maxX)) continue;
        const waste = (Math.max(end, x + pose.width) - end) * height - area;
        if (waste >= least) continue;
        least = waste;
        best = { item, pose, x, y };
      }
    }
    if (!best) return row;
    put(best, best.x, best.y);
  }
}

/** The leftmost place behind all that stands in the strip, and not before the one that was put last. */
function nearest(standing: readonly Standing[], pose: Pose, y: number, after: number): number {
  const here = standingAt(pose.ring, 0, y);
  return standing.reduce((x, one) => Math.max(x, slideApart(one, here)), after);
}

/** A ring where it stands, with the gap round it. */
function grown(ring: readonly Vec2[], gap: number, x: number, y: number): Standing {
  const [wide = ring] = gap > 0 ? offsetRing(ring, gap) : [ring];
  return standingAt(wide, x, y);
}

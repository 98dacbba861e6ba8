import { HAND_MM } from '../fit/hand-cut.ts';
import { type BoxedRing, boxedRing, ringDepth } from '../geometry/convex-parts.ts';
import { type Box, boxOf, ringArea } from '../geometry/polygon.ts';
import { distance2, sub2, type Vec2 } from '../geometry/vector.ts';
import { isPositive, isSameLength, NOISE_MM } from '../tolerance.ts';
import type { Draft } from './draft.ts';
import { layFan } from './lay-fan.ts';
import { applyPose, type Base, isLonger, isSquare, movePose, type Pose, poseBetween } from './pose.ts';
import type { End } from './words.ts';

/** A piece as the layout has it, seen from the side that is up; y from the bottom of its row. */
export interface RowItem {
  readonly draft: Draft;
  readonly title: string;
  /** Of the piece's own frame from its origin, by the layout. */
  readonly pose: Pose;
  /** Its true outline where the layout has it. */
  readonly outline: readonly Vec2[];
  /** Two of its corners that a template of it is laid by, mm from its origin; null where it is set out by itself. */
  readonly hold: readonly [Vec2, Vec2] | null;
}

/** A piece where its marks are. */
export interface RowPiece<T extends RowItem = RowItem> {
  readonly item: T;
  readonly pose: Pose;
  /** The end of the strip that it is measured from. */
  readonly from: End;
  /** Of a piece that lies at an angle. */
  readonly base: Base | null;
}

export interface LaidRow<T extends RowItem> {
  /** mm: a mark of the ruler, or the most that there is. */
  readonly height: number;
  readonly pieces: readonly RowPiece<T>[];
  /** Those that found no room beside the others. */
  readonly crowded: readonly T[];
}

/** How far a piece is moved on so that its marks keep off its neighbour's, in marks. */
const MOST_STEPS = 24;

/**
 * Lays the pieces of one row on marks. Pieces beside each other are measured from one end of the strip, the right one where
 * they lie at it, and each goes to the first mark at or after its place where it keeps off those before. Where the strip has no
 * room for that they stay where they are, and are told. The row is no higher than `most`, mm.
 */
export function layRow<T extends RowItem>(
  items: readonly T[],
  width: number,
  step: number,
  most = Number.POSITIVE_INFINITY,
): LaidRow<T> {
  const height = Math.min(rowHeight(items, step), most);
  const crowded: T[] = [];
  const laid: RowPiece<T>[] = [];
  const taken: BoxedRing[] = [];
  for (const { own, from } of clusters(items, width, step)) {
    own.forEach((item, i) => {
      const { fan } = item.draft;
      const isClear = (pose: Pose): boolean => isFree(ringsAt(item, pose), taken);
      const piece = fan
        ? layFan(item, fan, { width, height, step, from }, isClear)
        : isSquare(item.pose)
          ? layUpright(item, { width, height, step, from, isFirst: i === 0 }, isClear)
          : { ...layTurned(item, width, step), isCrowded: false };
      const rings = ringsAt(item, piece.pose);
      if (piece.isCrowded || (!isSquare(item.pose) && !isFree(rings, taken))) crowded.push(item);
      taken.push(...rings);
      laid.push({ item, pose: piece.pose, from: piece.base && !fan ? 'left' : from, base: piece.base });
    });
  }
  return { height, pieces: laid, crowded };
}

/** What a piece covers as it lies, counter-clockwise. */
const ringsAt = ({ draft }: RowItem, pose: Pose): readonly BoxedRing[] =>
  draft.rings.map((ring) => {
    const own = ring.map((p) => applyPose(pose, p));
    return boxedRing(ringArea(own) < 0 ? own.reverse() : own);
  });

const isFree = (rings: readonly BoxedRing[], taken: readonly BoxedRing[]): boolean =>
  rings.every((a) => taken.every((b) => ringDepth(a, b) <= NOISE_MM));

/** Pieces that touch or reach over each other sideways, in order from the end they are measured from. */
function clusters<T extends RowItem>(
  items: readonly T[],
  width: number,
  step: number,
): readonly { readonly own: readonly T[]; readonly from: End }[] {
  const boxed = items
    .map((item) => ({ item, box: boxOf(item.outline) }))
    .sort((a, b) => a.box.minX - b.box.minX || a.box.minY - b.box.minY);
  const groups: { own: typeof boxed; far: number }[] = [];
  for (const one of boxed) {
    const last = groups.at(-1);
    if (last && one.box.minX <= last.far + step) {
      last.own.push(one);
      last.far = Math.max(last.far, one.box.maxX);
    } else groups.push({ own: [one], far: one.box.maxX });
  }
  return groups.map(({ own, far }) => {
    const near = own[0]?.box.minX ?? 0;
    const isRight = width - far <= step && near > width - far + NOISE_MM && near > step;
    const order = isRight ? [...own].sort((a, b) => b.box.maxX - a.box.maxX || a.box.minY - b.box.minY) : own;
    return { own: order.map(({ item }) => item), from: isRight ? 'right' : 'left' };
  });
}

/** What a piece takes up as it lies, its panels' lower left corner at the origin. */
function extentOf({ draft }: RowItem, pose: Pose): { readonly panels: Box; readonly all: Box } {
  const [w, h] = draft.rounded.size;
  const corners = (
    [
      [0, 0],
      [w, h],
    ] as const
  ).map((p): Vec2 => [p[0] * draft.step, p[1] * draft.step]);
  return {
    panels: boxOf(corners.map((p) => applyPose(pose, p))),
    all: boxOf(draft.rings.flat().map((p) => applyPose(pose, p))),
  };
}

const stepsUp = (mm: number, step: number): number => Math.ceil((mm - NOISE_MM) / step);

function rowHeight(items: readonly RowItem[], step: number): number {
  const highest = items.map((item) => {
    const { panels, all } = extentOf(item, item.pose);
    if (item.draft.fan || !isSquare(item.pose)) return stepsUp(Math.max(all.maxY, boxOf(item.outline).maxY), step);
    return lowCount(item, step) + stepsUp(all.maxY - panels.minY, step);
  });
  return Math.max(1, ...highest) * step;
}

/** Marks from the bottom of the row to the panels of a piece that stands on it, or lies over it. */
function lowCount(item: RowItem, step: number): number {
  const { panels, all } = extentOf(item, item.pose);
  const least = stepsUp(Math.max(0, panels.minY - all.minY), step);
  const isDown = boxOf(item.outline).minY <= step / 2;
  return isDown ? least : Math.max(least, Math.round(panels.minY / step));
}

interface Room {
  readonly width: number;
  readonly height: number;
  readonly step: number;
  readonly from: End;
  readonly isFirst: boolean;
}

function layUpright(
  item: RowItem,
  { width, height, step, from, isFirst }: Room,
  isClear: (pose: Pose) => boolean,
): { readonly pose: Pose; readonly base: null; readonly isCrowded: boolean } {
  const { panels, all } = extentOf(item, item.pose);
  const size: Vec2 = [panels.maxX - panels.minX, panels.maxY - panels.minY];
  const [before, above] = [from === 'left' ? panels.minX - all.minX : all.maxX - panels.maxX, all.maxY - panels.minY];
  const truly = boxOf(item.outline);
  const hangs = truly.minY > step / 2 && height - truly.maxY <= step;
  const highest = Math.max(0, Math.round(height / step) - stepsUp(above, step));
  const v = hangs ? highest : Math.min(lowCount(item, step), highest);
  const meant = from === 'left' ? panels.minX : width - panels.maxX;
  const least = stepsUp(Math.max(0, before, isFirst && before > NOISE_MM ? flapDepth(item.draft) : 0), step);
  const start = Math.max(Math.round(meant / step), isFirst ? least : 0);
  const at = (count: number): Pose => {
    const x = from === 'left' ? count * step : width - count * step - size[0];
    return movePose(item.pose, sub2([x, v * step], [panels.minX, panels.minY]));
  };
  for (let count = start; count <= start + MOST_STEPS; count++) {
    const pose = at(count);
    const box = boxOf(item.draft.rings.flat().map((p) => applyPose(pose, p)));
    if (box.maxX > width + HAND_MM || box.minX < -HAND_MM) {
      if (count === start) continue;
      break;
    }
    if (isClear(pose)) return { pose, base: null, isCrowded: false };
  }
  return { pose: at(Math.round(meant / step)), base: null, isCrowded: true };
}

/** How far the widest of its flaps stands out, mm. */
export const flapDepth = ({ panels, step }: Draft): number =>
  Math.max(
    0,
    ...panels.flatMap(({ edges }) =>
      edges.flatMap(({ flaps }) => flaps.flatMap(({ marks }) => (marks?.marks ?? []).map((p) => p[1] * step))),
    ),
  );

/**
 * A piece at an angle: the ends of one of its level or upright edges go to the nearest marks, and give its direction; of one that
 * is traced, the corners that its template is laid by.
 */
function layTurned(
  { draft, pose, hold }: RowItem,
  width: number,
  step: number,
): { readonly pose: Pose; readonly base: Base | null } {
  const level = draft.panels
    .flatMap(({ edges }) => edges)
    .filter(({ path, ends: [a, b] }) => path.length === 2 && (isSameLength(a[0], b[0]) || isSameLength(a[1], b[1])))
    .map(({ ends }) => ends);
  if (level.length === 0 && hold === null) return { pose, base: null };
  const base = hold ?? level.reduce((best, ends) => (isLonger(ends, best) ? ends : best));
  const onMark = (p: Vec2): Vec2 => {
    const [x, y] = applyPose(pose, p);
    return [
      Math.min(Math.max(0, Math.round(x / step)), Math.floor((width + NOISE_MM) / step)) * step,
      Math.max(0, Math.round(y / step)) * step,
    ];
  };
  const marks = [onMark(base[0]), onMark(base[1])] as const;
  if (!isPositive(distance2(...marks))) return { pose, base: null };
  return { pose: poseBetween(pose.isMirrored, base, marks), base: { ends: base, marks } };
}

import { add2, distance2, scale2, type Vec2 } from '../geometry/vector.ts';
import { isPositive, SNAP_MM } from '../tolerance.ts';
import { roundToRuler } from '../units/units.ts';
import type { Draft, DraftFlap } from './draft.ts';
import { seamFrame } from './flap-marks.ts';
import type { Pad } from './pad.ts';
import { applyPose, type Base, isSquare, type Pose } from './pose.ts';
import type { LineUse } from './set-out.ts';
import * as words from './words.ts';

/** A piece where its marks are on a strip. */
export interface PieceToPlan {
  readonly draft: Draft;
  readonly pose: Pose;
  readonly from: words.End;
  readonly base: Base | null;
}

/** The use of a fold on the side that is up: on the wrong side mountain and valley change places. */
export const foldUse = (fold: 'mountain' | 'valley', { isMirrored }: Pose): LineUse =>
  isMirrored ? (fold === 'mountain' ? 'valley' : 'mountain') : fold;

/** The nearest mark to a point of the strip, measured from one end of it and from its bottom. */
export function nearestMark(pad: Pad, [x, y]: Vec2, from: words.End): Vec2 {
  const mark = (mm: number): number => roundToRuler(mm, pad.ruler).mark;
  return [from === 'left' ? mark(x) : pad.width - mark(pad.width - x), mark(y)];
}

/** A compass on scrap beside a strip reaches so far off its edge, mm. */
const FARTHEST = 250;

/** Where the point of a compass goes: the nearest mark, or one on scrap beyond the edge that is named; null where it has no place. */
export function compassPoint(
  pad: Pad,
  [x, y]: Vec2,
  from: words.End,
): { readonly at: Vec2; readonly edge: 'bottom' | 'top' | null } | null {
  const [across, up] = nearestMark(pad, [x, y], from);
  if (across < 0 || across > pad.width || y < -FARTHEST || y > pad.height + FARTHEST) return null;
  if (up >= 0 && up <= pad.height) return { at: [across, up], edge: null };
  const off = (mm: number): number => roundToRuler(mm, pad.ruler).mark;
  return up < 0
    ? { at: [across, -off(-y)], edge: 'bottom' }
    : { at: [across, pad.height + off(y - pad.height)], edge: 'top' };
}

/** Where a corner of a piece is marked on the strip; at an angle without a level edge each goes to the nearest mark. */
export const placer =
  (pad: Pad, { pose, from, base }: PieceToPlan): ((p: Vec2) => Vec2) =>
  (p) =>
    base || isSquare(pose) ? applyPose(pose, p) : nearestMark(pad, applyPose(pose, p), from);

/** Flaps beside a drawn line: their corners along the ruler laid on it, their feet along it, and round them a line to cut. */
export function planFlaps(
  pad: Pad,
  flaps: readonly DraftFlap[],
  line: readonly [number, number],
  { step, isMirrored }: { readonly step: number; readonly isMirrored: boolean },
): void {
  const ends = [pad.at(line[0]), pad.at(line[1])] as const;
  const length = distance2(...ends);
  for (const { marks } of flaps) {
    if (!isPositive(length)) {
      pad.say(
        `The edge at mark ${words.ref(line[0])} is too short for this ruler: leave its flap off, and tape that seam.`,
      );
      continue;
    }
    if (!marks) {
      pad.say(
        `The flap beside line ${words.lineWords(line)} is too small for this ruler: leave it off, and tape that seam.`,
      );
      continue;
    }
    const { from, way, out } = seamFrame(ends, marks.zero);
    const side = scale2(out, isMirrored ? -1 : 1);
    const zero = line[marks.zero];
    const place = ([s, d]: Vec2): Vec2 => add2(from, add2(scale2(way, s * step), scale2(side, d * step)));
    // A foot past the end of the drawn line stands at its end.
    const corners = marks.marks.map(
      ([s, d]): Vec2 => [d === 0 ? Math.min(s, Math.floor(length / step + SNAP_MM)) : s, d],
    );
    const depths = [...new Set(corners.map((mark) => mark[1]))].sort((p, q) => q - p);
    for (const depth of depths) {
      const fresh = corners.filter((mark) => mark[1] === depth && pad.find(place(mark)) === undefined);
      const along = [...new Set(fresh.map((mark) => mark[0] * step))].sort((p, q) => p - q);
      if (along.length === 0) continue;
      if (depth === 0) pad.along(line, zero, along);
      else pad.parallel(line, zero, { depth: depth * step, side }, along);
    }
    pad.join([line[0], ...corners.map((mark) => pad.numberAt(place(mark))), line[1]], 'cut');
  }
}

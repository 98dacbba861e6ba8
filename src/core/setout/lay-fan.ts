import type { Fan } from '../fit/fan.ts';
import { HAND_MM } from '../fit/hand-cut.ts';
import { boxOf } from '../geometry/polygon.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import { isPositive } from '../tolerance.ts';
import type { Draft } from './draft.ts';
import { applyPose, type Base, type Pose, poseBetween } from './pose.ts';
import type { End } from './words.ts';

/** How far the apex and the first ray are moved for room, in marks. */
const REACH = 2;

const around: readonly Vec2[] = Array.from({ length: (2 * REACH + 1) ** 2 }, (_, i): Vec2 => {
  const side = 2 * REACH + 1;
  return [(i % side) - REACH, Math.floor(i / side) - REACH];
}).sort((a, b) => Math.hypot(...a) - Math.hypot(...b));

/**
 * A fan on a strip: its apex on a mark, its first ray towards another, nearest to where the layout has them. Where it finds no
 * room there, both are moved by a few marks.
 */
export function layFan(
  { draft, pose }: { readonly draft: Draft; readonly pose: Pose },
  { apex, rim }: Fan,
  {
    width,
    height,
    step,
    from,
  }: { readonly width: number; readonly height: number; readonly step: number; readonly from: End },
  isClear: (pose: Pose) => boolean,
): { readonly pose: Pose; readonly base: Base; readonly isCrowded: boolean } {
  const ray = [apex, rim[0] as Vec2] as const;
  const onMark = (p: Vec2, [dx, dy]: Vec2): Vec2 => {
    const [x, y] = applyPose(pose, p);
    const along = (Math.round((from === 'left' ? x : width - x) / step) + dx) * step;
    return [from === 'left' ? along : width - along, (Math.round(y / step) + dy) * step];
  };
  const isOn = ([x, y]: Vec2): boolean =>
    x >= -HAND_MM && y >= -HAND_MM && x <= width + HAND_MM && y <= height + HAND_MM;
  const lay = (moved: Vec2, turned: Vec2): { readonly pose: Pose; readonly base: Base } | null => {
    const marks = [onMark(ray[0], moved), onMark(ray[1], [moved[0] + turned[0], moved[1] + turned[1]])] as const;
    if (!marks.every(isOn) || !isPositive(distance2(...marks))) return null;
    return { pose: poseBetween(pose.isMirrored, ray, marks), base: { ends: ray, marks } };
  };
  let [best, least]: [{ readonly pose: Pose; readonly base: Base } | null, number] = [null, Number.POSITIVE_INFINITY];
  for (const moved of around) {
    for (const turned of around) {
      const laid = lay(moved, turned);
      if (!laid) continue;
      const box = boxOf(draft.rings.flat().map((p) => applyPose(laid.pose, p)));
      const over = Math.max(0, -box.minX, -box.minY, box.maxX - width, box.maxY - height);
      const isRoomy = over <= HAND_MM && isClear(laid.pose);
      if (isRoomy) return { ...laid, isCrowded: false };
      if (over < least) [best, least] = [laid, over];
    }
  }
  const laid = best ?? lay([0, 0], [0, 0]);
  if (!laid) throw new Error('a fan smaller than a mark');
  return { ...laid, isCrowded: true };
}

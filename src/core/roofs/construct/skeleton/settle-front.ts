import { distance2, type Vec3 } from '../../../geometry/vector.ts';
import { type Corner, cornerAt, meetingOf, type Plane } from './front.ts';
import {
  addArc,
  addHalf,
  bear,
  drop,
  join,
  kill,
  type MovingFront,
  mergeNode,
  settleCorner,
  weld,
} from './moving-front.ts';

/** Takes out fronts that lie on each other, and lets the shallower of two planes in line go on over both. */
export function settle(front: MovingFront, born: readonly Corner[]): void {
  const work = [...born];
  for (let corner = work.pop(); corner; corner = work.pop()) {
    if (!corner.isAlive) continue;
    const { into, out } = corner;
    const [before, after] = [into.from, out.to];
    if (before === corner) {
      drop(front, corner);
      kill(front, into);
      continue;
    }
    const meeting = meetingOf(into.plane, out.plane, front.noise.parallel);
    if (before === after || meeting === 'opposed') {
      work.push(...foldRidge(front, corner));
    } else if (meeting === 'in-line' && into.plane === out.plane) {
      closeBehindCourt(front, corner);
    } else if (meeting === 'in-line' && into.plane.speed !== out.plane.speed) {
      work.push(spreadShallower(front, corner));
    }
  }
}

/** The fronts on both sides of a corner lie on each other as far as the shorter reaches: a ridge. */
function foldRidge(front: MovingFront, corner: Corner): Corner[] {
  const { near } = front.noise;
  const { into, out } = corner;
  const [before, after] = [into.from, out.to];
  const here = settleCorner(front, corner);
  const there = front.nodes[here] as Vec3;
  const [a, b] = [before, after].map((one) => distance2(cornerAt(one, front.now), [there[0], there[1]])) as [
    number,
    number,
  ];
  for (const side of [into, out]) kill(front, side);
  const isBeforeEnd = before === after || a <= b + near;
  const isAfterEnd = before === after || b <= a + near;
  const pull = { into: before.into, out: after.out };
  const end = settleCorner(front, isBeforeEnd ? before : after);
  // Seen along `out`, away from the corner, its own plane lies to the left.
  addHalf(front, out.plane, end, here);
  addHalf(front, into.plane, here, end);
  // Two corners only: the ridge closes this part of the front.
  if (before === after) return [];
  if (isBeforeEnd && isAfterEnd) {
    const last = settleCorner(front, after);
    if (last !== end) mergeNode(front, last, end);
    for (const side of [pull.into, pull.out]) kill(front, side);
    if (pull.into === pull.out) return [];
    return [weld(front, end, pull.into.from, pull.into.plane, pull.out.plane, pull.out.to)];
  }
  if (isBeforeEnd) {
    kill(front, pull.into);
    return [weld(front, end, pull.into.from, pull.into.plane, out.plane, after)];
  }
  kill(front, pull.out);
  return [weld(front, end, before, into.plane, pull.out.plane, pull.out.to)];
}

/** The front of one plane has closed again behind a court: what comes is a face of its own, so none has a hole. */
function closeBehindCourt(front: MovingFront, corner: Corner): void {
  const { into, out } = corner;
  const [before, after] = [into.from, out.to];
  const later: Plane = { ...out.plane };
  const here = settleCorner(front, corner);
  const end = settleCorner(front, after);
  for (const side of [into, out, after.out]) kill(front, side);
  addArc(front, later, out.plane, here, end);
  const last = bear(front, end, later, after.out.plane);
  const first = bear(front, here, into.plane, later);
  join(front, before, first, into.plane);
  join(front, first, last, later);
  join(front, last, after.out.to, after.out.plane);
}

/** Two planes have come in line with different pitches: the shallower goes on over both. */
function spreadShallower(front: MovingFront, corner: Corner): Corner {
  const { into, out } = corner;
  const [before, after] = [into.from, out.to];
  const here = settleCorner(front, corner);
  for (const side of [into, out]) kill(front, side);
  if (into.plane.speed > out.plane.speed) {
    const end = settleCorner(front, after);
    addArc(front, into.plane, out.plane, here, end);
    const { plane, to } = after.out;
    kill(front, after.out);
    return weld(front, end, before, into.plane, plane, to);
  }
  const end = settleCorner(front, before);
  addArc(front, out.plane, into.plane, end, here);
  const { plane, from } = before.into;
  kill(front, before.into);
  return weld(front, end, from, plane, out.plane, after);
}

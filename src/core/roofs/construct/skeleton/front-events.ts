import { dot2, sub2 } from '../../../geometry/vector.ts';
import { type Corner, cornerAt, frontAt, type Side } from './front.ts';
import type { Heap } from './heap.ts';
import type { MovingFront } from './moving-front.ts';

export type FrontEvent =
  | { readonly kind: 'shrink'; readonly side: Side }
  | { readonly kind: 'hit'; readonly corner: Corner; readonly side: Side };

/** Works out when the sides that have come will shrink to nothing, and when corners and sides will run into each other. */
export function schedule(front: MovingFront, events: Heap<FrontEvent>): void {
  const { fresh, reflex, sides, now } = front;
  const born = new Set<Corner>();
  for (const side of fresh) {
    if (!side.isAlive) continue;
    scheduleShrink(front, events, side);
    for (const corner of reflex) scheduleHit(front, events, corner, side);
    for (const corner of [side.from, side.to])
      if (corner.isReflex && corner.isAlive && corner.level === now) born.add(corner);
  }
  const isFresh = new Set(fresh);
  for (const corner of born) for (const side of sides) if (!isFresh.has(side)) scheduleHit(front, events, corner, side);
  front.fresh = [];
}

function scheduleShrink({ now, noise }: MovingFront, events: Heap<FrontEvent>, side: Side): void {
  const { along } = side.plane;
  const length = dot2(sub2(cornerAt(side.to, now), cornerAt(side.from, now)), along);
  const rate = dot2(sub2(side.to.velocity, side.from.velocity), along);
  if (length <= noise.near) events.push(now, { kind: 'shrink', side });
  else if (rate < 0) events.push(now - length / rate, { kind: 'shrink', side });
}

function scheduleHit({ now, noise }: MovingFront, events: Heap<FrontEvent>, corner: Corner, side: Side): void {
  if (side === corner.into || side === corner.out) return;
  const { near } = noise;
  const { plane, from, to } = side;
  const [nx, ny] = plane.inward;
  const [vx, vy] = corner.velocity;
  const rate = nx * vx + ny * vy - plane.speed;
  if (rate >= 0) return;
  const run = now - corner.level;
  const gap = nx * (corner.at[0] + vx * run) + ny * (corner.at[1] + vy * run) - frontAt(plane, now);
  if (gap < -near) return;
  const when = now + Math.max(0, gap) / -rate;
  const place = placeAlong(side, corner, when);
  if (place < placeAlong(side, from, when) - near || place > placeAlong(side, to, when) + near) return;
  events.push(when, { kind: 'hit', corner, side });
}

/** How far along the direction of a side a corner will be at a level. */
function placeAlong({ plane: { along } }: Side, { at, velocity, level }: Corner, when: number): number {
  const run = when - level;
  return along[0] * (at[0] + velocity[0] * run) + along[1] * (at[1] + velocity[1] * run);
}

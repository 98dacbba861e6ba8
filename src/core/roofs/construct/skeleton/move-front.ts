import { at } from '../../../geometry/polygon.ts';
import { dot2, left2, sub2, unit2 } from '../../../geometry/vector.ts';
import { closeFaces } from './close-faces.ts';
import { type Corner, frontAt, type Plane } from './front.ts';
import { type FrontEvent, schedule } from './front-events.ts';
import { makeHeap } from './heap.ts';
import {
  addArc,
  addHalf,
  addNode,
  bear,
  join,
  kill,
  type MovingFront,
  type Noise,
  settleCorner,
  startFront,
} from './moving-front.ts';
import { resolve } from './resolve-events.ts';
import { settle } from './settle-front.ts';
import type { Skeleton, SkeletonFace, SkeletonInput, Stage } from './skeleton.ts';

/**
 * Roof over a polygon with holes, each eave edge with its own pitch: the weighted straight skeleton (O. Aichholzer,
 * F. Aurenhammer, D. Alberts, B. Gärtner, J.UCS 1, 1995), built by moving the front of level lines up the roof.
 *
 * Whatever happens at one level is resolved at once and by place: corners that come together there, and sides that a corner
 * runs into, become one node; the sides that arrive at and leave the node are then joined anew, each arriving side to the
 * first leaving one clockwise from it, so that every corner of the new front has the inside to its left. This needs no list of
 * cases: an edge that shrinks to nothing, a front that splits, and any number of them at one point are all the same. Then
 * fronts that have come to lie on each other are taken out as ridges, and where two planes have come in line with different
 * pitches the shallower one goes on over both. Corners are nodes by index from there on, so every face closes by topology.
 *
 * `near`: distance within which corners count as together. Throws nothing for valid input; returns null where the front does
 * not close up (no roof: all edges of a part upright) or the noise was too much for `near`.
 */
export function moveFront(input: SkeletonInput, noise: Noise): Skeleton | null {
  const front = startFront(noise);
  const events = makeHeap<FrontEvent>();
  settle(front, frontAtEave(front, input));
  schedule(front, events);
  const levels = [...new Set(input.profiles.flatMap((stages) => stages.slice(1).map((stage) => stage.level)))].sort(
    (a, b) => a - b,
  );
  for (let steps = 0; steps < 50 * input.profiles.length + 1000; steps++) {
    const when = events.peek();
    const change = levels.find((level) => level > front.now);
    const limit = Math.min(change ?? Number.POSITIVE_INFINITY, input.cap ?? Number.POSITIVE_INFINITY);
    if (when === undefined || when > limit) {
      if (!Number.isFinite(limit)) break;
      front.now = limit;
      if (limit === input.cap) break;
      settle(front, changeStage(front, input, limit));
      schedule(front, events);
      continue;
    }
    front.now = Math.max(front.now, when);
    const batch: FrontEvent[] = [];
    for (let next = events.peek(); next !== undefined && next <= front.now + noise.near; next = events.peek()) {
      const popped = events.pop();
      if (!popped) break;
      const { item } = popped;
      if (item.side.isAlive && (item.kind === 'shrink' || item.corner.isAlive)) batch.push(item);
    }
    if (batch.length === 0) continue;
    // Noise tells which comes first of what happens at one level: in the order of the eaves it is the same at every size.
    batch.sort((a, b) => a.side.plane.edge - b.side.plane.edge || arrivingOf(a) - arrivingOf(b));
    settle(front, resolve(front, batch));
    schedule(front, events);
  }
  if (front.sides.size > 0 && input.cap === undefined) return null;
  const tops = closeTop(front);
  return { nodes: front.nodes, faces: [...closeFaces(front.arcs, front.nodes), ...tops] };
}

/** The eave that arrives at the corner which runs into a side; of one that shrinks before all. */
const arrivingOf = (event: FrontEvent): number => (event.kind === 'hit' ? event.corner.into.plane.edge : -1);

/** The front where it starts, and its corners. */
function frontAtEave(front: MovingFront, { rings, profiles }: SkeletonInput): Corner[] {
  let count = 0;
  return rings.flatMap((ring) => {
    const first = count;
    count += ring.length;
    const own = ring.map((p, i): Plane => {
      const along = unit2(sub2(at(ring, i + 1), p));
      const inward = left2(along);
      const [stage] = profiles[first + i] as readonly [Stage];
      return { edge: first + i, stage: 0, along, inward, start: dot2(inward, p), level: 0, speed: stage.speed };
    });
    const corners = ring.map((p, i) => bear(front, addNode(front, p), at(own, i - 1), at(own, i)));
    corners.forEach((corner, i) => {
      join(front, corner, at(corners, i + 1), at(own, i));
      addHalf(front, at(own, i), corner.node, at(corners, i + 1).node);
    });
    return corners;
  });
}

/** Planes whose profile changes at this level go on with the next stage; returns the corners between them. */
function changeStage(front: MovingFront, { profiles }: SkeletonInput, level: number): Corner[] {
  const next = new Map<Plane, Plane>();
  for (const { plane } of front.sides) {
    const stages = profiles[plane.edge] ?? [];
    const stage = stages.findIndex((one) => one.level === level);
    if (stage < 1 || next.has(plane)) continue;
    const { speed } = stages[stage] as Stage;
    next.set(plane, { ...plane, stage, start: frontAt(plane, level), level, speed });
  }
  const changed = [...front.sides].filter((side) => next.has(side.plane));
  const touched = new Set(changed.flatMap((side) => [side.from, side.to]));
  const links = [...touched].map((corner) => ({ corner, node: settleCorner(front, corner) }));
  const nodeOf = new Map(links.map(({ corner, node }) => [corner, node]));
  for (const side of changed) {
    const [from, to] = [nodeOf.get(side.from) as number, nodeOf.get(side.to) as number];
    addArc(front, next.get(side.plane) as Plane, side.plane, from, to);
  }
  const renewed = new Map(
    links.map(({ corner, node }) => {
      const into = next.get(corner.into.plane) ?? corner.into.plane;
      const out = next.get(corner.out.plane) ?? corner.out.plane;
      return [corner, bear(front, node, into, out)] as const;
    }),
  );
  const around = new Set(links.flatMap(({ corner }) => [corner.into, corner.out]));
  for (const side of around) {
    kill(front, side);
    join(
      front,
      renewed.get(side.from) ?? side.from,
      renewed.get(side.to) ?? side.to,
      next.get(side.plane) ?? side.plane,
    );
  }
  return [...renewed.values()];
}

/** What is left of the front becomes the edge of a flat top. */
function closeTop(front: MovingFront): SkeletonFace[] {
  const tops: SkeletonFace[] = [];
  const nodeOf = new Map<Corner, number>();
  const open = new Set([...front.sides].map((side) => side.from));
  for (const corner of open) nodeOf.set(corner, settleCorner(front, corner));
  for (const { plane, from, to } of front.sides)
    addHalf(front, plane, nodeOf.get(to) as number, nodeOf.get(from) as number);
  for (const start of open) {
    const loop: number[] = [];
    for (let corner = start; open.delete(corner); corner = corner.out.to) loop.push(nodeOf.get(corner) as number);
    if (loop.length > 2) tops.push({ edge: -1, stage: 0, loop });
  }
  return tops;
}

import { at } from '../../../geometry/polygon.ts';
import { cross2, distance2, dot2, left2, sub2, unit2, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import { type Arc, closeFaces } from './close-faces.ts';
import { type Corner, cornerAt, frontAt, meetingOf, type Plane, type Side, velocityBetween } from './front.ts';
import { makeHeap } from './heap.ts';
import type { Skeleton, SkeletonFace, SkeletonInput, Stage } from './skeleton.ts';

/** How far noise may move things. */
export interface Noise {
  /** Distance within which corners count as together. */
  readonly near: number;
  /** Sine below which two directions count as parallel. */
  readonly parallel: number;
}

type Event =
  | { readonly kind: 'shrink'; readonly side: Side }
  | { readonly kind: 'hit'; readonly corner: Corner; readonly side: Side };

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
export function moveFront(input: SkeletonInput, { near, parallel }: Noise): Skeleton | null {
  const nodes: Vec3[] = [];
  const half: Arc[] = [];
  const events = makeHeap<Event>();
  const reflex = new Set<Corner>();
  const sides = new Set<Side>();
  let now = 0;

  const addNode = ([x, y]: Vec2): number => nodes.push([x, y, now]) - 1;
  const addHalf = (plane: Plane, from: number, to: number): void => {
    if (from !== to) half.push({ plane, from, to });
  };
  /** An arc between two planes: in the direction from → to the first plane lies to the left. */
  const addArc = (left: Plane, right: Plane, from: number, to: number): void => {
    addHalf(left, from, to);
    addHalf(right, to, from);
  };
  const finish = (corner: Corner, node: number): void => {
    if (!corner.isAlive) return;
    corner.isAlive = false;
    reflex.delete(corner);
    addArc(corner.into.plane, corner.out.plane, corner.node, node);
  };
  const kill = (side: Side): void => {
    side.isAlive = false;
    sides.delete(side);
  };
  const bear = (node: number, into: Plane, out: Plane): Corner => {
    const [x, y] = nodes[node] as Vec3;
    const corner = {
      node,
      at: [x, y] as const,
      level: now,
      velocity: velocityBetween(into, out, parallel),
      isReflex: meetingOf(into, out, parallel) === 'turned' && cross2(into.along, out.along) < 0,
      isAlive: true,
    } as Corner;
    if (corner.isReflex) reflex.add(corner);
    return corner;
  };
  const join = (from: Corner, to: Corner, plane: Plane): Side => {
    const side: Side = { plane, from, to, isAlive: true };
    from.out = side;
    to.into = side;
    sides.add(side);
    fresh.push(side);
    return side;
  };
  let fresh: Side[] = [];

  // The front at the eave.
  const starts: Corner[][] = [];
  let count = 0;
  for (const ring of input.rings) {
    const first = count;
    const own = ring.map((p, i): Plane => {
      const along = unit2(sub2(at(ring, i + 1), p));
      const inward = left2(along);
      const [stage] = input.profiles[first + i] as readonly [Stage];
      return { edge: first + i, stage: 0, along, inward, start: dot2(inward, p), level: 0, speed: stage.speed };
    });
    count += ring.length;
    const corners = ring.map((p, i) => bear(addNode(p), at(own, i - 1), at(own, i)));
    corners.forEach((corner, i) => {
      join(corner, at(corners, i + 1), at(own, i));
      addHalf(at(own, i), corner.node, at(corners, i + 1).node);
    });
    starts.push(corners);
  }

  const scheduleShrink = (side: Side): void => {
    const { along } = side.plane;
    const length = dot2(sub2(cornerAt(side.to, now), cornerAt(side.from, now)), along);
    const rate = dot2(sub2(side.to.velocity, side.from.velocity), along);
    if (length <= near) events.push(now, { kind: 'shrink', side });
    else if (rate < 0) events.push(now - length / rate, { kind: 'shrink', side });
  };
  const scheduleHit = (corner: Corner, side: Side): void => {
    if (side === corner.into || side === corner.out) return;
    const { plane, from, to } = side;
    const [nx, ny] = plane.inward;
    const [vx, vy] = corner.velocity;
    const rate = nx * vx + ny * vy - plane.speed;
    if (rate >= 0) return;
    const run = now - corner.level;
    const gap = nx * (corner.at[0] + vx * run) + ny * (corner.at[1] + vy * run) - frontAt(plane, now);
    if (gap < -near) return;
    const when = now + Math.max(0, gap) / -rate;
    const [ax, ay] = plane.along;
    const along = ({ at: [x, y], velocity: [u, v], level }: Corner): number =>
      ax * (x + u * (when - level)) + ay * (y + v * (when - level));
    const place = along(corner);
    if (place < along(from) - near || place > along(to) + near) return;
    events.push(when, { kind: 'hit', corner, side });
  };
  const schedule = (): void => {
    const born = new Set<Corner>();
    for (const side of fresh) {
      if (!side.isAlive) continue;
      scheduleShrink(side);
      for (const corner of reflex) scheduleHit(corner, side);
      for (const corner of [side.from, side.to])
        if (corner.isReflex && corner.isAlive && corner.level === now) born.add(corner);
    }
    const isFresh = new Set(fresh);
    for (const corner of born) for (const side of sides) if (!isFresh.has(side)) scheduleHit(corner, side);
    fresh = [];
  };

  /** Joins arriving to leaving sides round one node and returns the corners born there. */
  const rejoin = (node: number, arriving: readonly Side[], leaving: readonly Side[]): Corner[] => {
    const pairs: { readonly turn: number; readonly into: Side; readonly out: Side }[] = [];
    for (const into of arriving) {
      const back: Vec2 = [-into.plane.along[0], -into.plane.along[1]];
      for (const out of leaving) {
        const turn = Math.atan2(cross2(out.plane.along, back), dot2(out.plane.along, back));
        // A hair under a full turn is no turn: fronts that lie on each other have nothing between them.
        pairs.push({ turn: turn < -parallel ? turn + 2 * Math.PI : turn, into, out });
      }
    }
    pairs.sort((a, b) => a.turn - b.turn);
    const used = new Set<Side>();
    const born: Corner[] = [];
    const links: { into: Side; out: Side; corner: Corner }[] = [];
    for (const { into, out } of pairs) {
      if (used.has(into) || used.has(out)) continue;
      used.add(into).add(out);
      const corner = bear(node, into.plane, out.plane);
      links.push({ into, out, corner });
      born.push(corner);
    }
    for (const { into, out, corner } of links) {
      for (const side of [into, out]) if (side.isAlive) kill(side);
      join(into.from, corner, into.plane);
      join(corner, out.to, out.plane);
    }
    return born;
  };

  /** Everything that happens at the level `now`, by place. */
  const resolve = (batch: readonly Event[]): void => {
    const places: Place[] = [];
    const placeAt = (point: Vec2): Place => {
      const known = places.find((place) => distance2(place.point, point) <= near);
      if (known) return known;
      const place: Place = { point, corners: new Set() };
      places.push(place);
      return place;
    };
    const put = (place: Place, corner: Corner): Place => {
      const other = places.find((one) => one !== place && one.corners.has(corner));
      if (other) {
        for (const one of place.corners) other.corners.add(one);
        places.splice(places.indexOf(place), 1);
        return other;
      }
      place.corners.add(corner);
      return place;
    };
    const splits = new Map<Side, Vec2[]>();
    for (const event of batch) {
      const { side } = event;
      if (!side.isAlive) continue;
      if (event.kind === 'shrink') {
        const place = put(placeAt(cornerAt(side.from, now)), side.from);
        put(place, side.to);
        continue;
      }
      const { corner } = event;
      if (!corner.isAlive) continue;
      const point = cornerAt(corner, now);
      const place = put(placeAt(point), corner);
      if (distance2(point, cornerAt(side.from, now)) <= near) put(place, side.from);
      else if (distance2(point, cornerAt(side.to, now)) <= near) put(place, side.to);
      else splits.set(side, [...(splits.get(side) ?? []), point]);
    }
    // A side that is run into gets a corner there, in line.
    for (const [side, points] of splits) {
      const { plane } = side;
      const along = (p: Vec2): number => dot2(p, plane.along);
      const distinct = points
        .sort((p, q) => along(p) - along(q))
        .filter((p, i, all) => i === 0 || along(p) - along(at(all, i - 1)) > near);
      kill(side);
      let from = side.from;
      for (const point of distinct) {
        const place = placeAt(point);
        const corner = {
          node: -1,
          at: point,
          level: now,
          velocity: [0, 0],
          isReflex: false,
          isAlive: true,
        } as unknown as Corner;
        join(from, corner, plane);
        place.corners.add(corner);
        from = corner;
      }
      join(from, side.to, plane);
    }

    const born: Corner[] = [];
    for (const { corners } of places) {
      const all = [...corners].filter((corner) => corner.isAlive);
      if (all.length === 0) continue;
      const node = addNode(meanOf(all.map((corner) => cornerAt(corner, now))));
      const arriving = all.map((corner) => corner.into).filter((side) => !corners.has(side.from));
      const leaving = all.map((corner) => corner.out).filter((side) => !corners.has(side.to));
      for (const corner of all) {
        for (const side of [corner.into, corner.out]) if (corners.has(side.from) && corners.has(side.to)) kill(side);
      }
      for (const corner of all) {
        if (corner.node >= 0) finish(corner, node);
        corner.isAlive = false;
        reflex.delete(corner);
      }
      born.push(...rejoin(node, arriving, leaving));
    }
    settle(born);
  };

  /** The node of a corner at this level; the corner ends there. */
  const settleCorner = (corner: Corner): number => {
    if (corner.level === now) {
      corner.isAlive = false;
      reflex.delete(corner);
      return corner.node;
    }
    const node = addNode(cornerAt(corner, now));
    finish(corner, node);
    return node;
  };

  /** Takes out fronts that lie on each other, and lets the shallower of two planes in line go on over both. */
  const settle = (born: readonly Corner[]): void => {
    const work = [...born];
    for (let corner = work.pop(); corner; corner = work.pop()) {
      if (!corner.isAlive) continue;
      const { into, out } = corner;
      const [before, after] = [into.from, out.to];
      if (before === corner) {
        corner.isAlive = false;
        kill(into);
        continue;
      }
      const meeting = meetingOf(into.plane, out.plane, parallel);
      if (before === after || meeting === 'opposed') {
        const here = settleCorner(corner);
        const there = nodes[here] as Vec3;
        const [a, b] = [before, after].map((one) => distance2(cornerAt(one, now), [there[0], there[1]])) as [
          number,
          number,
        ];
        for (const side of [into, out]) kill(side);
        const isBeforeEnd = before === after || a <= b + near;
        const isAfterEnd = before === after || b <= a + near;
        const pull = { into: before.into, out: after.out };
        const first = isBeforeEnd ? before : after;
        const end = settleCorner(first);
        // Seen along `out`, away from the corner, its own plane lies to the left.
        addHalf(out.plane, end, here);
        addHalf(into.plane, here, end);
        if (before === after) {
          // Two corners only: the ridge closes this part of the front.
          continue;
        }
        if (isBeforeEnd && isAfterEnd) {
          const last = settleCorner(after);
          if (last !== end) {
            mergeNode(last, end);
          }
          for (const side of [pull.into, pull.out]) kill(side);
          if (pull.into === pull.out) continue;
          work.push(weld(end, pull.into.from, pull.into.plane, pull.out.plane, pull.out.to));
        } else if (isBeforeEnd) {
          kill(pull.into);
          work.push(weld(end, pull.into.from, pull.into.plane, out.plane, after));
        } else {
          kill(pull.out);
          work.push(weld(end, before, into.plane, pull.out.plane, pull.out.to));
        }
      } else if (meeting === 'in-line' && into.plane === out.plane) {
        // The front of one plane has closed again behind a court: what comes is a face of its own, so none has a hole.
        const later: Plane = { ...out.plane };
        const here = settleCorner(corner);
        const end = settleCorner(after);
        for (const side of [into, out, after.out]) kill(side);
        addArc(later, out.plane, here, end);
        const last = bear(end, later, after.out.plane);
        const first = bear(here, into.plane, later);
        join(before, first, into.plane);
        join(first, last, later);
        join(last, after.out.to, after.out.plane);
      } else if (meeting === 'in-line' && into.plane.speed !== out.plane.speed) {
        const here = settleCorner(corner);
        for (const side of [into, out]) kill(side);
        if (into.plane.speed > out.plane.speed) {
          const end = settleCorner(after);
          addArc(into.plane, out.plane, here, end);
          const { plane, to } = after.out;
          kill(after.out);
          work.push(weld(end, before, into.plane, plane, to));
        } else {
          const end = settleCorner(before);
          addArc(out.plane, into.plane, end, here);
          const { plane, from } = before.into;
          kill(before.into);
          work.push(weld(end, from, plane, out.plane, after));
        }
      }
    }
  };
  const weld = (node: number, from: Corner, into: Plane, out: Plane, to: Corner): Corner => {
    const corner = bear(node, into, out);
    join(from, corner, into);
    join(corner, to, out);
    return corner;
  };
  /** Two nodes turned out to be one. */
  const mergeNode = (drop: number, keep: number): void => {
    half.forEach((arc, i) => {
      half[i] = { ...arc, from: arc.from === drop ? keep : arc.from, to: arc.to === drop ? keep : arc.to };
    });
  };

  const stageLevels = [
    ...new Set(input.profiles.flatMap((stages) => stages.slice(1).map((stage) => stage.level))),
  ].sort((a, b) => a - b);

  /** Planes whose profile changes at this level go on with the next stage. */
  const changeStage = (level: number): void => {
    const next = new Map<Plane, Plane>();
    for (const { plane } of sides) {
      const stages = input.profiles[plane.edge] ?? [];
      const stage = stages.findIndex((one) => one.level === level);
      if (stage < 1 || next.has(plane)) continue;
      const { speed } = stages[stage] as Stage;
      next.set(plane, { ...plane, stage, start: frontAt(plane, level), level, speed });
    }
    const changed = [...sides].filter((side) => next.has(side.plane));
    const touched = new Set(changed.flatMap((side) => [side.from, side.to]));
    const links = [...touched].map((corner) => ({ corner, node: settleCorner(corner) }));
    const nodeOf = new Map(links.map(({ corner, node }) => [corner, node]));
    for (const side of changed) {
      const [from, to] = [nodeOf.get(side.from) as number, nodeOf.get(side.to) as number];
      addArc(next.get(side.plane) as Plane, side.plane, from, to);
    }
    const renewed = new Map(
      links.map(({ corner, node }) => {
        const into = next.get(corner.into.plane) ?? corner.into.plane;
        const out = next.get(corner.out.plane) ?? corner.out.plane;
        return [corner, bear(node, into, out)] as const;
      }),
    );
    const around = new Set(links.flatMap(({ corner }) => [corner.into, corner.out]));
    for (const side of around) {
      kill(side);
      join(renewed.get(side.from) ?? side.from, renewed.get(side.to) ?? side.to, next.get(side.plane) ?? side.plane);
    }
    settle([...renewed.values()]);
  };

  settle(starts.flat());
  schedule();
  for (let steps = 0; steps < 50 * count + 1000; steps++) {
    const when = events.peek();
    const change = stageLevels.find((level) => level > now);
    const limit = Math.min(change ?? Number.POSITIVE_INFINITY, input.cap ?? Number.POSITIVE_INFINITY);
    if (when === undefined || when > limit) {
      if (!Number.isFinite(limit)) break;
      now = limit;
      if (limit === input.cap) break;
      changeStage(limit);
      schedule();
      continue;
    }
    now = Math.max(now, when);
    const batch: Event[] = [];
    for (let next = events.peek(); next !== undefined && next <= now + near; next = events.peek()) {
      const popped = events.pop();
      if (!popped) break;
      const { item } = popped;
      if (item.side.isAlive && (item.kind === 'shrink' || item.corner.isAlive)) batch.push(item);
    }
    if (batch.length === 0) continue;
    resolve(batch);
    schedule();
  }
  const tops: SkeletonFace[] = [];
  if (sides.size > 0) {
    if (input.cap === undefined) return null;
    const nodeOf = new Map<Corner, number>();
    const open = new Set([...sides].map((side) => side.from));
    for (const corner of open) nodeOf.set(corner, settleCorner(corner));
    for (const { plane, from, to } of sides) addHalf(plane, nodeOf.get(to) as number, nodeOf.get(from) as number);
    for (const start of open) {
      const loop: number[] = [];
      for (let corner = start; open.delete(corner); corner = corner.out.to) loop.push(nodeOf.get(corner) as number);
      if (loop.length > 2) tops.push({ edge: -1, stage: 0, loop });
    }
  }
  return { nodes, faces: [...closeFaces(half, nodes), ...tops] };
}

interface Place {
  readonly point: Vec2;
  readonly corners: Set<Corner>;
}

function meanOf(points: readonly Vec2[]): Vec2 {
  const sum = points.reduce<Vec2>((s, p) => [s[0] + p[0], s[1] + p[1]], [0, 0]);
  return [sum[0] / points.length, sum[1] / points.length];
}

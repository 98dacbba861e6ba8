import { at, meanPoint } from '../../../geometry/polygon.ts';
import { cross2, distance2, dot2, type Vec2 } from '../../../geometry/vector.ts';
import { type Corner, cornerAt, type Side } from './front.ts';
import type { FrontEvent } from './front-events.ts';
import { addNode, bear, drop, finish, join, kill, type MovingFront } from './moving-front.ts';

/** Corners that have come together. */
interface Place {
  readonly point: Vec2;
  readonly corners: Set<Corner>;
}

/** Everything that happens at the level `now`, by place; returns the corners that are born there. */
export function resolve(front: MovingFront, batch: readonly FrontEvent[]): Corner[] {
  const { places, splits } = gather(front, batch);
  for (const [side, points] of splits) splitSide(front, side, points, places);
  const born: Corner[] = [];
  for (const { corners } of places.all) {
    const all = [...corners].filter((corner) => corner.isAlive);
    if (all.length === 0) continue;
    const node = addNode(front, meanPoint(all.map((corner) => cornerAt(corner, front.now))));
    const arriving = all.map((corner) => corner.into).filter((side) => !corners.has(side.from));
    const leaving = all.map((corner) => corner.out).filter((side) => !corners.has(side.to));
    for (const corner of all) {
      for (const side of [corner.into, corner.out])
        if (corners.has(side.from) && corners.has(side.to)) kill(front, side);
    }
    for (const corner of all) {
      if (corner.node >= 0) finish(front, corner, node);
      drop(front, corner);
    }
    born.push(...rejoin(front, node, arriving, leaving));
  }
  return born;
}

interface Places {
  readonly all: readonly Place[];
  readonly at: (point: Vec2) => Place;
  /** Puts a corner to a place, or the place to the one that already has the corner. */
  readonly put: (place: Place, corner: Corner) => Place;
}

function makePlaces(near: number): Places {
  const all: Place[] = [];
  return {
    all,
    at: (point) => {
      const known = all.find((place) => distance2(place.point, point) <= near);
      if (known) return known;
      const place: Place = { point, corners: new Set() };
      all.push(place);
      return place;
    },
    put: (place, corner) => {
      const other = all.find((one) => one !== place && one.corners.has(corner));
      if (!other) {
        place.corners.add(corner);
        return place;
      }
      for (const one of place.corners) other.corners.add(one);
      all.splice(all.indexOf(place), 1);
      return other;
    },
  };
}

/** Which corners come together, and where sides are run into away from their ends. */
function gather(
  { now, noise: { near } }: MovingFront,
  batch: readonly FrontEvent[],
): { readonly places: Places; readonly splits: ReadonlyMap<Side, Vec2[]> } {
  const places = makePlaces(near);
  const splits = new Map<Side, Vec2[]>();
  for (const event of batch) {
    const { side } = event;
    if (!side.isAlive) continue;
    if (event.kind === 'shrink') {
      const place = places.put(places.at(cornerAt(side.from, now)), side.from);
      places.put(place, side.to);
      continue;
    }
    const { corner } = event;
    if (!corner.isAlive) continue;
    const point = cornerAt(corner, now);
    const place = places.put(places.at(point), corner);
    if (distance2(point, cornerAt(side.from, now)) <= near) places.put(place, side.from);
    else if (distance2(point, cornerAt(side.to, now)) <= near) places.put(place, side.to);
    else splits.set(side, [...(splits.get(side) ?? []), point]);
  }
  return { places, splits };
}

/** A side that is run into gets a corner there, in line. */
function splitSide(front: MovingFront, side: Side, points: Vec2[], places: Places): void {
  const { plane } = side;
  const along = (p: Vec2): number => dot2(p, plane.along);
  const distinct = points
    .sort((p, q) => along(p) - along(q))
    .filter((p, i, all) => i === 0 || along(p) - along(at(all, i - 1)) > front.noise.near);
  kill(front, side);
  let from = side.from;
  for (const point of distinct) {
    const place = places.at(point);
    const corner = {
      node: -1,
      at: point,
      level: front.now,
      velocity: [0, 0],
      isReflex: false,
      isAlive: true,
    } as unknown as Corner;
    join(front, from, corner, plane);
    place.corners.add(corner);
    from = corner;
  }
  join(front, from, side.to, plane);
}

/** Joins arriving to leaving sides round one node and returns the corners born there. */
function rejoin(front: MovingFront, node: number, arriving: readonly Side[], leaving: readonly Side[]): Corner[] {
  const pairs: { readonly turn: number; readonly into: Side; readonly out: Side }[] = [];
  for (const into of arriving) {
    const back: Vec2 = [-into.plane.along[0], -into.plane.along[1]];
    for (const out of leaving) {
      const turn = Math.atan2(cross2(out.plane.along, back), dot2(out.plane.along, back));
      // A hair under a full turn is no turn: fronts that lie on each other have nothing between them.
      pairs.push({ turn: turn < -front.noise.parallel ? turn + 2 * Math.PI : turn, into, out });
    }
  }
  pairs.sort((a, b) => a.turn - b.turn);
  const used = new Set<Side>();
  const links: { readonly into: Side; readonly out: Side; readonly corner: Corner }[] = [];
  for (const { into, out } of pairs) {
    if (used.has(into) || used.has(out)) continue;
    used.add(into).add(out);
    links.push({ into, out, corner: bear(front, node, into.plane, out.plane) });
  }
  for (const { into, out, corner } of links) {
    for (const side of [into, out]) if (side.isAlive) kill(front, side);
    join(front, into.from, corner, into.plane);
    join(front, corner, out.to, out.plane);
  }
  return links.map(({ corner }) => corner);
}

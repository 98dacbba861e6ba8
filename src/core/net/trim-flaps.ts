import { boxGrid } from '../geometry/box-grid.ts';
import {
  areApart,
  at,
  type Box,
  boxOf,
  clipConvex,
  convexDepth,
  depthIn,
  type HalfPlane,
  leftOf,
  ringDistance,
} from '../geometry/polygon.ts';
import { alignSegments, apply2, inverse2, type Rigid2 } from '../geometry/rigid2.ts';
import { add2, distance2, dot2, left2, scale2, sub2, unit2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { FlapSpec } from '../project/project.ts';
import { pointInFace } from '../solid/face-frame.ts';
import { isFootOnFace } from '../solid/measure.ts';
import { type Edge, edgePath, type Solid } from '../solid/solid.ts';
import { isAtMost, isPositive, isSameLength, NOISE_MM } from '../tolerance.ts';
import { type Flap, flapEnds } from './net.ts';
import { areaBeside, areaOf, cutApart, type GlueSide, keepOff } from './part-flaps.ts';
import { teethAlong } from './teeth.ts';
import type { FlatSolid } from './unfold.ts';

/**
 * A flap in the frame of its seam: x along the seam, y into the panel it is glued to, so that the seam is y = 0.
 * Laid flat it lies just so beyond the edge of the panel that carries it.
 */
export interface SeamFlap {
  readonly seam: number;
  readonly from: number;
  readonly to: number;
  /** How many edges of the carrying panel's loop lie before it along the seam, and how many it takes: one unless it is a tooth. */
  readonly start: number;
  readonly edges: number;
  /** Length of its base on the seam, mm. */
  readonly length: number;
  /** How far it reaches before anything is trimmed off it, mm. */
  readonly meant: number;
  /** Convex, counter-clockwise, the first two points on the seam; empty where too little is left to glue. */
  readonly polygon: readonly Vec2[];
}

/** A flap is trimmed more exactly than `checkNet` looks. */
const TRIM_MM = NOISE_MM / 10;

/**
 * Trims every flap so that, folded under, it lies inside the panel it is glued to: clear of that panel's other edges and of
 * every other flap under it. Each cut is straight, so a flap stays convex. It begins as the strip of the wanted width along the
 * seam, cut square at the seam's ends, and is cut along each edge of the panel that comes nearer than the clearance; then two
 * flaps that come nearer to each other are cut apart, midway between their seams where that serves. A wall's flap gives way to
 * the flaps along the slope's own edges. Panels may have any simple shape. `wanted`: seams with the face that carries the flap
 * (a strip's half is the flap of the other face); flaps under one panel go together, those under others do not count.
 */
export function trimFlaps(
  flatSolid: FlatSolid,
  wanted: Iterable<readonly [seam: number, from: number]>,
  spec: FlapSpec,
  taken: readonly TakenRing[] = [],
): readonly SeamFlap[] {
  const { sides, strips } = trimSides(flatSolid, wanted, spec, taken);
  return sides.map(({ seam, from, to, a, b, start, edges, tooth, isTurnedOver }, i) => {
    const length = distance2(a, b);
    const toSeam = alignSegments(a, b, [0, 0], [length, 0]);
    const below = (strips[i] ?? []).map((p) => apply2(toSeam, p));
    // Behind a wall that stands on a panel the flap is turned over: printed side on printed side.
    const ring = isTurnedOver ? below.map(([x, y]): Vec2 => [length - x, y]).toReversed() : below;
    const polygon = fromSeam(ring, spec.least);
    // A tooth that has lost part of its base is left out: the next one holds.
    const isWhole = !tooth || (polygon.length > 0 && isSameLength(distance2(at(polygon, 0), at(polygon, 1)), length));
    const meant = Math.min(spec.width, tooth?.reach ?? spec.width);
    return { seam, from, to, start, edges, length, meant, polygon: isWhole ? polygon : [] };
  });
}

/** Where a flap of another part lies already, in the frame of the panel it is glued to. */
export interface TakenRing {
  readonly to: number;
  readonly ring: readonly Vec2[];
}

/** The rings of flaps under their panels, for what is glued there later to keep off. */
export function ringsUnder(
  flatSolid: FlatSolid,
  wanted: Iterable<readonly [seam: number, from: number]>,
  spec: FlapSpec,
): readonly TakenRing[] {
  const { sides, strips } = trimSides(flatSolid, wanted, spec, []);
  return sides.flatMap(({ to }, i) => {
    const ring = strips[i] ?? [];
    return ring.length < 3 ? [] : [{ to, ring }];
  });
}

/** The sides of flaps with what is left of each strip under its mate. */
function trimSides(
  flatSolid: FlatSolid,
  wanted: Iterable<readonly [seam: number, from: number]>,
  spec: FlapSpec,
  taken: readonly TakenRing[],
): { readonly sides: readonly GlueSide[]; readonly strips: readonly (readonly Vec2[])[] } {
  const { flat } = flatSolid;
  const sides = [...wanted].flatMap(([seam, from]) => glueSides(flatSolid, seam, from, spec));
  const under = new Map<number, number[]>();
  sides.forEach(({ to }, i) => {
    const known = under.get(to);
    if (known) known.push(i);
    else under.set(to, [i]);
  });
  const strips = sides.map((side) => {
    const own = insidePanel(strip(side, spec), side, flat[side.to] as readonly Vec2[], spec.clearance);
    // A wall's flap stays under the strip that a flap along the slope's own edge takes.
    const givesWayTo = side.isAbutment
      ? (under.get(side.to) ?? []).map((i) => sides[i] as GlueSide).filter((other) => !other.isAbutment)
      : [];
    const lying = side.isTurnedOver ? [] : taken.filter(({ to }) => to === side.to).map(({ ring }) => ring);
    return [...givesWayTo.map((other) => strip(other, spec)), ...lying].reduce<readonly Vec2[]>(
      (ring, other) => keepOff(ring, leftOf(side.a, side.b), other, spec.clearance),
      own,
    );
  });
  for (const together of under.values()) {
    // What flaps are cut to lies within what they begin as.
    const boxes = together.map((i) => boxOf(strips[i] ?? []));
    const grid = boxGrid();
    together.forEach((i, k) => {
      const side = sides[i] as GlueSide;
      for (const n of grid.near(boxes[k] as Box, spec.clearance)) {
        const j = together[n] as number;
        const other = sides[j] as GlueSide;
        // The teeth of one seam lean apart by themselves.
        if (other.seam === side.seam) continue;
        const apart = cutApart([strips[i] ?? [], side], [strips[j] ?? [], other], spec.clearance);
        if (apart) [strips[i], strips[j]] = apart;
      }
      grid.add(boxes[k] as Box);
    });
  }
  return { sides, strips };
}

/** The strip along the seam, in the frame of the panel it is glued to. */
function strip({ a, b, isAbutment, tooth }: GlueSide, { width, clearance }: FlapSpec): readonly Vec2[] {
  const along = unit2(sub2(b, a));
  if (tooth) {
    const depth = Math.min(width, tooth.reach);
    const [up, lean] = [scale2(left2(along), depth), scale2(along, depth * Math.tan(tooth.lean))];
    return [a, b, sub2(add2(b, up), lean), add2(add2(a, up), lean)];
  }
  const up = scale2(left2(along), width);
  // A wall's flap must not touch the body's top edge below it or the ridge above it.
  const end = scale2(along, isAbutment ? clearance : 0);
  const [from, to] = [add2(a, end), sub2(b, end)];
  return [from, to, add2(to, up), add2(from, up)];
}

/** What is left of a ring beside a seam once it is clear of every other edge of the panel. */
function insidePanel(
  start: readonly Vec2[],
  side: GlueSide,
  panel: readonly Vec2[],
  clearance: number,
): readonly Vec2[] {
  const { a, b, onSeam } = side;
  const seam = leftOf(a, b);
  const edges = panel.flatMap((p, i): readonly [Vec2, Vec2][] => {
    if (onSeam.has(i)) return [];
    const q = at(panel, i + 1);
    const isOnSeam = Math.abs(depthIn(seam, p)) <= NOISE_MM && Math.abs(depthIn(seam, q)) <= NOISE_MM;
    return isOnSeam ? [] : [[p, q]];
  });
  return clearOfEdges(start, side, edges, clearance);
}

/** What is left of a ring beside a seam from a to b once it keeps the clearance to each of these edges; empty where it has lost the seam. */
export function clearOfEdges(
  start: readonly Vec2[],
  { a, b }: Pick<GlueSide, 'a' | 'b'>,
  edges: readonly (readonly [Vec2, Vec2])[],
  clearance: number,
): readonly Vec2[] {
  const seam = leftOf(a, b);
  let ring = start;
  const around = boxOf(start);
  const within = edges.filter((edge) => !areApart(boxOf(edge), around, clearance));
  const isNear = (edge: readonly [Vec2, Vec2], of: readonly Vec2[]): boolean =>
    of.length > 2 && segmentDistance(edge, of) < clearance - TRIM_MM;
  // Every round clears at least one edge for good; the nearest edges of an inside corner may serve for each other.
  for (let round = 0; round < within.length; round++) {
    const near = within.filter((edge) => isNear(edge, ring));
    const [first] = near;
    if (!first) return ring;
    let [best, most]: [readonly Vec2[], number] = [[], 0];
    for (const edge of near) {
      for (const cut of [leftOf(...edge, clearance), ...shortOf(edge, a, b, clearance)]) {
        const kept = clipConvex(ring, cut);
        const area = areaBeside(kept, seam);
        if (area > most && !isNear(first, kept)) [best, most] = [kept, area];
      }
    }
    ring = best;
  }
  return ring;
}

/**
 * Cuts that end a flap short of an edge's ends, square to its seam from either side and along it: as far off as the clearance,
 * or where the edge runs back along the flap at a sharp angle, as far as the edge needs to open by the clearance.
 */
function shortOf([p, q]: readonly [Vec2, Vec2], a: Vec2, b: Vec2, clearance: number): readonly HalfPlane[] {
  const along = unit2(sub2(b, a));
  const edge = unit2(sub2(q, p));
  return [along, scale2(along, -1), scale2(left2(along), -1)].flatMap((normal) =>
    (
      [
        [p, edge],
        [q, scale2(edge, -1)],
      ] as const
    ).map(([end, away]) => {
      const cosine = dot2(away, normal);
      const reach = cosine > 0 ? clearance / Math.sqrt(1 - cosine * cosine) : clearance;
      return { normal, offset: dot2(normal, end) + reach };
    }),
  );
}

/** Distance between a segment and a convex ring, mm; under 0 where the segment reaches into the ring. */
function segmentDistance([p, q]: readonly [Vec2, Vec2], ring: readonly Vec2[]): number {
  const along = sub2(q, p);
  let from = 0;
  let to = 1;
  for (let i = 0; i < ring.length; i++) {
    const inner = leftOf(at(ring, i), at(ring, i + 1), TRIM_MM);
    const [depth, rate] = [depthIn(inner, p), dot2(inner.normal, along)];
    if (rate > 0) from = Math.max(from, -depth / rate);
    else if (rate < 0) to = Math.min(to, -depth / rate);
    else if (depth < 0) from = Number.POSITIVE_INFINITY;
  }
  return from < to ? -1 : ringDistance([p, q], ring);
}

/** A straight seam as it lies under the panel that its flap is glued to; of a curved one the base of each tooth. */
function glueSides(flatSolid: FlatSolid, seam: number, from: number, spec: FlapSpec): readonly GlueSide[] {
  const { solid, edgesOf } = flatSolid;
  const edge = solid.edges[seam] as Solid['edges'][number];
  const to = edge.faces.find((f) => f !== from) as number;
  const path = edgePath(edge).map((v) => pointInFace(solid, to, solid.vertices[v] as Vec3));
  // The edge runs in the direction of its first face's loop, with that face to the left.
  const isTurnedOver = edge.faces[0] !== to && isFootOnFace(solid, seam);
  const isAlong = (edge.faces[0] === to) !== isTurnedOver;
  const side = (first: number, last: number): GlueSide => ({
    seam,
    from,
    to,
    a: at(path, isAlong ? first : last),
    b: at(path, isAlong ? last : first),
    isAbutment: edge.role === 'abutment',
    isTurnedOver,
    // The carrying panel's loop runs along the edge the other way than the mate's, or at an abutment as the edge does.
    start: edge.faces[0] === from ? first : path.length - 1 - last,
    edges: last - first,
    tooth: null,
    onSeam: new Set((edgesOf[to] ?? []).flatMap((e, i) => (e === seam || runsAlong(solid.edges[e], edge) ? [i] : []))),
  });
  if (!edge.via) return [side(0, 1)];
  return teethAlong(solid, seam, { carrier: from, mate: to }, spec).map((tooth) => ({
    ...side(tooth.from, tooth.to),
    tooth,
  }));
}

/** Whether an edge is another between the same points: a plate meets the slopes along their eaves. */
const runsAlong = (other: Edge | undefined, { ends: [a, b], via }: Edge): boolean =>
  other !== undefined &&
  other.via?.length === via?.length &&
  ((other.ends[0] === a && other.ends[1] === b) || (other.ends[0] === b && other.ends[1] === a));

/** The ring from its seam side on; empty where it has lost the seam or is too small to hold glue. */
export function fromSeam(ring: readonly Vec2[], least: number): Vec2[] {
  const start = ring.findIndex(
    (p, i) => p[1] <= NOISE_MM && at(ring, i + 1)[1] <= NOISE_MM && at(ring, i + 1)[0] > p[0],
  );
  if (start < 0) return [];
  const turned = [...ring.slice(start), ...ring.slice(0, start)];
  const polygon = withoutRepeats(turned.map(([x, y]): Vec2 => (y <= NOISE_MM ? [x, 0] : [x, y])));
  const width = Math.max(...polygon.map((p) => p[1]));
  const base = distance2(at(polygon, 0), at(polygon, 1));
  return polygon.length < 3 || width < least || base < least ? [] : polygon;
}

const withoutRepeats = (ring: readonly Vec2[]): Vec2[] =>
  ring.filter((p, i) => i === 0 || isPositive(distance2(p, at(ring, i - 1))));

/** What a flap must keep off while flat: a convex ring in the piece's frame, and by how much, mm. */
export interface Obstacle {
  readonly ring: readonly Vec2[];
  readonly box: Box;
  readonly gap: number;
}

/**
 * Cuts a flap that lies flat beside its panel so that it keeps off the obstacles: along that edge of each obstacle that
 * leaves most of it. `place` takes the seam's frame to the piece's.
 */
export function trimFlat(
  polygon: readonly Vec2[],
  place: Rigid2,
  obstacles: readonly Obstacle[],
  least: number,
): readonly Vec2[] {
  const back = inverse2(place);
  const box = boxOf(polygon.map((p) => apply2(place, p)));
  let ring = polygon;
  for (const { ring: obstacle, box: around, gap } of obstacles) {
    if (ring.length === 0) break;
    if (areApart(box, around, gap)) continue;
    const there = obstacle.map((p) => apply2(back, p));
    const covers = convexDepth(ring, there) > TRIM_MM;
    if (!covers && isAtMost(gap, ringDistance(ring, there))) continue;
    const choices = there.map((p, i) => {
      const q = at(there, i + 1);
      return isPositive(distance2(p, q)) ? fromSeam(clipConvex(ring, leftOf(q, p, gap)), least) : [];
    });
    ring = choices.reduce((best, choice) => (areaOf(choice) > areaOf(best) ? choice : best));
  }
  return ring;
}

/** How far a flap reaches from its seam, mm. */
export const flapDepth = (flap: Pick<Flap, 'polygon' | 'base'>): number => {
  const [a, b] = flapEnds(flap);
  const seam = leftOf(a, b);
  return Math.max(...flap.polygon.map((p) => depthIn(seam, p)));
};

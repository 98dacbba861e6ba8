import { at, convexDepth, ringDistance } from '../geometry/polygon.ts';
import {
  add3,
  cross2,
  cross3,
  distance2,
  dot2,
  length2,
  scale3,
  sub2,
  sub3,
  unit3,
  type Vec2,
  type Vec3,
} from '../geometry/vector.ts';
import { normalAt } from '../solid/face-frame.ts';
import { type Edge, edgePath, type Face, type Solid } from '../solid/solid.ts';
import { NOISE_MM, NOISE_RAD, SNAP_MM } from '../tolerance.ts';
import type { Hem, Net, Piece } from './net.ts';

type Report = (code: string, message: string, numbers?: Record<string, number>) => void;

/**
 * Folds every hem up by its angle and looks where it comes to lie: level under the roof, with the clearance between the hems of
 * different eaves of one level and from every other such eave, teeth of one curve clear of each other.
 */
export function checkHems(solid: Solid, net: Net, clearance: number, found: Report): void {
  const under = net.pieces.flatMap((piece) => piece.hems.map((hem) => underEave(solid, piece, hem)));
  for (const { id, tilt } of under)
    if (!(tilt <= NOISE_RAD)) found('hem-tilted', `The hem at ${id} is not level.`, { tilt });
  under.forEach((a, i) => {
    for (const b of under.slice(0, i)) {
      if (Math.abs(a.level - b.level) > SNAP_MM) continue;
      const gap = convexDepth(a.ring, b.ring) > NOISE_MM ? -1 : ringDistance(a.ring, b.ring);
      if (gap < (a.edge === b.edge ? 0 : clearance) - NOISE_MM)
        found('hems-meet', `Hems at ${a.id} and ${b.id} meet.`, { gap });
    }
    solid.edges.forEach((edge, e) => {
      const [p, q] = edge.ends.map((v) => solid.vertices[v] as Vec3) as [Vec3, Vec3];
      const isOther = e !== a.edge && edge.faces.length === 1 && !edge.via && Math.abs(p[2] - a.level) <= SNAP_MM;
      if (!isOther || Math.abs(q[2] - a.level) > SNAP_MM || (edge.role !== 'eave' && edge.role !== 'foot')) return;
      const reach = crossedBy([p[0], p[1]], [q[0], q[1]], a.ring);
      if (reach > NOISE_MM) found('hem-outside', `The hem at ${a.id} shows beyond the edge ${edge.id}.`, { reach });
    });
  });
}

interface UnderEave {
  readonly edge: number;
  readonly id: string;
  readonly level: number;
  /** How far off the level it is turned, radians. */
  readonly tilt: number;
  /** In plan, without the bulge of a tooth's base. */
  readonly ring: readonly Vec2[];
}

function underEave(solid: Solid, { panels }: Piece, { edge, panel, polygon, base, angle }: Hem): UnderEave {
  const { face, polygon: laid } = panels[panel] as Piece['panels'][number];
  const { id } = solid.edges[edge] as Edge;
  const path = edgePath(solid.edges[edge] as Edge);
  const positionOf = (p: Vec2): number => {
    const vertex = solid.faces[face]?.loop[laid.findIndex((q) => distance2(p, q) <= NOISE_MM)];
    const position = path.indexOf(vertex ?? -1);
    if (position >= 0) return position;
    throw new Error(`a hem at ${id} does not begin and end on its edge`);
  };
  const point = (position: number): Vec3 => solid.vertices[path[position] as number] as Vec3;
  const straight = base === 1 && path.length === 2;
  const [end, start] = [at(polygon, 0), at(polygon, base)];
  const [from, to] = straight ? [0, 1] : [positionOf(start), positionOf(end)];
  const half = from + Math.floor((to - from - 1) / 2);
  const [a, b] = [point(half), point(half + 1)];
  const along = unit3(sub3(b, a));
  const normal = normalAt(solid.vertices, solid.faces[face] as Face, scale3(add3(a, b), 0.5));
  const beyond = cross3(along, normal);
  const turned = add3(scale3(beyond, Math.cos(angle)), scale3(normal, -Math.sin(angle)));
  const inwards = cross3([0, 0, 1], along);
  const [origin, far] = [point(from), point(to)];
  const across = unit3(sub3(far, origin));
  const inside = cross3([0, 0, 1], across);
  // A straight hem may begin short of its edge's end.
  const [first, last] = straight ? endsOfStraight(laid, polygon, distance2(start, end)) : [start, end];
  const u = sub2(last, first);
  const ring = [end, ...polygon.slice(base + 1).toReversed(), start].map((p): Vec2 => {
    const away = sub2(p, first);
    const [s, t] = [dot2(away, u) / length2(u), -cross2(u, away) / length2(u)];
    return [origin[0] + across[0] * s + inside[0] * t, origin[1] + across[1] * s + inside[1] * t];
  });
  return { edge, id, level: a[2], tilt: Math.hypot(...sub3(turned, inwards)), ring: ring.toReversed() };
}

/** The ends of the panel's edge that a straight hem lies along. */
function endsOfStraight(panel: readonly Vec2[], polygon: readonly Vec2[], length: number): readonly [Vec2, Vec2] {
  const [end, start] = [at(polygon, 0), at(polygon, 1)];
  const off = (p: Vec2): number => Math.abs(cross2(sub2(end, start), sub2(p, start))) / length;
  const holds = (p: Vec2, a: Vec2, b: Vec2): boolean =>
    dot2(sub2(p, a), sub2(b, a)) >= -NOISE_MM && dot2(sub2(p, b), sub2(a, b)) >= -NOISE_MM;
  const i = panel.findIndex((p, k) => {
    const q = at(panel, k + 1);
    return off(p) <= NOISE_MM && off(q) <= NOISE_MM && holds(start, p, q) && holds(end, p, q);
  });
  if (i < 0) throw new Error('a hem does not lie along an edge of its panel');
  return [at(panel, i), at(panel, i + 1)];
}

/** How far a segment reaches into a convex ring, mm; 0 where it does not. */
function crossedBy(p: Vec2, q: Vec2, ring: readonly Vec2[]): number {
  let [from, to] = [0, 1];
  ring.forEach((a, i) => {
    const side = sub2(at(ring, i + 1), a);
    const size = length2(side);
    if (size <= NOISE_MM) return;
    const depth = (r: Vec2): number => cross2(side, sub2(r, a)) / size - NOISE_MM;
    const [d, e] = [depth(p), depth(q)];
    if (d < 0 && e < 0) to = -1;
    else if (d < 0) from = Math.max(from, d / (d - e));
    else if (e < 0) to = Math.min(to, d / (d - e));
  });
  return to > from ? (to - from) * distance2(p, q) : 0;
}

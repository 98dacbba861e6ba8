import { at, distanceToSegment, isInside } from '../geometry/polygon.ts';
import { cross2, dot2, length2, sub2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Body } from '../project/project.ts';
import { faceNormal } from '../solid/build-solid.ts';
import type { Solid } from '../solid/solid.ts';
import { NOISE_MM } from '../tolerance.ts';

/** Corners of the eave outline in plan, counter-clockwise: the eaves joined at their ends, verges across the gables. */
export function eaveOutline(solid: Solid): readonly Vec2[] {
  const { vertices, edges, faces } = solid;
  const rim = edges.filter((edge) => edge.faces.length === 1 && faces[edge.faces[0] as number]?.part === 'slope');
  const next = new Map(rim.map(({ ends: [a, b] }) => [a, b]));
  // At a flush gable the upper part of the verge is a seam with the wall, so the chain goes on along that.
  for (const edge of edges) {
    const slope = edge.faces.find((f) => faces[f]?.part === 'slope');
    if (edge.role !== 'verge' || edge.faces.length !== 2 || slope === undefined) continue;
    const [a, b] = edge.faces[0] === slope ? edge.ends : ([edge.ends[1], edge.ends[0]] as const);
    next.set(a, b);
  }
  const first = rim.find((edge) => edge.role === 'eave')?.ends[0] ?? [...next.keys()][0];
  const outline: Vec2[] = [];
  let vertex = first;
  do {
    if (vertex === undefined) throw new Error('the rim of a solid is not closed');
    const [x, y] = vertices[vertex] as Vec3;
    outline.push([x, y]);
    vertex = next.get(vertex);
  } while (vertex !== first && outline.length <= vertices.length);
  return outline;
}

/**
 * Height of the eave plane over the table with the roof resting on its body, mm: the roof comes down until its underside
 * meets the top outer edge of the body's wall. Along a straight wall the underside is lowest at a corner or where the wall
 * passes under an edge of the roof, so only those points are looked at.
 */
export function restHeight(solid: Solid, body: Body): number {
  const points = body.outline.flatMap((p, i) => {
    const q = at(body.outline, i + 1);
    const crossings = solid.edges.flatMap((edge) => {
      const [a, b] = edge.ends.map((v) => solid.vertices[v] as Vec3) as [Vec3, Vec3];
      const hit = crossing(p, q, [a[0], a[1]], [b[0], b[1]]);
      return hit ? [hit] : [];
    });
    return [p, ...crossings];
  });
  const clear = points.map((p) => underside(solid, p)).filter((z) => z !== null);
  return body.height - (clear.length === 0 ? 0 : Math.min(...clear));
}

/** Where the segments pq and ab cross in plan; null where they are parallel or do not meet. */
function crossing(p: Vec2, q: Vec2, a: Vec2, b: Vec2): Vec2 | null {
  const along = sub2(q, p);
  const across = sub2(b, a);
  const turn = cross2(along, across);
  if (turn === 0) return null;
  const s = cross2(sub2(a, p), across) / turn;
  const r = cross2(sub2(a, p), along) / turn;
  return s < 0 || s > 1 || r < 0 || r > 1 ? null : [p[0] + along[0] * s, p[1] + along[1] * s];
}

/** Level of the lowest slope over a point of the plan; null outside the roof. */
function underside(solid: Solid, point: Vec2): number | null {
  const levels = solid.faces.flatMap((face) => {
    if (face.part !== 'slope') return [];
    const ring = face.loop.map((v): Vec2 => [solid.vertices[v]?.[0] ?? 0, solid.vertices[v]?.[1] ?? 0]);
    const isOver = isInside(point, ring) || isOnRing(point, ring);
    if (!isOver) return [];
    const n = faceNormal(solid.vertices, face);
    const o = solid.vertices[face.loop[0] as number] as Vec3;
    return [o[2] - (n[0] * (point[0] - o[0]) + n[1] * (point[1] - o[1])) / n[2]];
  });
  return levels.length === 0 ? null : Math.min(...levels);
}

const isOnRing = (p: Vec2, ring: readonly Vec2[]): boolean =>
  ring.some((a, i) => {
    const along = sub2(at(ring, i + 1), a);
    const away = sub2(p, a);
    const t = dot2(along, away);
    return (
      Math.abs(cross2(along, away)) <= NOISE_MM * length2(along) && t >= -NOISE_MM && t <= dot2(along, along) + NOISE_MM
    );
  });

/**
 * How far the eave stands out from each wall of the body, plan size, mm: straight out from both ends and the middle of each
 * wall to the eave outline; negative where the wall pokes out.
 */
export function overhangs(outline: readonly Vec2[], body: Body): readonly number[] {
  return body.outline.flatMap((p, i) => {
    const q = at(body.outline, i + 1);
    const along = sub2(q, p);
    const out: Vec2 = [along[1] / length2(along), -along[0] / length2(along)];
    return [0, 0.5, 1].map((s) => {
      const from: Vec2 = [p[0] + along[0] * s, p[1] + along[1] * s];
      return distanceOut(from, out, outline);
    });
  });
}

/** Signed distance from a point along a direction to where the line leaves the outline for good. */
function distanceOut(from: Vec2, out: Vec2, outline: readonly Vec2[]): number {
  let most = Number.NEGATIVE_INFINITY;
  outline.forEach((a, i) => {
    const b = at(outline, i + 1);
    const across = sub2(b, a);
    const turn = cross2(out, across);
    if (Math.abs(turn) <= NOISE_MM * length2(across)) return;
    const r = cross2(sub2(a, from), out) / turn;
    if (r < -NOISE_MM || r > 1 + NOISE_MM) return;
    most = Math.max(most, cross2(sub2(a, from), across) / turn);
  });
  // Not minus nothing, which is written differently.
  if (Number.isFinite(most)) return most + 0;
  // The line passes the outline by: the wall pokes out, as far as it is from the eave.
  return -Math.min(...outline.map((a, i) => distanceToSegment(from, a, at(outline, i + 1))));
}

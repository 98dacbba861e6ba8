import { ringsOf } from '../footprint/offset.ts';
import { areApart, at, type Box, boxOf, distanceToSegment, isInside } from '../geometry/polygon.ts';
import { cross2, dot2, length2, sub2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Body } from '../project/project.ts';
import { facetsOf, newellNormal } from '../solid/face-frame.ts';
import { edgePath, type Face, type Solid } from '../solid/solid.ts';
import { NOISE_MM, SNAP_MM } from '../tolerance.ts';

/**
 * Height of the eave plane over the table with the roof resting on its body, mm: the roof comes down until its underside
 * meets the top outer edge of the body's wall, or comes to lie on the body inside it. Along a straight wall the underside is
 * lowest at a corner or where the wall passes under an edge of the roof, inside at a corner of the roof, so only those points
 * are looked at. A roof that swells out over its eave stands on it.
 */
export function restHeight(solid: Solid, body: Body): number {
  if (solid.overhangs === 'from-foot') return body.height;
  const facets = slopeFacets(solid);
  const points = wallsOf(body).flatMap(([p, q]) => {
    const wall = boxOf([p, q]);
    const crossings = facets
      .filter(({ box }) => !areApart(wall, box))
      .flatMap(({ ring }) =>
        ring.flatMap((a, k) => {
          const hit = crossing(p, q, a, at(ring, k + 1));
          return hit ? [hit] : [];
        }),
      );
    return [p, ...crossings];
  });
  const inside = solid.vertices.map(([x, y]): Vec2 => [x, y]).filter((p) => isOverBody(p, body));
  const clear = [...points, ...inside].map((p) => underside(facets, p)).filter((z) => z !== null);
  return body.height - (clear.length === 0 ? 0 : Math.min(...clear));
}

type Line = readonly [Vec2, Vec2];

/** Every wall of the body and its courts, the building to its left. */
const wallsOf = ({ outline, courts }: Body): readonly Line[] =>
  ringsOf({ corners: outline, courts }).flatMap((ring) => ring.map((p, i): Line => [p, at(ring, i + 1)]));

const isOverBody = (p: Vec2, { outline, courts = [] }: Body): boolean =>
  isInside(p, outline) && !courts.some((court) => isInside(p, court));

/** Where the segments pq and ab cross in plan; null where they are parallel or do not meet. */
export function crossing(p: Vec2, q: Vec2, a: Vec2, b: Vec2): Vec2 | null {
  const along = sub2(q, p);
  const across = sub2(b, a);
  const turn = cross2(along, across);
  if (turn === 0) return null;
  const s = cross2(sub2(a, p), across) / turn;
  const r = cross2(sub2(a, p), along) / turn;
  return s < 0 || s > 1 || r < 0 || r > 1 ? null : [p[0] + along[0] * s, p[1] + along[1] * s];
}

/** A flat ring of the roof in plan. */
export interface PlanRing {
  readonly ring: readonly Vec2[];
  readonly box: Box;
}

/** A flat part of a slope, with its plane. */
export interface Facet extends PlanRing {
  readonly origin: Vec3;
  readonly normal: Vec3;
}

const planRing = (points: readonly (Vec2 | Vec3)[]): PlanRing => {
  const ring = points.map(([x, y]): Vec2 => [x, y]);
  return { ring, box: boxOf(ring) };
};

/** The flat rings that the slopes are made of. */
export const slopeFacets = (solid: Solid): readonly Facet[] =>
  solid.faces
    .filter((face) => face.part === 'slope')
    .flatMap((face) => facetsOf(face))
    .map((loop) => {
      const points = loop.map((v) => solid.vertices[v] as Vec3);
      return { ...planRing(points), origin: points[0] as Vec3, normal: newellNormal(points) };
    });

/** Most points lie outside the box around a ring, and that is soon said. */
const isNear = ({ box }: PlanRing, [x, y]: Vec2): boolean =>
  x >= box.minX - SNAP_MM && x <= box.maxX + SNAP_MM && y >= box.minY - SNAP_MM && y <= box.maxY + SNAP_MM;

const isOver = (plan: PlanRing, point: Vec2): boolean =>
  isNear(plan, point) && (isInside(point, plan.ring) || isOnRing(point, plan.ring));

/** Whether any panel lies over a point of the plan; upright ones have no area there. */
const isCovered = (panels: RoofPlan['panels'], point: Vec2): boolean =>
  panels.some((panel) =>
    panel.part === 'slope' ? isOver(panel, point) : isNear(panel, point) && isInside(point, panel.ring),
  );

/** Level of the lowest slope over a point of the plan; null outside the roof. */
function underside(facets: readonly Facet[], point: Vec2): number | null {
  const levels = levelsOver(facets, point);
  return levels.length === 0 ? null : Math.min(...levels);
}

/** Levels of all facets over a point of the plan, their edges included. */
export function levelsOver(facets: readonly Facet[], point: Vec2): readonly number[] {
  return facets
    .filter((facet) => isOver(facet, point))
    .map(({ origin: o, normal: n }) => o[2] - (n[0] * (point[0] - o[0]) + n[1] * (point[1] - o[1])) / n[2]);
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
 * wall to where the roof ends; negative where the wall pokes out. Not from a corner that points inwards: straight out from
 * there lies the other wing.
 */
export function overhangs(solid: Solid, body: Body): readonly number[] {
  const lines = solid.edges.flatMap((edge) => {
    const path = edgePath(edge).map((v): Vec2 => [solid.vertices[v]?.[0] ?? 0, solid.vertices[v]?.[1] ?? 0]);
    return path.slice(1).map((end, i): Line => [path[i] as Vec2, end]);
  });
  const panels = solid.faces.map(({ loop, part }) => ({
    part,
    ...planRing(loop.map((v) => solid.vertices[v] as Vec3)),
  }));
  const plan: RoofPlan = { panels, facets: slopeFacets(solid), lines };
  return ringsOf({ corners: body.outline, courts: body.courts }).flatMap((ring) =>
    ring.flatMap((p, i) => {
      const q = at(ring, i + 1);
      const along = sub2(q, p);
      const out: Vec2 = [along[1] / length2(along), -along[0] / length2(along)];
      const isOuter = (corner: number): boolean =>
        cross2(sub2(at(ring, corner), at(ring, corner - 1)), sub2(at(ring, corner + 1), at(ring, corner))) > 0;
      // A round wall has no corners.
      const shares = body.isRound ? [0.5] : [...(isOuter(i) ? [0] : []), 0.5, ...(isOuter(i + 1) ? [1] : [])];
      return shares.map((s) => distanceOut(plan, [p[0] + along[0] * s, p[1] + along[1] * s], out));
    }),
  );
}

interface RoofPlan {
  /** Every panel in plan. */
  readonly panels: readonly (PlanRing & { readonly part: Face['part'] })[];
  readonly facets: readonly Facet[];
  /** Every edge in plan, curved ones part by part. */
  readonly lines: readonly Line[];
}

/**
 * Signed distance from a point along a direction to where the roof ends: the first line over there with no roof beyond it.
 * From a point that no roof covers, back to where it begins.
 */
function distanceOut({ panels, facets, lines }: RoofPlan, from: Vec2, out: Vec2): number {
  const hits = lines
    .flatMap(([a, b]) => {
      const across = sub2(b, a);
      const turn = cross2(out, across);
      if (Math.abs(turn) <= NOISE_MM * length2(across)) return [];
      const r = cross2(sub2(a, from), out) / turn;
      return r < -NOISE_MM || r > 1 + NOISE_MM ? [] : [cross2(sub2(a, from), across) / turn];
    })
    .sort((a, b) => a - b);
  // Whether there is roof between a line and the next one beyond it.
  const goesOn = (hit: number): boolean => {
    const next = hits.find((other) => other > hit + NOISE_MM);
    if (next === undefined) return false;
    const middle = (hit + next) / 2;
    return isCovered(panels, [from[0] + out[0] * middle, from[1] + out[1] * middle]);
  };
  const found =
    underside(facets, from) === null
      ? hits.findLast((hit) => hit <= 0 && !goesOn(hit))
      : hits.find((hit) => hit >= -NOISE_MM && !goesOn(hit));
  // Not minus nothing, which is written differently.
  if (found !== undefined) return found + 0;
  // The line passes the roof by: the wall pokes out, as far as it is from the eave.
  return -Math.min(...lines.map(([a, b]) => distanceToSegment(from, a, b)));
}

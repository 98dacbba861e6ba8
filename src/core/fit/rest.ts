import { ringsOf } from '../footprint/offset.ts';
import { areApart, at, type Box, boxOf, isInside } from '../geometry/polygon.ts';
import { cross2, dot2, length2, sub2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Body } from '../project/project.ts';
import { facetsOf, newellNormal } from '../solid/face-frame.ts';
import type { Solid } from '../solid/solid.ts';
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
          const hit = crossing(p, q, planOf(a), planOf(at(ring, k + 1)));
          return hit ? [hit] : [];
        }),
      );
    return [p, ...crossings];
  });
  const inside = solid.vertices.map(([x, y]): Vec2 => [x, y]).filter((p) => isOverBody(p, body));
  const clear = [...points, ...inside].map((p) => underside(facets, p)).filter((z) => z !== null);
  return body.height - (clear.length === 0 ? 0 : Math.min(...clear));
}

export type Line = readonly [Vec2, Vec2];

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

/** A flat ring of the roof in plan; where its points have a level, that is left aside. */
export interface PlanRing {
  readonly ring: readonly (Vec2 | Vec3)[];
  readonly box: Box;
}

/** A flat part of a slope, with its plane. */
export interface Facet extends PlanRing {
  readonly origin: Vec3;
  /** Outward; worked out where it is asked for, since most facets lie nowhere near the point in question. */
  readonly normal: () => Vec3;
}

export const planRing = (ring: readonly (Vec2 | Vec3)[]): PlanRing => ({ ring, box: boxOf(ring) });

const planOf = (p: Vec2 | Vec3): Vec2 => [p[0], p[1]];

/** The flat rings that the slopes are made of. */
export const slopeFacets = (solid: Solid): readonly Facet[] =>
  solid.faces
    .filter((face) => face.part === 'slope')
    .flatMap((face) => facetsOf(face))
    .map((loop) => {
      const points = loop.map((v) => solid.vertices[v] as Vec3);
      return { ...planRing(points), origin: points[0] as Vec3, normal: once(() => newellNormal(points)) };
    });

function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

/** Most points lie outside the box around a ring, and that is soon said. */
export const isNear = ({ box }: PlanRing, p: Vec2): boolean =>
  p[0] >= box.minX - SNAP_MM && p[0] <= box.maxX + SNAP_MM && p[1] >= box.minY - SNAP_MM && p[1] <= box.maxY + SNAP_MM;

export const isOver = (plan: PlanRing, point: Vec2): boolean =>
  isNear(plan, point) && (isInside(point, plan.ring) || isOnRing(point, plan.ring));

/** Level of the lowest slope over a point of the plan; null outside the roof. */
export function underside(facets: readonly Facet[], point: Vec2): number | null {
  const levels = levelsOver(facets, point);
  return levels.length === 0 ? null : Math.min(...levels);
}

/** Levels of all facets over a point of the plan, their edges included. */
export function levelsOver(facets: readonly Facet[], point: Vec2): readonly number[] {
  return facets
    .filter((facet) => isOver(facet, point))
    .map(({ origin: o, normal }) => {
      const n = normal();
      return o[2] - (n[0] * (point[0] - o[0]) + n[1] * (point[1] - o[1])) / n[2];
    });
}

const isOnRing = (p: Vec2, ring: PlanRing['ring']): boolean => ring.some((a, i) => isOnSide(p, a, at(ring, i + 1)));

function isOnSide(p: Vec2, a: Vec2 | Vec3, b: Vec2 | Vec3): boolean {
  const along: Vec2 = [b[0] - a[0], b[1] - a[1]];
  const away: Vec2 = [p[0] - a[0], p[1] - a[1]];
  const t = dot2(along, away);
  return (
    Math.abs(cross2(along, away)) <= NOISE_MM * length2(along) && t >= -NOISE_MM && t <= dot2(along, along) + NOISE_MM
  );
}

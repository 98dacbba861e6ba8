import { ringsOf } from '../footprint/offset.ts';
import { type SideName, sideNames } from '../footprint/sides.ts';
import { at, distanceToSegment, isInside } from '../geometry/polygon.ts';
import { cross2, length2, sub2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Body } from '../project/project.ts';
import { edgePath, type Face, type Solid } from '../solid/solid.ts';
import { NOISE_MM } from '../tolerance.ts';
import { type Facet, isNear, isOver, type Line, type PlanRing, planRing, slopeFacets, underside } from './rest.ts';

/** How far the roof stands out from one wall of the body. */
export interface WallOverhang extends SideName {
  /** Plan distances straight out, mm: from both ends and the middle of the wall; negative where the wall pokes out. */
  readonly distances: readonly number[];
  /** The edge of the roof that each of them reaches, an index into `solid.edges`; null where it passes the roof by. */
  readonly edges: readonly (number | null)[];
}

const ALL_ROUND: SideName = { id: 'round', title: 'All round' };

/**
 * How far the eave stands out from each wall of the body, plan size, mm: straight out from both ends and the middle of each
 * wall to where the roof ends; negative where the wall pokes out. Not from a corner that points inwards: straight out from
 * there lies the other wing. A round body has one wall.
 */
export function overhangs(solid: Solid, body: Body): readonly WallOverhang[] {
  const lines = solid.edges.flatMap((edge, e) => {
    const path = edgePath(edge).map((v): Vec2 => [solid.vertices[v]?.[0] ?? 0, solid.vertices[v]?.[1] ?? 0]);
    return path.slice(1).map((end, i) => ({ edge: e, ends: [path[i] as Vec2, end] as const }));
  });
  const panels = solid.faces.map(({ loop, part }) => ({
    part,
    ...planRing(loop.map((v) => solid.vertices[v] as Vec3)),
  }));
  const plan: RoofPlan = { panels, facets: slopeFacets(solid), lines };
  const rings = ringsOf({ corners: body.outline, courts: body.courts });
  const names = sideNames(rings);
  const walls = rings
    .flatMap((ring) =>
      ring.map((p, i) => {
        const q = at(ring, i + 1);
        const along = sub2(q, p);
        const out: Vec2 = [along[1] / length2(along), -along[0] / length2(along)];
        const isOuter = (corner: number): boolean =>
          cross2(sub2(at(ring, corner), at(ring, corner - 1)), sub2(at(ring, corner + 1), at(ring, corner))) > 0;
        // A round wall has no corners.
        const shares = body.isRound ? [0.5] : [...(isOuter(i) ? [0] : []), 0.5, ...(isOuter(i + 1) ? [1] : [])];
        return shares.map((s) => distanceOut(plan, [p[0] + along[0] * s, p[1] + along[1] * s], out));
      }),
    )
    .map(
      (ends, i): WallOverhang => ({
        ...(names[i] as SideName),
        distances: ends.map((end) => end.distance),
        edges: ends.map((end) => end.edge),
      }),
    );
  if (!body.isRound) return walls;
  return [
    {
      ...ALL_ROUND,
      distances: walls.flatMap((wall) => wall.distances),
      edges: walls.flatMap((wall) => wall.edges),
    },
  ];
}

/** Whether any panel lies over a point of the plan; upright ones have no area there. */
const isCovered = (panels: RoofPlan['panels'], point: Vec2): boolean =>
  panels.some((panel) =>
    panel.part === 'slope' ? isOver(panel, point) : isNear(panel, point) && isInside(point, panel.ring),
  );

/** Where the roof ends, straight out from a point: how far off, and the edge there. */
interface RoofEnd {
  readonly edge: number | null;
  readonly distance: number;
}

interface RoofPlan {
  /** Every panel in plan. */
  readonly panels: readonly (PlanRing & { readonly part: Face['part'] })[];
  readonly facets: readonly Facet[];
  /** Every edge in plan, curved ones part by part. */
  readonly lines: readonly { readonly edge: number; readonly ends: Line }[];
}

/**
 * Signed distance from a point along a direction to where the roof ends: the first line over there with no roof beyond it.
 * From a point that no roof covers, back to where it begins.
 */
function distanceOut({ panels, facets, lines }: RoofPlan, from: Vec2, out: Vec2): RoofEnd {
  const hits = lines
    .flatMap(({ edge, ends: [a, b] }): RoofEnd[] => {
      const across = sub2(b, a);
      const turn = cross2(out, across);
      if (Math.abs(turn) <= NOISE_MM * length2(across)) return [];
      const r = cross2(sub2(a, from), out) / turn;
      return r < -NOISE_MM || r > 1 + NOISE_MM ? [] : [{ edge, distance: cross2(sub2(a, from), across) / turn }];
    })
    .sort((a, b) => a.distance - b.distance);
  // Whether there is roof between a line and the next one beyond it.
  const goesOn = (hit: number): boolean => {
    const next = hits.find((other) => other.distance > hit + NOISE_MM);
    if (next === undefined) return false;
    const middle = (hit + next.distance) / 2;
    return isCovered(panels, [from[0] + out[0] * middle, from[1] + out[1] * middle]);
  };
  const found =
    underside(facets, from) === null
      ? hits.findLast(({ distance }) => distance <= 0 && !goesOn(distance))
      : hits.find(({ distance }) => distance >= -NOISE_MM && !goesOn(distance));
  // Not minus nothing, which is written differently.
  if (found !== undefined) return { ...found, distance: found.distance + 0 };
  // The line passes the roof by: the wall pokes out, as far as it is from the eave.
  return { edge: null, distance: -Math.min(...lines.map(({ ends: [a, b] }) => distanceToSegment(from, a, b))) };
}

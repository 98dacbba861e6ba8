import { crossing, levelsOver, slopeFacets } from '../../fit/rest.ts';
import { at } from '../../geometry/polygon.ts';
import type { Vec2, Vec3 } from '../../geometry/vector.ts';
import { fail, type Result, succeed } from '../../issue.ts';
import type { Body } from '../../project/project.ts';
import { type AbutmentDraft, buildSolid, type FaceDraft } from '../../solid/build-solid.ts';
import { titleCase } from '../../solid/compass.ts';
import { edgePath, type Solid } from '../../solid/solid.ts';
import { NOISE_MM } from '../../tolerance.ts';
import { tiersMeet, upperHangsLow } from './tier-issues.ts';

export interface Tiers {
  readonly lower: Solid;
  /** Its height counts from the highest point at which it stands on the lower roof. */
  readonly wall: Body;
  readonly upper: Solid;
}

/** A tier's faces and abutments, its eave plane at the level. */
export interface TierDrafts {
  readonly faces: readonly FaceDraft[];
  readonly abutments: readonly AbutmentDraft[];
  readonly level: number;
}

/** The faces and abutments of a tier as drafts, its ids and titles after the tier, its eave plane at this level. */
export function draftsOf({ vertices, faces, edges }: Solid, tier: 'lower' | 'upper', level: number): TierDrafts {
  const place = (v: number): Vec3 => {
    const [x, y, z] = vertices[v] as Vec3;
    return [x, y, z + level];
  };
  const nameOf = (id: string): string => `${tier}-${id}`;
  /** Corners of a face that only sample a curve. */
  const sampled = (face: number): ReadonlySet<number> =>
    new Set(edges.flatMap((edge) => (edge.faces.includes(face) ? (edge.via ?? []) : [])));
  return {
    level,
    faces: faces.map(({ loop, ...face }, f) => {
      const curved = sampled(f);
      return {
        ...face,
        samples: loop.flatMap((v, i) => (curved.has(v) ? [i] : [])),
        id: nameOf(face.id),
        side: nameOf(face.side),
        title: `${titleCase(tier)} ${face.title.charAt(0).toLowerCase()}${face.title.slice(1)}`,
        points: loop.map(place),
      };
    }),
    abutments: edges.flatMap((edge): AbutmentDraft[] => {
      const [a, b] = edge.faces.map((f) => faces[f]);
      if (edge.role !== 'abutment' || !a || !b) return [];
      const path = edgePath(edge).map(place);
      return path.slice(1).map((end, i) => ({ wall: nameOf(a.id), slope: nameOf(b.id), ends: [at(path, i), end] }));
    }),
  };
}

/** Why two tiers cannot stand over each other: the upper hangs under the lower's eave, or the lower comes through it. */
export function checkTiers({ lower, upper }: Tiers, above: TierDrafts): Result<true> {
  const lowest = Math.min(...above.faces.flatMap(({ points }) => points.map((p) => p[2])));
  if (lowest < -NOISE_MM) return fail(upperHangsLow(-lowest));
  const through = reachThrough(lower, upper, above.level);
  return through > NOISE_MM ? fail(tiersMeet(through)) : succeed(true);
}

/** One solid of all the parts. */
export function joinTiers(
  { lower, upper }: Tiers,
  faces: readonly FaceDraft[],
  abutments: readonly AbutmentDraft[],
): Solid {
  const stacked = buildSolid(faces, abutments);
  const overhangs = lower.overhangs ?? (upper.overhangs && 'above');
  return overhangs ? { ...stacked, overhangs } : stacked;
}

/**
 * How far the lower roof comes up through the upper one, mm; 0 or under where it stays below. Both are flat between their
 * edges, so that it does so most at a corner of one of them or where an edge of one crosses an edge of the other in plan.
 */
function reachThrough(lower: Solid, upper: Solid, level: number): number {
  const levels = ({ vertices }: Solid): readonly number[] => vertices.map(([, , z]) => z);
  if (Math.max(...levels(lower)) <= level + Math.min(...levels(upper))) return 0;
  const segments = ({ vertices, edges }: Solid): (readonly [Vec2, Vec2])[] =>
    edges.map(({ ends: [a, b] }) => [plan(vertices[a] as Vec3), plan(vertices[b] as Vec3)]);
  const others = segments(upper);
  const places = [
    ...cornersOf(lower),
    ...cornersOf(upper),
    ...segments(lower).flatMap(([p, q]) =>
      others.flatMap(([a, b]) => {
        const place = crossing(p, q, a, b);
        return place ? [place] : [];
      }),
    ),
  ];
  const [under, above] = [slopeFacets(lower), slopeFacets(upper)];
  return Math.max(
    0,
    ...places.map((place) => {
      const [own, over] = [levelsOver(under, place), levelsOver(above, place)];
      return own.length === 0 || over.length === 0 ? 0 : Math.max(...own) - level - Math.min(...over);
    }),
  );
}

const plan = ([x, y]: Vec3): Vec2 => [x, y];

/** Corners in plan, without the points that only sample a curve: round roofs are alike all round. */
function cornersOf({ vertices, edges }: Solid): readonly Vec2[] {
  const sampled = new Set(edges.flatMap(({ via = [] }) => via));
  return vertices.flatMap((v, i) => (sampled.has(i) ? [] : [plan(v)]));
}

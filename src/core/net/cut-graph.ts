import { type BoxedRing, boxedRing } from '../geometry/convex-parts.ts';
import { ringArea } from '../geometry/polygon.ts';
import { alignSegments, apply2, compose2, inverse2, type Rigid2, rest2 } from '../geometry/rigid2.ts';
import { add2, left2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { faceNormal } from '../solid/face-frame.ts';
import type { Solid } from '../solid/solid.ts';
import { NOISE_RAD } from '../tolerance.ts';
import { endsOnPanel, type FlatSolid } from './unfold.ts';

/** What stays together whatever is cut: one face, or several that a maker wants joined. */
export interface CutNode {
  /** In the order of the solid. */
  readonly faces: readonly number[];
  /** Where each face lies in the node's frame, which is that of the first face. */
  readonly places: readonly Rigid2[];
  /** Each face in the node's frame. */
  readonly rings: readonly BoxedRing[];
  readonly corners: readonly Vec2[];
  /** Farthest corners of a flap along each edge that may become a seam; empty where no flaps are reckoned with. */
  readonly reach: readonly { readonly edge: number; readonly corners: readonly Vec2[] }[];
  /** mm² */
  readonly area: number;
  readonly isConvex: boolean;
}

/** An edge that may stay joined. */
export interface CutLink {
  readonly edge: number;
  readonly nodes: readonly [number, number];
  /** From the frame of the second node to that of the first, and back. */
  readonly motions: readonly [Rigid2, Rigid2];
  /** mm */
  readonly length: number;
  /** Whether both panels belong to one side of the roof, one above the other. */
  readonly isUp: boolean;
  /** What it costs to cut it: its length, twice where it is seen from the front, in whole parts of the group's. */
  readonly weight: number;
}

/** Nodes and the edges between them: a piece is a tree in it. */
export interface CutGraph {
  readonly nodes: readonly CutNode[];
  readonly links: readonly CutLink[];
  /** For each node the links at it, in the order of its faces' loops. */
  readonly linksAt: readonly (readonly number[])[];
}

/** A group's edges are weighed in so many parts, so that sums are exact and equal edges equal. Not round: no half part falls on a usual share. */
const PARTS = 987_654_321;

/** A slope that faces south within this angle is seen from the front, radians. */
const FRONT = Math.PI / 4;

/** Whether a seam along the edge is seen from the front: one of its faces points south, within 45° in plan. */
export function isFrontEdge(solid: Solid, edge: number): boolean {
  return (solid.edges[edge]?.faces ?? []).some((f) => {
    const [x, y] = faceNormal(solid.vertices, solid.faces[f] as Solid['faces'][number]);
    const level = Math.hypot(x, y);
    return level > NOISE_RAD && -y / level >= Math.cos(FRONT) - NOISE_RAD;
  });
}

export interface GraphOptions {
  /** Clusters of faces that stay together, each with where its faces lie in the frame of the first. */
  readonly clusters?: readonly Cluster[];
  /** Edges that are not to be joined. */
  readonly cut?: ReadonlySet<number>;
  /** How far a flap on a face along an edge may reach, mm; missing: none are reckoned with. */
  readonly reachAt?: (edge: number, face: number) => number;
}

/** Faces joined by hand. */
export interface Cluster {
  /** In the order of the solid. */
  readonly faces: readonly number[];
  /** The edges that join them. */
  readonly folds: readonly number[];
  readonly places: readonly Rigid2[];
}

export function cutGraph(
  flatSolid: FlatSolid,
  faces: readonly number[],
  { clusters = [], cut = new Set(), reachAt }: GraphOptions = {},
): CutGraph {
  const { solid, flat, links: linksOf } = flatSolid;
  const clusterOf = new Map(clusters.flatMap((cluster) => cluster.faces.map((f) => [f, cluster] as const)));
  const groups = faces.flatMap((f): Pick<Cluster, 'faces' | 'places'>[] => {
    const cluster = clusterOf.get(f);
    if (!cluster) return [{ faces: [f], places: [rest2] }];
    return cluster.faces[0] === f ? [cluster] : [];
  });
  const nodeOf = new Map<number, number>();
  const placeOf = new Map<number, Rigid2>();
  groups.forEach((group, n) => {
    group.faces.forEach((f, i) => {
      nodeOf.set(f, n);
      placeOf.set(f, group.places[i] as Rigid2);
    });
  });
  const nodes = groups.map((group): CutNode => {
    const polygons = group.faces.map((f, i): readonly Vec2[] => {
      const place = group.places[i] as Rigid2;
      const own = flat[f] as readonly Vec2[];
      return place === rest2 ? own : own.map((p) => apply2(place, p));
    });
    const [only, ...others] = polygons.map(boxedRing) as [BoxedRing, ...BoxedRing[]];
    return {
      faces: group.faces,
      places: group.places,
      rings: [only, ...others],
      corners: others.length === 0 ? (polygons[0] as readonly Vec2[]) : polygons.flat(),
      reach: reachAt ? group.faces.flatMap((f, i) => flapReach(flatSolid, f, polygons[i] ?? [], reachAt)) : [],
      area: polygons.reduce((sum, ring) => sum + ringArea(ring), 0),
      isConvex: others.length === 0 && only.parts.length === 1,
    };
  });

  const linksAt = nodes.map((): number[] => []);
  const found: Omit<CutLink, 'weight'>[] = [];
  const byEdge = new Map<number, number>();
  for (const f of faces) {
    const own = nodeOf.get(f) as number;
    for (const { to, edge } of linksOf[f] ?? []) {
      const other = nodeOf.get(to);
      if (other === undefined || other === own || cut.has(edge)) continue;
      const known = byEdge.get(edge);
      if (known !== undefined) {
        linksAt[own]?.push(known);
        continue;
      }
      const ends = endsOnPanel(flatSolid, edge, f, flat[f] as readonly Vec2[]);
      const [start, end] = endsOnPanel(flatSolid, edge, to, flat[to] as readonly Vec2[]);
      // The neighbour runs along the edge the other way round.
      const between = alignSegments(end, start, ...ends);
      const [place, beyond] = [placeOf.get(f) as Rigid2, placeOf.get(to) as Rigid2];
      const areAlone = place === rest2 && beyond === rest2;
      const toFirst = areAlone ? between : compose2(compose2(place, between), inverse2(beyond));
      byEdge.set(edge, found.length);
      linksAt[own]?.push(found.length);
      found.push({
        edge,
        nodes: [own, other],
        motions: [toFirst, inverse2(toFirst)],
        length: solid.edges[edge]?.length ?? 0,
        isUp: solid.faces[f]?.side === solid.faces[to]?.side,
      });
    }
  }
  const total = found.reduce((sum, { length }) => sum + length, 0);
  const links = found.map((link): CutLink => {
    const counted = link.length * (isFrontEdge(solid, link.edge) ? 2 : 1);
    return { ...link, weight: Math.round((counted / total) * PARTS) };
  });
  return { nodes, links, linksAt };
}

/** Where flaps along the face's edges would reach at most. */
function flapReach(
  { edgesOf }: FlatSolid,
  face: number,
  polygon: readonly Vec2[],
  reachAt: (edge: number, face: number) => number,
): CutNode['reach'] {
  return (edgesOf[face] ?? []).flatMap((edge, i) => {
    const width = reachAt(edge, face);
    const [a, b] = [polygon[i] as Vec2, polygon[(i + 1) % polygon.length] as Vec2];
    const out = scale2(left2(unit2(sub2(b, a))), -width);
    return width > 0 ? [{ edge, corners: [add2(a, out), add2(b, out)] }] : [];
  });
}

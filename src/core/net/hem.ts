import { at } from '../geometry/polygon.ts';
import { alignSegments, apply2 } from '../geometry/rigid2.ts';
import {
  add2,
  add3,
  cross3,
  distance2,
  dot3,
  left2,
  length3,
  scale2,
  scale3,
  sub2,
  sub3,
  unit2,
  unit3,
  type Vec2,
  type Vec3,
} from '../geometry/vector.ts';
import type { Issue, Place } from '../issue.ts';
import type { FlapSpec } from '../project/project.ts';
import { normalAt } from '../solid/face-frame.ts';
import { type Edge, edgePath, type Face, type Solid } from '../solid/solid.ts';
import { isAtMost, isPositive, isSameLength, SNAP_MM } from '../tolerance.ts';
import { turningAlong } from './choose-flaps.ts';
import { clearOfEdges } from './clear-of-edges.ts';
import type { Hem, Piece } from './net.ts';
import { cutApart, type GlueSide } from './part-flaps.ts';
import { type PlacedFlap, placeFlaps } from './place-flaps.ts';
import { flapDepth, fromSeam, type SeamFlap } from './seam-flap.ts';
import { divideCurve, type Tooth } from './teeth.ts';
import type { FlatSolid, Unfolded } from './unfold.ts';

/** A level edge at the bottom of the roof that a hem is turned under: a free eave, or the foot of a fascia. */
export function carriesHem({ faces }: Pick<Solid, 'faces'>, { faces: sides, role }: Edge): boolean {
  const [face] = sides;
  if (sides.length !== 1 || face === undefined) return false;
  const part = faces[face]?.part;
  return (role === 'eave' && part === 'slope') || (role === 'foot' && part === 'fascia');
}

/** The turn from flat that brings the paper beyond the stretch from a to b of an edge into the level plane inside it, radians. */
function hemTurn({ vertices, faces }: Solid, face: number, a: Vec3, b: Vec3): number {
  const along = unit3(sub3(b, a));
  const normal = normalAt(vertices, faces[face] as Face, scale3(add3(a, b), 0.5));
  const up = cross3(normal, along);
  const inwards = unit3(cross3([0, 0, 1], along));
  return Math.PI - Math.atan2(length3(cross3(up, inwards)), dot3(up, inwards));
}

/** Part of a hem as it lies in the plane of its eave, seen in plan: the roof to the left of a to b. */
interface HemSide extends GlueSide {
  readonly level: number;
}

/** A hem as it lies turned under, in plan. */
export interface HemUnder {
  readonly edge: number;
  /** Of its plane, mm in the frame of the solid. */
  readonly level: number;
  /** Convex; of a tooth without the bulge of its base. Empty where nothing is left. */
  readonly ring: readonly Vec2[];
  /** The stretch of its edge, the roof to the left. */
  readonly ends: readonly [Vec2, Vec2];
}

/** The hems of every free eave where they lie turned under, before anything has to give way while they lie flat. */
export function hemsUnder(
  solid: Solid,
  width: number,
  spec: Pick<FlapSpec, 'clearance' | 'least'>,
): readonly HemUnder[] {
  return sidesAndStrips(solid, width, spec).map(([{ seam: edge, level, a, b }, ring]) => ({
    edge,
    level,
    ring,
    ends: [a, b],
  }));
}

/**
 * The hems of every free eave: strips of the wanted width in the level plane of the eave, mitred along the halving line where two
 * eaves meet, with the clearance between them, at inside corners of a court too; square where an eave ends free; clear of every
 * other eave of their level. Round a curve they are toothed. Each is given in the frame of its edge, as flaps are; empty where
 * less than `least` is left.
 */
export function trimHems(
  solid: Solid,
  width: number,
  spec: Pick<FlapSpec, 'clearance' | 'least'>,
): readonly SeamFlap[] {
  return sidesAndStrips(solid, width, spec).map(([{ a, b, tooth, seam, from, to, start, edges }, strip]) => {
    const length = distance2(a, b);
    const toEdge = alignSegments(a, b, [0, 0], [length, 0]);
    // Folded under, the paper is turned over.
    const ring = strip.map((p) => apply2(toEdge, p)).map(([x, y]): Vec2 => [length - x, y]);
    const polygon = fromSeam(ring.toReversed(), spec.least);
    const isWhole = !tooth || (polygon.length > 0 && isSameLength(distance2(at(polygon, 0), at(polygon, 1)), length));
    const meant = Math.min(width, tooth?.reach ?? width);
    return { seam, from, to, start, edges, length, meant, polygon: isWhole ? polygon : [] };
  });
}

function sidesAndStrips(
  solid: Solid,
  width: number,
  { clearance, least }: Pick<FlapSpec, 'clearance' | 'least'>,
): readonly (readonly [HemSide, readonly Vec2[]])[] {
  const eaves = solid.edges.flatMap((edge, e) =>
    carriesHem(solid, edge) ? [{ edge, e, path: planOf(solid, edge) }] : [],
  );
  const sides = eaves.flatMap(({ edge, e, path }): HemSide[] => {
    const level = solid.vertices[edge.ends[0]]?.[2] ?? 0;
    const side = (from: number, to: number, tooth: Tooth | null): HemSide => ({
      seam: e,
      from: edge.faces[0] as number,
      to: -1,
      a: at(path, from),
      b: at(path, to),
      isAbutment: false,
      start: from,
      edges: to - from,
      tooth,
      onSeam: new Set(),
      isTurnedOver: true,
      level,
    });
    if (!edge.via) return [side(0, 1, null)];
    const turning = turningOf(path);
    const bend = Math.max(Math.abs(turning), Math.abs(turningAlong(solid, e, edge.faces[0] as number)));
    const curve = { path, length: edge.length, turning, bend };
    return divideCurve(curve, { clearance: clearance / 2, least }).map((tooth) => side(tooth.from, tooth.to, tooth));
  });

  const strips = sides.map((side) => {
    const others = eaves.flatMap(({ edge, e, path }) => {
      if (e === side.seam || !isSameLevel(solid.vertices[edge.ends[0]]?.[2] ?? 0, side.level)) return [];
      const meets = [path[0], path.at(-1)].some((p) =>
        [side.a, side.b].some((q) => !isPositive(distance2(p as Vec2, q))),
      );
      return meets ? [] : path.slice(1).map((q, i): readonly [Vec2, Vec2] => [path[i] as Vec2, q]);
    });
    return clearOfEdges(stripBeside(side, width), side, others, clearance);
  });
  sides.forEach((side, i) => {
    sides.slice(0, i).forEach((other, j) => {
      if (other.seam === side.seam || !isSameLevel(other.level, side.level)) return;
      const apart = cutApart([strips[i] ?? [], side], [strips[j] ?? [], other], clearance);
      if (apart) [strips[i], strips[j]] = apart;
    });
  });
  return sides.map((side, i) => [side, strips[i] ?? []] as const);
}

/** A hem where it lies on its piece, and which edges of the panel's loop it takes. */
export interface PlacedHem {
  readonly hem: Hem;
  readonly position: number;
  readonly edges: number;
}

/** Lays the hems of a piece flat beside their panels, clear of panels, flaps and each other. */
export function placeHems(
  flatSolid: FlatSolid,
  piece: Pick<Unfolded, 'panels'>,
  hemsAt: ReadonlyMap<number, readonly SeamFlap[]>,
  spec: FlapSpec,
  flaps: readonly PlacedFlap[],
): readonly PlacedHem[] {
  if (hemsAt.size === 0) return [];
  const { solid, boundsOf } = flatSolid;
  const hemsOf = (face: number): readonly SeamFlap[] =>
    (boundsOf[face] ?? []).flatMap((edge) => (hemsAt.get(edge) ?? []).filter(({ from }) => from === face));
  const placed = placeFlaps(flatSolid, piece, hemsOf, spec, { before: flaps });
  return placed.map(({ flap: { edge, from, panel, polygon, base }, position, edges, start }): PlacedHem => {
    const path = edgePath(solid.edges[edge] as Edge);
    const half = start + Math.floor((edges - 1) / 2);
    const [a, b] = [path[half], path[half + 1]].map((v) => solid.vertices[v as number] as Vec3) as [Vec3, Vec3];
    const angle = hemTurn(solid, from, a, b);
    return { hem: { edge, panel, polygon, base, kind: 'mountain', angle }, position, edges };
  });
}

const isSameLevel = (a: number, b: number): boolean => Math.abs(a - b) <= SNAP_MM;

const planOf = ({ vertices }: Solid, edge: Edge): readonly Vec2[] =>
  edgePath(edge).map((v): Vec2 => [vertices[v]?.[0] ?? 0, vertices[v]?.[1] ?? 0]);

/** How far a path turns to the left, radians. */
function turningOf(path: readonly Vec2[]): number {
  const legs = path.slice(1).map((p, i) => sub2(p, path[i] as Vec2));
  return legs.slice(1).reduce((sum, [x, y], i) => {
    const [u, v] = legs[i] as Vec2;
    return sum + Math.atan2(u * y - v * x, u * x + v * y);
  }, 0);
}

function stripBeside({ a, b, tooth }: HemSide, width: number): readonly Vec2[] {
  const along = unit2(sub2(b, a));
  const depth = Math.min(width, tooth?.reach ?? width);
  const up = scale2(left2(along), depth);
  const lean = scale2(along, tooth ? depth * Math.tan(tooth.lean) : 0);
  return [a, b, sub2(add2(b, up), lean), add2(add2(a, up), lean)];
}

/** Eaves whose hem found no room or less than was asked for, and a roof that has no eave for one. */
export function hemIssues(solid: Solid, pieces: readonly Piece[], width: number): readonly Issue[] {
  const eaves = solid.edges.flatMap((edge, e) => (carriesHem(solid, edge) ? [e] : []));
  if (eaves.length === 0) return [noHem];
  const hems = pieces.flatMap((piece) => piece.hems);
  return eaves.flatMap((e): Issue[] => {
    const edge = solid.edges[e] as Edge;
    const own = hems.filter((hem) => hem.edge === e);
    const place: Place = { edges: [edge.id] };
    const found = Math.max(0, ...own.map((hem) => flapDepth(hem)));
    if (own.length === 0) return [hemLeftOut(edge, place)];
    return edge.via || isAtMost(width, found) ? [] : [hemNarrow(edge, place, { wanted: width, found })];
  });
}

const noHem: Issue = {
  level: 'note',
  code: 'no-hem',
  path: 'hem',
  message: 'This roof has no free eave that a hem could be turned under.',
  remedy: 'Leave out the hem.',
};

const hemLeftOut = ({ id }: Edge, place: Place): Issue => ({
  level: 'note',
  code: 'hem-left-out',
  path: 'hem',
  place,
  message: `At the edge ${id} there is no room for a hem.`,
});

const hemNarrow = ({ id }: Edge, place: Place, numbers: { wanted: number; found: number }): Issue => ({
  level: 'note',
  code: 'hem-narrow',
  path: 'hem',
  place,
  numbers,
  message: `The hem at the edge ${id} is {found} wide instead of {wanted}: no more fits there.`,
});

import { fail, type Result, succeed } from '../issue.ts';
import { edgesOfFaces, isFootOnFace } from '../solid/measure.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { isPositive, isSameLength, ROLL_MM } from '../tolerance.ts';
import { moveSolid } from './move-solid.ts';
import { meshOf, type OffsetMesh, type Sector } from './offset-mesh.ts';
import { partCorners, wallRules } from './part-corners.ts';
import { coarsest, refineCurves, stepsFrom } from './refine-curves.ts';
import { byHalving, tooThick } from './too-thick.ts';

/** Where walls end, from the surface of the slopes. mm, none under 0. */
export interface WallEnds {
  /** In to the underside of the roof, where a wall under them ends. */
  readonly head: number;
  /** Out to the surface of the layer, on which a wall stands. */
  readonly foot: number;
}

/** Walls that stand on the body begin at this level, and come down by so much with the underside of the roof, mm. */
export interface WallSeat {
  readonly level: number;
  readonly drop: number;
}

/**
 * A shape with its walls as they really end: under a slope at its underside, on a slope at its outside, on the body where the roof
 * comes to rest. The slopes hold still; the edges of walls are solved anew from the moved planes in which they end. Below a valley
 * in which two walls met in a point they then share an upright edge. Fails where nothing of a wall would be left.
 */
export function settleWalls(solid: Solid, ends: WallEnds, seat: WallSeat | null): Result<Solid> {
  let settled = settleOnce(solid, ends, seat);
  // A wall that comes down along a vault shares more of its curve.
  const coarse = settled.ok ? coarsest(settled.solid) : 0;
  if (coarse > ROLL_MM) settled = settleOnce(refineCurves(solid, stepsFrom(coarse)), ends, seat);
  if (settled.ok) return succeed(settled.solid);
  const far = farthestOf(ends, seat);
  const isSound = (way: number): boolean => {
    const share = way / far;
    const nearer = { head: share * ends.head, foot: share * ends.foot };
    return settleOnce(solid, nearer, seat && { ...seat, drop: share * seat.drop }).ok;
  };
  return fail(tooThick(solid, settled.face, byHalving(far, isSound), far));
}

const farthestOf = ({ head, foot }: WallEnds, seat: WallSeat | null): number => Math.max(head, foot, seat?.drop ?? 0);

type Settled = { readonly ok: true; readonly solid: Solid } | { readonly ok: false; readonly face: number };

function settleOnce(solid: Solid, ends: WallEnds, seat: WallSeat | null): Settled {
  const far = farthestOf(ends, seat);
  const ways = solid.edges.map((edge, e) => {
    if (edge.role === 'abutment') return endAt(solid, e, ends);
    return seat && standsAt(solid, edge, seat.level) ? seat.drop : 0;
  });
  if (!isPositive(far) || !ways.some(isPositive)) return { ok: true, solid };
  const speedOf = ({ edge }: Sector): number => (edge === null ? 0 : (ways[edge] as number) / far);
  const moved = moveSolid(solid, partCorners(solid, withSpeeds(meshOf(solid), speedOf), wallRules, 1), far, 0);
  if (!moved.ok) return moved;
  // Let down past the eave, a wall would run out of the slope that it shares an edge with.
  const torn = edgesOfFaces(moved.solid).findIndex((own) => own.includes(-1));
  return torn < 0 ? moved : { ok: false, face: torn };
}

const endAt = (solid: Solid, edge: number, { head, foot }: WallEnds): number =>
  isFootOnFace(solid, edge) ? foot : head;

/**
 * The mesh of a shape whose walls have settled, for its slopes to be moved by `by` mm: the edges in which they end hold still.
 * `ends`: how far they lie from the slopes now.
 */
export function meshOfSettled(solid: Solid, ends: WallEnds, by: number): OffsetMesh {
  const isHeld = ({ edge }: Sector): boolean => edge !== null && solid.edges[edge]?.role === 'abutment';
  const speedOf = (sector: Sector): number => {
    if (!isHeld(sector)) return (sector.plane ?? sector.rolled)?.speed ?? 0;
    // What touches a rolled face is told from its surface on.
    return sector.rolled ? endAt(solid, sector.edge as number, ends) / by : 0;
  };
  return partCorners(solid, withSpeeds(meshOf(solid), speedOf), wallRules, by < 0 ? -1 : 1);
}

/**
 * A solid whose walls end so far from its slopes: told at each of their edges. `isOuter`: other layers lie under it, and walls that
 * end under the roof end behind them.
 */
export function withInsets(solid: Solid, ends: WallEnds, isOuter: boolean): Solid {
  const edges = solid.edges.map((edge, e): Edge => {
    if (edge.role !== 'abutment') return edge;
    const inset = endAt(solid, e, ends);
    const told: Edge = isOuter && !isFootOnFace(solid, e) ? { ...edge, isBehind: true } : edge;
    return isPositive(inset) ? { ...told, inset, length: edge.length * shareBehind(solid, edge, inset) } : told;
  });
  return { ...solid, edges };
}

/** How long an edge is as a share of its line on the face it meets: behind a vault it lies on a smaller radius. */
function shareBehind({ faces }: Solid, { faces: [wall, host], via }: Edge, inset: number): number {
  const surface = faces[host ?? -1]?.roll?.surface;
  if (!via || faces[wall as number]?.roll || surface?.form !== 'cylinder') return 1;
  return 1 - inset / surface.radius;
}

/** The lower edge of a wall, at this level. */
const standsAt = ({ vertices, faces }: Solid, { role, ends, faces: sides }: Edge, level: number): boolean =>
  role === 'foot' &&
  faces[sides[0] as number]?.part === 'wall' &&
  ends.every((v) => isSameLength(vertices[v]?.[2] ?? Number.NaN, level));

/** The same mesh with its planes moving otherwise; what was one sector stays one. */
function withSpeeds({ corners, loops }: OffsetMesh, speedOf: (sector: Sector) => number): OffsetMesh {
  const known = new Map<Sector, Sector>();
  const retimed = (sector: Sector): Sector => {
    const made = known.get(sector) ?? timed(sector, speedOf(sector));
    known.set(sector, made);
    return made;
  };
  const timedCorners = new Map(corners);
  for (const [key, corner] of corners) {
    const ring = corner.ring.map(retimed);
    if (ring.some((sector, i) => sector !== corner.ring[i])) timedCorners.set(key, { ...corner, ring });
  }
  return { corners: timedCorners, loops };
}

function timed(sector: Sector, speed: number): Sector {
  const { plane, rolled } = sector;
  if ((plane ?? rolled)?.speed === speed) return sector;
  return { ...sector, plane: plane && { ...plane, speed }, ...(rolled ? { rolled: { ...rolled, speed } } : {}) };
}

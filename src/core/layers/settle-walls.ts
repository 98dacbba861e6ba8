import { fail, type Result, succeed } from '../issue.ts';
import { isFootOnFace } from '../solid/measure.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { isPositive, isSameLength, ROLL_MM } from '../tolerance.ts';
import { moveSolid } from './move-solid.ts';
import { meshOf, type OffsetMesh, type Sector } from './offset-mesh.ts';
import { partCorners } from './part-corners.ts';
import { coarsest, refineCurves, stepsFrom } from './refine-curves.ts';
import { tooThick } from './too-thick.ts';

/** Where the walls of a layer end, from its own surface. mm, none under 0. */
export interface WallEnds {
  /** From the surface of the slopes in to the underside of the roof, where a wall under them ends. */
  readonly head: number;
  /** From the surface of the slopes out to that of the layer, on which a wall stands. */
  readonly foot: number;
  /** Walls that stand on the body begin at this level and come down by so much with the underside of the roof. */
  readonly seat: { readonly level: number; readonly drop: number } | null;
}

/**
 * The surface of a layer with its walls as they really end: under a slope at its underside, on a slope at its outside, on the body
 * where the roof comes to rest. The slopes hold still; the edges of walls are solved anew from the moved planes in which they end.
 * Fails where nothing of a wall would be left.
 */
export function settleWalls(solid: Solid, ends: WallEnds): Result<Solid> {
  const settled = settleOnce(solid, ends);
  // A wall that comes down along a vault shares more of its curve.
  const coarse = settled.ok ? coarsest(settled.value) : 0;
  return coarse <= ROLL_MM ? settled : settleOnce(refineCurves(solid, stepsFrom(coarse)), ends);
}

function settleOnce(solid: Solid, { head, foot, seat }: WallEnds): Result<Solid> {
  const far = Math.max(head, foot, seat?.drop ?? 0);
  const isHead = (e: number): boolean => !isFootOnFace(solid, e);
  const goesBy = (edge: Edge, e: number): number => {
    if (edge.role === 'abutment') return isHead(e) ? head : foot;
    return seat && standsAt(solid, edge, seat.level) ? seat.drop : 0;
  };
  const ways = solid.edges.map(goesBy);
  if (!isPositive(far) || !ways.some(isPositive)) return succeed(solid);
  const speedOf = ({ edge }: Sector): number => (edge === null ? 0 : (ways[edge] as number) / far);
  const moved = moveSolid(solid, partCorners(withSpeeds(meshOf(solid), speedOf), wallsAtEnd), far, 0);
  if (!moved.ok) return fail(tooThick(solid, moved.face, moved.at ?? 0, far));
  const edges = moved.solid.edges.map((edge, e): Edge => {
    if (edge.role !== 'abutment') return edge;
    const inset = isFootOnFace(moved.solid, e) ? foot : head;
    if (!isPositive(inset)) return edge;
    return { ...edge, inset, length: edge.length * growthBehind(moved.solid, edge, inset) };
  });
  return succeed({ ...moved.solid, edges });
}

/** How much longer an edge is than its line on the face it meets: across a vault it lies on a smaller radius. */
function growthBehind({ faces }: Solid, { faces: [wall, host], via }: Edge, inset: number): number {
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
  return {
    corners: new Map([...corners].map(([key, corner]) => [key, { ...corner, ring: corner.ring.map(retimed) }])),
    loops,
  };
}

/**
 * Where a wall that ends under a slope meets one that shares its edge with the slope, the head of the first comes down along the
 * other: above the head the other wall ends free in the plane of the first.
 */
const wallsAtEnd = ([end, wall, beside, ...rest]: readonly Sector[]): number | null =>
  isMovingEnd(end) && wall?.face != null && beside?.face != null && rest.length >= 2 ? 3 : null;

const isMovingEnd = (sector: Sector | undefined): boolean =>
  sector?.face === null && sector.plane !== null && sector.plane.speed !== 0;

const timed = ({ plane, rolled, ...sector }: Sector, speed: number): Sector => ({
  ...sector,
  plane: plane && { ...plane, speed },
  ...(rolled ? { rolled: { ...rolled, speed } } : {}),
});

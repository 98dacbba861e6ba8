import { dot3, unit3, type Vec3 } from '../geometry/vector.ts';
import type { Edge, EdgeRole, Solid } from '../solid/solid.ts';
import { isSamePlane, type MovingPlane, velocityOf } from './moving-plane.ts';
import { type Corner, type OffsetMesh, planesOf, type Sector } from './offset-mesh.ts';

/** A corner as two in one place, before its planes move, and where a face that has both comes first. */
interface Parted {
  readonly lower: readonly Sector[];
  readonly upper: readonly Sector[];
  /** The faces that run from the lower one to the upper one, and those that run down. */
  readonly rising: readonly number[];
  readonly falling: readonly number[];
}

/** Whether a sector is the free end of an edge of this role. */
type IsEnd = (role: EdgeRole, sector: Sector | undefined) => boolean;

/** How a corner that comes apart is to be parted; null: the rule is not about such a corner. */
export type PartingRule = (corner: Corner, isEnd: IsEnd, edges: readonly Edge[], way: 1 | -1) => Parted | null;

/**
 * The mesh of a solid with every corner parted that will not stay one while its planes move, by the first rule that is about it.
 * `way`: 1 while they move by their speeds, -1 while they move back by them.
 */
export function partCorners(
  { edges }: Solid,
  { corners, loops }: OffsetMesh,
  rules: readonly PartingRule[],
  way: 1 | -1,
): OffsetMesh {
  const isEnd: IsEnd = (role, sector) =>
    sector?.face === null && sector.plane !== null && edges[sector.edge ?? -1]?.role === role;
  const parting = [...corners].flatMap(([key, corner]) => {
    if (isTogether(corner)) return [];
    const parted = rules.map((rule) => rule(corner, isEnd, edges, way)).find((found) => found !== null);
    return parted ? [{ key, corner, ...parted }] : [];
  });
  if (parting.length === 0) return { corners, loops };
  const all = new Map(corners);
  const ways = loops.map((loop) => [...loop]);
  let next = Math.max(-1, ...corners.keys()) + 1;
  for (const { key, corner, lower, upper, rising, falling } of parting) {
    const high = next++;
    all.set(key, { ...corner, ring: lower });
    all.set(high, { ...corner, ring: upper });
    const both = [...rising, ...falling];
    for (const { face } of upper) {
      const loop = ways[face ?? -1];
      if (!loop) continue;
      const own = !both.includes(face as number) ? [high] : rising.includes(face as number) ? [key, high] : [high, key];
      loop.splice(loop.indexOf(key), 1, ...own);
    }
  }
  return { corners: all, loops: ways };
}

/** Whether all planes of a corner still meet in it once they have moved; so it is taken where paper is rolled. */
function isTogether({ ring }: Corner): boolean {
  const planes = planesOf(ring);
  return !planes || velocityOf(planes).isTogether;
}

/** Going round from one end of the ring: its first sectors with a stop after them below, the last of them with the rest above. */
function stoppedAfter(fromEnd: readonly Sector[], count: number, plane: MovingPlane | null, isFirst: boolean): Parted {
  const stop: Sector = { face: null, edge: null, plane };
  const shared = fromEnd[count - 1] as Sector;
  const inOrder = (sectors: readonly Sector[]): readonly Sector[] => (isFirst ? sectors : sectors.toReversed());
  // A face's loop leaves a corner along the sector before it in the ring.
  return {
    lower: inOrder([...fromEnd.slice(0, count), stop]),
    upper: inOrder([stop, shared, ...fromEnd.slice(count)]),
    rising: isFirst ? [] : [shared.face as number],
    falling: isFirst ? [shared.face as number] : [],
  };
}

/**
 * Where a wall that ends under a slope meets one that shares its edge with the slope, the head of the first comes down along the
 * other: above the head the other wall ends free in the plane of the first.
 */
const partedHead: PartingRule = ({ ring }, isEnd) => {
  const isFirst = isEnd('abutment', ring[0]);
  if ((!isFirst && !isEnd('abutment', ring.at(-1))) || ring.length < 5) return null;
  // From the end of the wall on: the end, the wall, the face it meets, and what else there is.
  const fromEnd = isFirst ? ring : ring.toReversed();
  const [, wall, beside] = fromEnd;
  if (wall?.face == null || beside?.face == null || isEnd('abutment', fromEnd.at(-1))) return null;
  return stoppedAfter(fromEnd, 3, wall.plane, isFirst);
};

/** Where two walls in one plane met in a point under a valley and their feet come down, they share an upright edge from then on. */
const partedFeet: PartingRule = ({ ring }, isEnd) => {
  const [foot, one, ...rest] = ring as [Sector, Sector, ...Sector[]];
  const [other, last] = rest.slice(-2) as [Sector?, Sector?];
  if (!other || !last || rest.length < 4 || !isEnd('foot', foot) || !isEnd('foot', last)) return null;
  if (one.face === null || other.face === null || !one.plane || !other.plane) return null;
  if (!isSamePlane(one.plane, other.plane) || !isSamePlane(foot.plane as MovingPlane, last.plane as MovingPlane))
    return null;
  return {
    lower: [foot, one, other, last],
    upper: [one, ...rest.slice(0, -1)],
    rising: [other.face],
    falling: [one.face],
  };
};

/** Where the foot of a wall begins at the end of an eave and comes down, the wall ends upright below it. */
const partedEave: PartingRule = ({ ring }, isEnd) => {
  const isFirst = isEnd('foot', ring[0]) && isEnd('eave', ring.at(-1));
  if (!isFirst && !(isEnd('eave', ring[0]) && isEnd('foot', ring.at(-1)))) return null;
  const fromEnd = isFirst ? ring : ring.toReversed();
  const [foot, wall] = fromEnd;
  if (fromEnd.length < 4 || wall?.face == null || !wall.plane || foot?.plane?.speed === 0) return null;
  // Seen from outside a foot runs to the right.
  const [x, y] = wall.plane.normal;
  const out: Vec3 = isFirst ? [y, -x, 0] : [-y, x, 0];
  return stoppedAfter(fromEnd, 2, { normal: unit3(out), speed: 0 }, isFirst);
};

/**
 * At the end of a wall that carries an eave, where the eave goes on free: the slope's free eave keeps its level while the eave on
 * the wall goes with both, so that a lip is left beyond the wall. It ends where the wall round the corner stands.
 */
const partedLip: PartingRule = ({ ring }, isEnd, edges) => {
  const isFirst = isEnd('abutment', ring[0]);
  const fromEnd = isFirst ? ring : ring.toReversed();
  const [end, wall, carrier, slope, eave] = fromEnd;
  if (ring.length !== 5 || !isEnd('abutment', end) || !isEnd('eave', eave)) return null;
  if (wall?.face == null || carrier?.face == null || slope?.face == null) return null;
  return edges[end?.edge ?? -1]?.faces[1] === slope.face ? stoppedAfter(fromEnd, 4, wall.plane, isFirst) : null;
};

/**
 * Where a wall ends at a valley beyond which the slope ends free in the wall's plane, as a body ends under a row of teeth: while
 * the valley rises from the foot, the wall ends upright in line with it; while it sinks below, what stands in it ends free there.
 */
const partedEnd: PartingRule = ({ ring }, isEnd, _, way) => {
  const isFirst = isEnd('foot', ring[0]);
  const fromFoot = isFirst ? ring : ring.toReversed();
  const [foot, wall, upright, slope, verge] = fromFoot;
  if (ring.length !== 5 || !isEnd('foot', foot) || !isEnd('verge', verge)) return null;
  if (!foot?.plane || !wall?.plane || !upright?.plane || !slope?.plane) return null;
  if (!isSamePlane(wall.plane, verge?.plane as MovingPlane)) return null;
  const { velocity } = velocityOf([wall.plane, upright.plane, slope.plane]);
  const sinks = way * (dot3(velocity, foot.plane.normal) - foot.plane.speed) > 0;
  return sinks
    ? stoppedAfter(fromFoot.toReversed(), 3, wall.plane, !isFirst)
    : stoppedAfter(fromFoot, 2, upright.plane, isFirst);
};

/** While the ends of walls move and slopes hold still, or the other way about. */
export const wallRules: readonly PartingRule[] = [partedHead, partedFeet, partedEave, partedEnd];

/** While all faces move. */
export const offsetRules: readonly PartingRule[] = [partedLip, partedEnd];

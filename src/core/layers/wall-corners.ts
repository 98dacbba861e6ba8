import { unit3, type Vec3 } from '../geometry/vector.ts';
import type { EdgeRole, Solid } from '../solid/solid.ts';
import { isSamePlane, type MovingPlane } from './moving-plane.ts';
import type { Corner, OffsetMesh, Sector } from './offset-mesh.ts';
import { isTogether } from './part-corners.ts';

/** A corner as two in one place, before its planes move, and where a face that has both comes first. */
interface Parted {
  readonly lower: readonly Sector[];
  readonly upper: readonly Sector[];
  /** The faces that run from the lower one to the upper one, and those that run down. */
  readonly rising: readonly number[];
  readonly falling: readonly number[];
}

/** The mesh of a solid with every corner parted in which the end of a wall comes down from the slopes, or these go up from it. */
export function partWallCorners({ edges }: Solid, { corners, loops }: OffsetMesh): OffsetMesh {
  const isEnd =
    (role: EdgeRole) =>
    (sector: Sector | undefined): boolean =>
      sector?.face === null && sector.plane !== null && edges[sector.edge ?? -1]?.role === role;
  const all = new Map(corners);
  const ways = loops.map((loop) => [...loop]);
  let next = Math.max(-1, ...corners.keys()) + 1;
  for (const [key, corner] of corners) {
    const parted = isTogether(corner)
      ? null
      : (partedHead(corner, isEnd('abutment')) ??
        partedFeet(corner, isEnd('foot')) ??
        partedEave(corner, isEnd('foot'), isEnd('eave')));
    if (!parted) continue;
    const { lower, upper, rising, falling } = parted;
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

/**
 * Where a wall that ends under a slope meets one that shares its edge with the slope, the head of the first comes down along the
 * other: above the head the other wall ends free in the plane of the first.
 */
function partedHead({ ring }: Corner, isHead: (sector: Sector | undefined) => boolean): Parted | null {
  const isFirst = isHead(ring[0]);
  if ((!isFirst && !isHead(ring.at(-1))) || ring.length < 5) return null;
  // From the end of the wall on: the end, the wall, the face it meets, and what else there is.
  const [end, wall, beside, ...rest] = (isFirst ? ring : ring.toReversed()) as [Sector, Sector, Sector, ...Sector[]];
  if (wall.face === null || beside.face === null || isHead(rest.at(-1))) return null;
  const stop: Sector = { face: null, edge: null, plane: wall.plane };
  const inOrder = (sectors: readonly Sector[]): readonly Sector[] => (isFirst ? sectors : sectors.toReversed());
  // The other wall's loop leaves a corner along the sector before it in the ring.
  return {
    lower: inOrder([end, wall, beside, stop]),
    upper: inOrder([stop, beside, ...rest]),
    rising: isFirst ? [] : [beside.face],
    falling: isFirst ? [beside.face] : [],
  };
}

/** Where two walls in one plane met in a point under a valley and their feet come down, they share an upright edge from then on. */
function partedFeet({ ring }: Corner, isFoot: (sector: Sector | undefined) => boolean): Parted | null {
  const [foot, one, ...rest] = ring as [Sector, Sector, ...Sector[]];
  const [other, last] = rest.slice(-2) as [Sector?, Sector?];
  if (!other || !last || rest.length < 4 || !isFoot(foot) || !isFoot(last)) return null;
  if (one.face === null || other.face === null || !one.plane || !other.plane) return null;
  if (!isSamePlane(one.plane, other.plane) || !isSamePlane(foot.plane as MovingPlane, last.plane as MovingPlane))
    return null;
  return {
    lower: [foot, one, other, last],
    upper: [one, ...rest.slice(0, -1)],
    rising: [other.face],
    falling: [one.face],
  };
}

/** Where the foot of a wall begins at the end of an eave and comes down, the wall ends upright below it. */
function partedEave(
  { ring }: Corner,
  isFoot: (sector: Sector | undefined) => boolean,
  isEave: (sector: Sector | undefined) => boolean,
): Parted | null {
  const isFirst = isFoot(ring[0]) && isEave(ring.at(-1));
  if (!isFirst && !(isEave(ring[0]) && isFoot(ring.at(-1)))) return null;
  const [foot, wall, ...rest] = (isFirst ? ring : ring.toReversed()) as [Sector, Sector, ...Sector[]];
  if (rest.length < 2 || wall.face === null || !wall.plane || foot.plane?.speed === 0) return null;
  // Seen from outside a foot runs to the right.
  const [x, y] = wall.plane.normal;
  const out: Vec3 = isFirst ? [y, -x, 0] : [-y, x, 0];
  const stop: Sector = { face: null, edge: null, plane: { normal: unit3(out), speed: 0 } };
  const inOrder = (sectors: readonly Sector[]): readonly Sector[] => (isFirst ? sectors : sectors.toReversed());
  return {
    lower: inOrder([foot, wall, stop]),
    upper: inOrder([stop, wall, ...rest]),
    rising: isFirst ? [] : [wall.face],
    falling: isFirst ? [wall.face] : [],
  };
}

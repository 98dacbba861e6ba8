import { velocityOf } from './moving-plane.ts';
import type { Corner, OffsetMesh, Sector } from './offset-mesh.ts';

/**
 * Parts corners that will not stay one while their planes move, where a wall goes on past what it ends at: a stop in the plane of
 * that wall then runs between two corners, and ends a neighbour there.
 *
 * `countOf` is asked with the ring of each corner that comes apart, in both directions, as going on from the end of a wall: the
 * end, the wall, the faces beside it. It says how many of these stay with the wall; the last of them also takes part in the other
 * corner, and ends at the stop between the two. Null: the corner is left as it is.
 */
export function partCorners(
  { corners, loops }: OffsetMesh,
  countOf: (fromEnd: readonly Sector[]) => number | null,
): OffsetMesh {
  const all = new Map(corners);
  const ways = loops.map((loop) => [...loop]);
  let next = Math.max(-1, ...corners.keys()) + 1;
  for (const [key, corner] of corners) {
    if (isTogether(corner)) continue;
    const found = ([false, true] as const)
      .map((isTurned) => ({ isTurned, count: countOf(isTurned ? corner.ring.toReversed() : corner.ring) }))
      .find(({ count }) => count !== null);
    if (!found) continue;
    const { isTurned, count } = found as { isTurned: boolean; count: number };
    const fromEnd = isTurned ? corner.ring.toReversed() : corner.ring;
    const shared = fromEnd[count - 1]?.face;
    if (shared == null) throw new Error('a corner is parted on a face');
    const stop: Sector = { face: null, edge: null, plane: (fromEnd[1] as Sector).plane };
    const inOrder = (sectors: readonly Sector[]): readonly Sector[] => (isTurned ? sectors.toReversed() : sectors);
    const rest = fromEnd.slice(count);
    const other = next++;
    all.set(key, { ...corner, ring: inOrder([...fromEnd.slice(0, count), stop]) });
    all.set(other, { ...corner, ring: inOrder([stop, fromEnd[count - 1] as Sector, ...rest]) });
    // A face's loop leaves a corner along the sector before it in the ring.
    const own = ways[shared] as number[];
    own.splice(own.indexOf(key), 1, ...(isTurned ? [key, other] : [other, key]));
    for (const { face } of rest)
      if (face !== null) ways[face] = (ways[face] as number[]).map((k) => (k === key ? other : k));
  }
  return { corners: all, loops: ways };
}

/** Whether all planes of a corner still meet in it once they have moved; so it is taken where paper is rolled. */
export function isTogether({ ring }: Corner): boolean {
  const planes = ring.flatMap(({ plane }) => (plane ? [plane] : []));
  return planes.length < ring.length || velocityOf(planes).isTogether;
}

import { at } from '../geometry/polygon.ts';
import { add3, distance3, dot3, length3, scale3, sub3, unit3, type Vec3 } from '../geometry/vector.ts';
import { HAIR_MM, NOISE_RAD } from '../tolerance.ts';
import { isSamePlane, type MovingPlane, velocityOf } from './moving-plane.ts';
import { type Corner, type OffsetMesh, planesOf, type Sector } from './offset-mesh.ts';
import { type SplitCorner, splitCorner, turnOf } from './split-corner.ts';

export type Moved =
  | { readonly ok: true; readonly mesh: OffsetMesh }
  /** How far the faces could move before one vanished or a corner came apart, mm, and the face in question. */
  | { readonly ok: false; readonly at: number; readonly face: number };

/** How a corner with only flat faces moves; null where paper is rolled. */
const motionOf = ({ ring }: Corner): ReturnType<typeof velocityOf> | null => {
  const planes = planesOf(ring);
  return planes && velocityOf(planes);
};

/**
 * Moves every face along its normal by `target` mm, out where it is positive. Corners follow their planes. One whose planes
 * part is split; where an edge has shrunk to nothing, both its corners become one and are split anew. In order of the distance
 * at which that happens.
 */
export function moveFaces(start: OffsetMesh, target: number): Moved {
  const way = target < 0 ? -1 : 1;
  let mesh = start;
  let done = 0;
  let nextKey = Math.max(-1, ...start.corners.keys()) + 1;
  const most = 4 * start.corners.size + 100;
  for (let round = 0; round < most; round++) {
    const motions = new Map<number, Vec3>();
    for (const [key, corner] of mesh.corners) {
      const motion = motionOf(corner);
      if (!motion) continue;
      if (motion.isTogether) {
        motions.set(key, motion.velocity);
        continue;
      }
      const split = splitAt(mesh, key, way, nextKey);
      if (!split) return { ok: false, at: done, face: faceOf(corner) };
      nextKey = split.nextKey;
      for (const [made, own] of split.mesh.corners) {
        if (mesh.corners.has(made)) continue;
        const moved = motionOf(own);
        if (moved) motions.set(made, moved.velocity);
      }
      mesh = split.mesh;
    }
    // Where all is rolled nothing moves by its planes.
    if (motions.size === 0) return { ok: true, mesh };
    const left = Math.abs(target) - done;
    const { after, gone } = nextMeeting(mesh, motions, way, left);
    const moved = new Map(mesh.corners);
    for (const [key, velocity] of motions) {
      const corner = moved.get(key);
      if (corner) moved.set(key, { ...corner, place: add3(corner.place, scale3(velocity, way * after)) });
    }
    mesh = { ...mesh, corners: moved };
    done += after;
    if (gone.length === 0) return { ok: true, mesh };
    for (const { face, from, to } of gone) {
      const closed = contract(mesh, face, from, to);
      if (typeof closed === 'number') return { ok: false, at: done, face: closed };
      mesh = closed;
    }
  }
  return { ok: false, at: done, face: 0 };
}

const faceOf = ({ ring }: Corner): number => ring.find(({ face }) => face !== null)?.face ?? 0;

/** How far all corners may move before an edge has no length, and the edges that have none then; all of the way if none has. */
function nextMeeting(
  mesh: OffsetMesh,
  motions: ReadonlyMap<number, Vec3>,
  way: number,
  left: number,
): { readonly after: number; readonly gone: readonly { face: number; from: number; to: number }[] } {
  let after = left;
  const shrinking: { face: number; from: number; to: number; at: number }[] = [];
  for (const [face, loop] of mesh.loops.entries()) {
    for (const [i, from] of loop.entries()) {
      const to = at(loop, i + 1);
      const [a, b] = [motions.get(from), motions.get(to)];
      if (!a || !b || from === to) continue;
      const along = sub3((mesh.corners.get(to) as Corner).place, (mesh.corners.get(from) as Corner).place);
      const length = length3(along);
      // An edge that has just come to be goes the way it grows.
      if (length <= HAIR_MM) continue;
      const rate = (way * dot3(sub3(b, a), along)) / length;
      if (rate >= -NOISE_RAD) continue;
      const meets = length / -rate;
      if (meets >= left + HAIR_MM) continue;
      shrinking.push({ face, from, to, at: meets });
      after = Math.min(after, meets);
    }
  }
  return { after, gone: shrinking.filter(({ at: meets }) => meets <= after + HAIR_MM && meets <= left) };
}

/** Both ends of an edge without length as one corner; the number of a face that is nothing any more. */
function contract(mesh: OffsetMesh, face: number, from: number, to: number): OffsetMesh | number {
  const [a, b] = [mesh.corners.get(from), mesh.corners.get(to)];
  // It went with its neighbours.
  if (!a || !b || from === to) return mesh;
  const own = a.ring.findIndex(
    (sector, i) =>
      sector.face === face && b.ring.some((other, j) => other.face === face && at(b.ring, j + 1) === at(a.ring, i - 1)),
  );
  const beyond = at(a.ring, own - 1);
  const there = b.ring.findIndex((sector, j) => sector === beyond && at(b.ring, j - 1).face === face);
  if (own < 0 || there < 0) return face;
  const turned = (ring: readonly Sector[], first: number): Sector[] => [...ring.slice(first), ...ring.slice(0, first)];
  // From the face round to what lies beyond the edge, and from there round to the face again.
  const ring = [...turned(a.ring, own), ...turned(b.ring, there).slice(1, -1)];
  const corners = new Map(mesh.corners);
  corners.delete(to);
  corners.set(from, { ring, origins: [...new Set([...a.origins, ...b.origins])], place: a.place });
  const loops = mesh.loops.map((loop) => {
    const renamed = loop.map((key) => (key === to ? from : key));
    return renamed.filter((key, i) => key !== at(renamed, i + 1));
  });
  const vanished = loops.findIndex((loop) => loop.length < 3);
  return vanished < 0 ? { corners, loops } : vanished;
}

function splitAt(
  mesh: OffsetMesh,
  key: number,
  way: 1 | -1,
  firstKey: number,
): { readonly mesh: OffsetMesh; readonly nextKey: number } | null {
  const corner = mesh.corners.get(key) as Corner;
  const groups = planeGroups(corner.ring);
  const split = splitGroups(mesh, key, groups, way);
  if (!split) return null;
  const corners = new Map(mesh.corners);
  corners.delete(key);
  const stops = new Map<MovingPlane, Sector>();
  split.cells.forEach((members, c) => {
    const ring = members.flatMap((p): readonly Sector[] => {
      if (typeof p !== 'number') {
        const stop = stops.get(p) ?? { face: null, edge: null, plane: p };
        stops.set(p, stop);
        return [stop];
      }
      const group = groups[p] as readonly Sector[];
      // Faces in one plane part at the first corner of their chain; the one before them runs along all of it.
      return split.chains[p]?.[0] === c ? group : group.slice(0, 1);
    });
    corners.set(firstKey + c, { ...corner, ring });
  });
  const chainOf = new Map<number, readonly number[]>();
  groups.forEach((group, p) => {
    const chain = (split.chains[p] ?? []).map((c) => firstKey + c);
    group.forEach(({ face }, i) => {
      if (face !== null) chainOf.set(face, i === 0 ? chain : chain.slice(0, 1));
    });
  });
  const loops = mesh.loops.map((loop, f) => {
    const chain = chainOf.get(f);
    return chain && loop.includes(key) ? loop.flatMap((k) => (k === key ? chain : [k])) : loop;
  });
  return { mesh: { corners, loops }, nextKey: firstKey + split.cells.length };
}

/** Neighbours in the ring that are one plane, together; a group never begins in the middle of one. */
function planeGroups(ring: readonly Sector[]): readonly (readonly Sector[])[] {
  const isSame = (a: Sector, b: Sector): boolean => isSamePlane(a.plane as MovingPlane, b.plane as MovingPlane);
  const first = Math.max(
    0,
    ring.findIndex((sector, i) => !isSame(at(ring, i - 1), sector)),
  );
  const groups: Sector[][] = [];
  for (const sector of [...ring.slice(first), ...ring.slice(0, first)]) {
    const last = groups.at(-1);
    if (last && isSame(last[0] as Sector, sector)) last.push(sector);
    else groups.push([sector]);
  }
  return groups;
}

/**
 * The planes beyond free edges are no faces, so that they may face either way: where an eave comes to lie inside the gable under
 * it, what was its underside is a ledge. As they are first, and without a stop where that will do.
 */
function splitGroups(
  mesh: OffsetMesh,
  key: number,
  groups: readonly (readonly Sector[])[],
  way: 1 | -1,
): SplitCorner | null {
  const free = groups.flatMap((group, p) => (group.every(({ face }) => face === null) ? [p] : []));
  for (const mayStop of [false, true]) {
    for (let flips = 0; flips < 2 ** Math.min(free.length, MOST_FLIPS); flips++) {
      const isFlipped = (p: number): boolean => free.includes(p) && ((flips >> free.indexOf(p)) & 1) === 1;
      const planes = groups.map((group, p): MovingPlane => {
        const { normal, speed } = (group[0] as Sector).plane as MovingPlane;
        return isFlipped(p) ? { normal: scale3(normal, -1), speed: -speed } : { normal, speed };
      });
      const turns = groups.map((group, p) => {
        const along = edgeBetween(mesh, key, group.at(-1) as Sector, at(groups, p + 1)[0] as Sector);
        return along ? turnOf(planes[p] as MovingPlane, at(planes, p + 1), along) : 0;
      });
      const split = splitCorner(planes, turns, way, (p) => mayStop && free.includes(p));
      if (split) return split;
    }
  }
  return null;
}

/** Free edges of one corner whose planes are tried either way. */
const MOST_FLIPS = 4;

/** The direction into a corner of the edge between two neighbours in its ring; null where there is none, beyond two free edges. */
function edgeBetween(mesh: OffsetMesh, key: number, one: Sector, next: Sector): Vec3 | null {
  const placeOf = (other: number): Vec3 => (mesh.corners.get(other) as Corner).place;
  const loop = mesh.loops[one.face ?? next.face ?? -1];
  if (!loop) return null;
  const i = loop.indexOf(key);
  const other = at(loop, one.face === null ? i + 1 : i - 1);
  const away = sub3(placeOf(key), placeOf(other));
  return distance3(placeOf(key), placeOf(other)) <= HAIR_MM ? null : unit3(away);
}

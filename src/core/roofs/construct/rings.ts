import { at } from '../../geometry/polygon.ts';
import { cross2, cross3, dot2, dot3, sub2, sub3, unit3, type Vec2, type Vec3 } from '../../geometry/vector.ts';
import type { FaceDraft } from '../../solid/build-solid.ts';
import { titleCase, windOf } from '../../solid/compass.ts';
import { NOISE_MM, NOISE_RAD } from '../../tolerance.ts';
import type { SideName } from '../regular.ts';

/** An outline at a level, counter-clockwise, mm: a polygon, a ridge of two corners or a peak of one. */
export interface Ring {
  readonly level: number;
  readonly corners: readonly Vec2[];
}

export interface RingStack {
  /**
   * From the eave up, two at least. Corner counts may differ from ring to ring, and rings may be turned, where all are
   * convex; rings that are not convex have one count and are joined corner to corner, up to a peak.
   */
  readonly rings: readonly Ring[];
  /** For each edge of the lowest ring the side that rises from it; null: nothing rises, as against a wall. */
  readonly sides: readonly (SideName | null)[];
}

/** A panel between two rings, by the edges it has on them; a missing edge is a corner. */
interface BandPanel {
  readonly points: readonly Vec3[];
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * Flat panels from ring to ring, and a flat top where the last ring is a polygon. A panel belongs to the side that rises from
 * its lower edge; one that stands on a corner begins a side of its own, named after the wind it faces.
 */
export function stackRings({ rings, sides: lowest }: RingStack): FaceDraft[] {
  const drafts: FaceDraft[] = [];
  const bands = new Map<string, number>();
  const names = new Set(lowest.flatMap((side) => (side ? [side.id] : [])));
  let sides = lowest;
  rings.slice(1).forEach((high, k) => {
    const low = rings[k] as Ring;
    const above: (SideName | null)[] = high.corners.map(() => null);
    for (const panel of bandBetween(low, high)) {
      const side = panel.low === null ? newSide(panel.points, names) : (sides[panel.low] ?? null);
      if (panel.high !== null) above[panel.high] = side;
      if (!side) continue;
      const band = (bands.get(side.id) ?? 0) + 1;
      bands.set(side.id, band);
      drafts.push({
        id: band === 1 ? side.id : `${side.id}-${band}`,
        title: band === 1 ? side.title : `${side.title}, band ${band}`,
        part: 'slope',
        side: side.id,
        points: panel.points,
      });
    }
    sides = above;
  });
  const top = rings.at(-1) as Ring;
  if (top.corners.length > 2) {
    const points = top.corners.map((p) => raised(p, top.level));
    drafts.push({ id: 'top', title: 'Top', part: 'slope', side: 'top', points });
  }
  return drafts;
}

const raised = ([x, y]: Vec2, level: number): Vec3 => [x, y, level];

/** Adds the name to those that are taken. */
function newSide(points: readonly Vec3[], names: Set<string>): SideName {
  const [a, b, c] = points as [Vec3, Vec3, Vec3];
  const [x, y] = cross3(sub3(b, a), sub3(c, a));
  const wind = windOf(x, y);
  let count = 1;
  const name = (word: string): string => (count === 1 ? word : `${word}-side-${count}`);
  while (names.has(name(wind))) count++;
  names.add(name(wind));
  return { id: name(wind), title: count === 1 ? titleCase(wind) : `${titleCase(wind)}, side ${count}` };
}

function bandBetween(low: Ring, high: Ring): readonly BandPanel[] {
  return isConvex(low.corners) && isConvex(high.corners) ? hullBetween(low, high) : matched(low, high);
}

const isConvex = (ring: readonly Vec2[]): boolean =>
  ring.every((p, i) => {
    const before = sub2(p, at(ring, i - 1));
    const after = sub2(at(ring, i + 1), p);
    return cross2(before, after) >= -NOISE_RAD * Math.hypot(...before) * Math.hypot(...after);
  });

/**
 * The sides of the convex hull of two convex rings at two levels, which are flat: an edge of one ring goes to the corner of the
 * other that lies farthest out in the direction it faces, or to the edge there where that is parallel.
 */
function hullBetween(low: Ring, high: Ring): readonly BandPanel[] {
  const facing = ({ corners }: Ring): readonly Vec2[] =>
    corners.length < 2 ? [] : corners.map((p, i) => outwards(p, at(corners, i + 1)));
  const [below, above] = [facing(low), facing(high)];
  const lowPoint = (i: number): Vec3 => raised(at(low.corners, i), low.level);
  const highPoint = (i: number): Vec3 => raised(at(high.corners, i), high.level);
  const panels = below.map((normal, i): BandPanel & { readonly turn: number } => {
    const j = above.findIndex((other) => isSameDirection(normal, other));
    const base = [lowPoint(i), lowPoint(i + 1)];
    const turn = turnFrom(below[0] as Vec2, normal);
    return j < 0
      ? { points: [...base, highPoint(farthest(high.corners, normal))], low: i, high: null, turn }
      : { points: [...base, highPoint(j + 1), highPoint(j)], low: i, high: j, turn };
  });
  above.forEach((normal, j) => {
    if (below.some((other) => isSameDirection(normal, other))) return;
    const points = [lowPoint(farthest(low.corners, normal)), highPoint(j + 1), highPoint(j)];
    panels.push({ points, low: null, high: j, turn: turnFrom(below[0] as Vec2, normal) });
  });
  return panels.sort((a, b) => a.turn - b.turn);
}

const outwards = (p: Vec2, q: Vec2): Vec2 => {
  const [x, y] = sub2(q, p);
  const size = Math.hypot(x, y);
  return [y / size, -x / size];
};

const isSameDirection = (a: Vec2, b: Vec2): boolean => Math.abs(cross2(a, b)) <= NOISE_RAD && dot2(a, b) > 0;

/** Counter-clockwise from one direction to another, 0 to a whole turn; noise below nothing is nothing. */
const turnFrom = (a: Vec2, b: Vec2): number => {
  const turn = Math.atan2(cross2(a, b), dot2(a, b));
  return turn < -NOISE_RAD ? turn + 2 * Math.PI : turn;
};

const farthest = (ring: readonly Vec2[], direction: Vec2): number =>
  ring.reduce((best, p, i) => (dot2(direction, p) > dot2(direction, at(ring, best)) ? i : best), 0);

/** Rings of one count joined corner to corner: a quad where it is flat, otherwise two triangles. A peak takes triangles. */
function matched(low: Ring, high: Ring): readonly BandPanel[] {
  const isPeak = high.corners.length === 1;
  if (!isPeak && high.corners.length !== low.corners.length)
    throw new Error('rings that are not convex need corners of one count');
  return low.corners.flatMap((p, i): readonly BandPanel[] => {
    const [a, b] = [raised(p, low.level), raised(at(low.corners, i + 1), low.level)];
    const [c, d] = [raised(at(high.corners, i + 1), high.level), raised(at(high.corners, i), high.level)];
    if (isPeak) return [{ points: [a, b, d], low: i, high: null }];
    const normal = unit3(cross3(sub3(c, a), sub3(d, b)));
    if (Math.abs(dot3(normal, sub3(b, a))) <= NOISE_MM) return [{ points: [a, b, c, d], low: i, high: i }];
    return [
      { points: [a, b, c], low: i, high: null },
      { points: [a, c, d], low: i, high: i },
    ];
  });
}

import { type BoxGrid, boxGrid, gridOf } from '../geometry/box-grid.ts';
import { type BoxedRing, boxedRing } from '../geometry/convex-parts.ts';
import { areApart, at, type Box, boxOf } from '../geometry/polygon.ts';
import { alignSegments, apply2, type Rigid2 } from '../geometry/rigid2.ts';
import { distance2, lerp2, type Vec2 } from '../geometry/vector.ts';
import type { FlapSpec } from '../project/project.ts';
import { isSameLength } from '../tolerance.ts';
import type { Flap } from './net.ts';
import type { SeamFlap } from './seam-flap.ts';
import { type Obstacle, trimFlat } from './trim-flat.ts';
import { type FlatSolid, stretchOf, turnAt, type Unfolded } from './unfold.ts';

/** A flap where it lies on its piece: the ring that others keep off, and which edges of the panel's loop it takes. */
export interface PlacedFlap {
  readonly flap: Flap;
  readonly hull: readonly Vec2[];
  readonly box: Box;
  readonly position: number;
  readonly edges: number;
  /** How many edges of the loop lie before it along its seam. */
  readonly start: number;
}

/** What laying the flaps of one piece begins from, and what came of each flap when it was last laid. */
export interface FlapBed {
  readonly rings: readonly BoxedRing[];
  readonly grid: BoxGrid;
  readonly known: Map<SeamFlap, LaidBefore>;
  /** Those that were asked for the last time. */
  last: readonly LaidBefore[];
}

/** Where more flaps than this lie otherwise than the last time, every flap looks for those beside it anew. */
const FEW = 64;

interface LaidBefore {
  readonly asked: SeamFlap;
  readonly position: number;
  readonly place: Rigid2;
  /** Of the strip before it is trimmed. */
  readonly around: Box;
  /** The flaps that lay near it when it was trimmed; missing: it was not yet. */
  beside?: readonly PlacedFlap[];
  /** What came of it then; null: too little was left. */
  placed: PlacedFlap | null;
}

export function flapBed(panels: Unfolded['panels']): FlapBed {
  const rings = panels.map(({ polygon }) => boxedRing(polygon));
  return { rings, grid: gridOf(rings.map(({ box }) => box)), known: new Map(), last: [] };
}

/** From the frame of a seam to the piece. A curve may be a little longer flat than under the mate; then the middles of both are one. */
const seamPlace = (length: number, end: Vec2, begin: Vec2): Rigid2 =>
  alignSegments([length / 2, 0], [length, 0], lerp2(end, begin, 0.5), begin);

/**
 * Lays the flaps of a piece flat beside their panels, each trimmed so that it keeps off the panels and the flaps before it; one
 * that is left too small is not among them. `flapsOf` gives the flaps that a face carries as they were trimmed under their mates; `before`
 * are others that lie on the piece already. One that was laid on the bed before, with the same flaps beside it, is not trimmed
 * again.
 */
export function placeFlaps(
  flatSolid: FlatSolid,
  { panels }: Pick<Unfolded, 'panels'>,
  flapsOf: (face: number) => readonly SeamFlap[],
  spec: FlapSpec,
  { before = [], bed = flapBed(panels) }: { readonly before?: readonly PlacedFlap[]; readonly bed?: FlapBed } = {},
): readonly PlacedFlap[] {
  const { solid } = flatSolid;
  const placed: PlacedFlap[] = [];
  const all = [...before];
  const flapGrid = boxGrid();
  for (const { box } of before) flapGrid.add(box);
  const laid: LaidBefore[] = [];
  const wasLaid = new Set(bed.last);
  // Where flaps lie otherwise than the last time.
  const stirred: Box[] = [];
  for (const { asked, placed: was } of bed.last) if (was && !flapsOf(asked.from).includes(asked)) stirred.push(was.box);
  const put = (one: LaidBefore, was: PlacedFlap | null): void => {
    const { placed: now } = one;
    laid.push(one);
    if (was && now !== was) stirred.push(was.box);
    if (!now) return;
    if (bed.last.length > 0 && now !== was) stirred.push(now.box);
    placed.push(now);
    all.push(now);
    flapGrid.add(now.box);
  };
  panels.forEach(({ face, polygon }, panel) => {
    for (const asked of flapsOf(face)) {
      if (asked.polygon.length === 0) continue;
      const { seam: edge, to, start, edges, length, polygon: strip } = asked;
      const isTooth = solid.edges[edge]?.via !== undefined;
      let one = bed.known.get(asked);
      if (!one) {
        const position = stretchOf(flatSolid, edge, face).first + start;
        const place = seamPlace(length, at(polygon, position + edges), at(polygon, position));
        one = { asked, position, place, around: boxOf(strip.map((p) => apply2(place, p))), placed: null };
        bed.known.set(asked, one);
      }
      const { position, place, around } = one;
      const was = wasLaid.has(one) ? one.placed : null;
      if (wasLaid.has(one) && stirred.length <= FEW && stirred.every((box) => areApart(box, around))) {
        put(one, was);
        continue;
      }
      const beside: PlacedFlap[] = [];
      for (const index of flapGrid.near(around)) {
        const other = all[index] as PlacedFlap;
        if (!isTooth || other.flap.edge !== edge) beside.push(other);
      }
      const { beside: then } = one;
      if (then && then.length === beside.length && then.every((other, i) => other === beside[i])) {
        put(one, was);
        continue;
      }
      one.beside = beside;
      const obstacles: Obstacle[] = [];
      for (const index of bed.grid.near(around, spec.clearance)) {
        const { parts } = bed.rings[index] as BoxedRing;
        // A curve bulges past a tooth's base, and its teeth lean apart by themselves; beyond the edge of a convex panel there is room.
        if (index === panel && (isTooth || parts.length === 1)) continue;
        const gap = index === panel ? 0 : spec.clearance;
        for (const { ring, box } of parts) if (!areApart(box, around, gap)) obstacles.push({ ring, box, gap });
      }
      for (const { hull, box } of beside) obstacles.push({ ring: hull, box, gap: 0 });
      const kept = trimFlat(strip, place, obstacles, spec.least);
      if (kept.length === 0 || (isTooth && !isSameLength(distance2(at(kept, 0), at(kept, 1)), length))) {
        one.placed = null;
        put(one, was);
        continue;
      }
      const hull = kept.map((p) => apply2(place, p));
      // A tooth's base is the curve itself, from end to beginning.
      const curve = Array.from({ length: edges + 1 }, (_, k) => at(polygon, position + edges - k));
      const flap: Flap = {
        edge,
        from: face,
        to,
        panel,
        polygon: isTooth ? [...curve, ...hull.slice(2)] : hull,
        base: edges,
        ...turnAt(solid, edge),
      };
      one.placed = { flap, hull, box: boxOf(hull), position, edges, start };
      put(one, was);
    }
  });
  bed.last = laid;
  return placed;
}

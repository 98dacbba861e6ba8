import { boxedRing } from '../geometry/convex-parts.ts';
import { at, type Box, boxOf } from '../geometry/polygon.ts';
import { alignSegments, apply2 } from '../geometry/rigid2.ts';
import { distance2, lerp2, type Vec2 } from '../geometry/vector.ts';
import type { FlapSpec } from '../project/project.ts';
import { isSameLength } from '../tolerance.ts';
import type { Flap } from './net.ts';
import { type Obstacle, type SeamFlap, trimFlat } from './trim-flaps.ts';
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

/**
 * Lays the flaps of a piece flat beside their panels, each trimmed so that it keeps off the panels and the flaps before it; one
 * that is left too small is not among them. `flapsAt` gives the flaps of a seam as they were trimmed under their mates; `before`
 * lie there already.
 */
export function placeFlaps(
  flatSolid: FlatSolid,
  { panels }: Pick<Unfolded, 'panels'>,
  flapsAt: (seam: number) => readonly SeamFlap[],
  spec: FlapSpec,
  before: readonly PlacedFlap[] = [],
): readonly PlacedFlap[] {
  const { solid, edgesOf } = flatSolid;
  const placed: PlacedFlap[] = [];
  const panelRings = panels.map(({ polygon }) => boxedRing(polygon).parts);
  panels.forEach(({ face, polygon }, panel) => {
    const carried = [...new Set(edgesOf[face])].flatMap(flapsAt);
    for (const { seam: edge, from, to, start, edges, length, polygon: strip } of carried) {
      if (from !== face || strip.length === 0) continue;
      const position = stretchOf(flatSolid, edge, face).first + start;
      const isTooth = solid.edges[edge]?.via !== undefined;
      const [end, begin] = [at(polygon, position + edges), at(polygon, position)];
      // A curve may be a little longer flat than under the mate; then the middles of both are one.
      const place = alignSegments([length / 2, 0], [length, 0], lerp2(end, begin, 0.5), begin);
      const obstacles: Obstacle[] = [
        ...panelRings.flatMap((rings, index) =>
          // A curve bulges past a tooth's base, and its teeth lean apart by themselves.
          index === panel && isTooth
            ? []
            : rings.map((part) => ({ ...part, gap: index === panel ? 0 : spec.clearance })),
        ),
        ...[...before, ...placed]
          .filter((other) => !isTooth || other.flap.edge !== edge)
          .map(({ hull, box }) => ({ ring: hull, box, gap: 0 })),
      ];
      const kept = trimFlat(strip, place, obstacles, spec.least);
      if (kept.length === 0 || (isTooth && !isSameLength(distance2(at(kept, 0), at(kept, 1)), length))) continue;
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
      placed.push({ flap, hull, box: boxOf(hull), position, edges, start });
    }
  });
  return placed;
}

import { at } from '../geometry/polygon.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import { isPositive } from '../tolerance.ts';
import type { Flap, Panel } from './net.ts';

/** What lies beyond one edge of a panel: a panel across a fold, or a flap or hem. */
export interface Beyond {
  readonly child?: { readonly panel: number; readonly edge: number };
  /** The flap or hem that begins there, and how many edges of the loop it takes. */
  readonly flap?: { readonly flap: Pick<Flap, 'polygon' | 'base'>; readonly edges: number };
}

/**
 * The line to cut: once round the panels of a piece, across no fold, out round every flap. Counter-clockwise, not closed.
 * `beyond(panel, i)` says what lies beyond the edge from corner i of a panel.
 */
export function traceOutline(panels: readonly Panel[], beyond: (panel: number, index: number) => Beyond): Vec2[] {
  const points: Vec2[] = [];
  const push = (point: Vec2): void => {
    const last = points.at(-1);
    if (!last || isPositive(distance2(last, point))) points.push(point);
  };
  const walk = (panel: number, first: number, count: number): void => {
    const { polygon } = panels[panel] as Panel;
    for (let step = 0; step < count; ) {
      const index = (first + step) % polygon.length;
      push(at(polygon, index));
      const { child, flap } = beyond(panel, index);
      step += flap?.edges ?? 1;
      if (child) {
        const corners = panels[child.panel]?.polygon.length ?? 0;
        walk(child.panel, child.edge + 1, corners - 1);
      } else if (flap) {
        // A flap runs counter-clockwise with its seam first, so its far points come after that.
        const { polygon: ring, base } = flap.flap;
        for (const point of ring.slice(base)) push(point);
        push(at(ring, 0));
      }
    }
  };
  walk(0, 0, panels[0]?.polygon.length ?? 0);
  const closes = points.length > 1 && !isPositive(distance2(at(points, 0), at(points, -1)));
  return closes ? points.slice(0, -1) : points;
}

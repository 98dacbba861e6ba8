import { cross2, dot2, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import type { Plane } from './front.ts';
import type { SkeletonFace } from './skeleton.ts';

/** A piece of a face's boundary from node to node, the face to its left. */
export interface Arc {
  readonly plane: Plane;
  readonly from: number;
  readonly to: number;
}

/** Joins the arcs of each plane to closed loops. */
export function closeFaces(arcs: readonly Arc[], nodes: readonly Vec3[]): SkeletonFace[] {
  const byPlane = new Map<Plane, { readonly from: number; readonly to: number }[]>();
  for (const { plane, from, to } of arcs) {
    if (from === to) continue;
    const list = byPlane.get(plane) ?? [];
    // An arc and its reverse in one face are a hair with nothing on either side.
    const twin = list.findIndex((one) => one.from === to && one.to === from);
    if (twin >= 0) list.splice(twin, 1);
    else list.push({ from, to });
    byPlane.set(plane, list);
  }
  const direction = (from: number, to: number): Vec2 => {
    const [a, b] = [nodes[from] as Vec3, nodes[to] as Vec3];
    return [b[0] - a[0], b[1] - a[1]];
  };
  const faces: SkeletonFace[] = [];
  for (const [{ edge, stage }, left] of byPlane) {
    while (left.length > 0) {
      const loop: number[] = [];
      let arc = left.shift();
      while (arc) {
        const { from, to }: { from: number; to: number } = arc;
        loop.push(from);
        if (to === loop[0]) break;
        // Where a face touches itself, its boundary goes on to the first arc clockwise, so the inside stays in one.
        const back = direction(to, from);
        let next = -1;
        let least = Number.POSITIVE_INFINITY;
        left.forEach((one, i) => {
          if (one.from !== to) return;
          const on = direction(one.from, one.to);
          const angle = Math.atan2(cross2(on, back), dot2(on, back));
          const turn = angle <= 0 ? angle + 2 * Math.PI : angle;
          if (turn < least) [next, least] = [i, turn];
        });
        arc = next < 0 ? undefined : left.splice(next, 1)[0];
      }
      faces.push({ edge, stage, loop });
    }
  }
  return faces;
}

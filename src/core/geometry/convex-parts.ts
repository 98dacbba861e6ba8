import earcut from 'earcut';
import { NOISE_RAD } from '../tolerance.ts';
import { areApart, at, type Box, boxOf, convexDepth, ringArea } from './polygon.ts';
import { cross2, length2, sub2, type Vec2 } from './vector.ts';

/** Whether every corner of a counter-clockwise simple ring turns left; corners in line count as turning left. */
export const isConvex = (ring: readonly Vec2[]): boolean =>
  ring.every((p, i) => {
    const into = sub2(p, at(ring, i - 1));
    const out = sub2(at(ring, i + 1), p);
    return cross2(into, out) >= -NOISE_RAD * length2(into) * length2(out);
  });

/** Convex counter-clockwise rings that together are the given simple ring: itself where it is convex, else its triangles. */
export function convexParts(ring: readonly Vec2[]): readonly (readonly Vec2[])[] {
  if (isConvex(ring)) return [ring];
  const corners = earcut(ring.flat());
  const parts: Vec2[][] = [];
  for (let i = 0; i < corners.length; i += 3) {
    const part = corners.slice(i, i + 3).map((c) => at(ring, c));
    const area = ringArea(part);
    if (area !== 0) parts.push(area > 0 ? part : part.reverse());
  }
  return parts;
}

/** A ring as convex parts, each in its box: what comparing many rings asks for. */
export interface BoxedRing {
  readonly box: Box;
  readonly parts: readonly { readonly ring: readonly Vec2[]; readonly box: Box }[];
}

export const boxedRing = (ring: readonly Vec2[]): BoxedRing => ({
  box: boxOf(ring),
  parts: convexParts(ring).map((part) => ({ ring: part, box: boxOf(part) })),
});

/** How far two simple rings reach into each other, mm: the deepest of their convex parts; 0 or less where they do not. */
export function ringDepth(a: BoxedRing, b: BoxedRing): number {
  let depth = Number.NEGATIVE_INFINITY;
  if (areApart(a.box, b.box)) return depth;
  for (const p of a.parts) {
    if (areApart(p.box, b.box)) continue;
    for (const q of b.parts) if (!areApart(p.box, q.box)) depth = Math.max(depth, convexDepth(p.ring, q.ring));
  }
  return depth;
}

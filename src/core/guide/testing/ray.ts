import earcut from 'earcut';
import { cross3, dot3, sub3, type Vec3 } from '../../geometry/vector.ts';
import type { SceneFace } from '../hidden-lines.ts';

export type Triangle = readonly [Vec3, Vec3, Vec3];

/** Faces as triangles in space, holes left out. */
export const trianglesOf = (faces: readonly SceneFace[]): readonly Triangle[] =>
  faces.flatMap(({ rings }) => {
    const points = rings.flat();
    const holes = rings.slice(1).map((_, r) => rings.slice(0, r + 1).reduce((sum, ring) => sum + ring.length, 0));
    const [a, b, c] = spread(rings[0] ?? []);
    const normal = cross3(sub3(b, a), sub3(c, a));
    const sizes = normal.map(Math.abs);
    const drop = sizes.indexOf(Math.max(...sizes));
    const flat = points.flatMap((p) => p.filter((_, i) => i !== drop));
    const corners = earcut(flat, holes);
    return Array.from(
      { length: corners.length / 3 },
      (_, t): Triangle => [0, 1, 2].map((k) => points[corners[3 * t + k] as number]) as unknown as Triangle,
    );
  });

/** Three corners of the ring that span the largest triangle with its first. */
function spread(ring: readonly Vec3[]): Triangle {
  const [a = [0, 0, 0]] = ring;
  let best: Triangle = [a, a, a];
  let most = -1;
  for (const b of ring)
    for (const c of ring) {
      const n = cross3(sub3(b, a), sub3(c, a));
      const size = dot3(n, n);
      if (size > most) [best, most] = [[a, b, c], size];
    }
  return best;
}

/** Nearer to the ray's start than this, or to a triangle's border than this share of it, a hit is in doubt; mm. */
const START = 1e-3;
const BORDER = 1e-3;

/**
 * What a ray meets up to a distance (T. Möller, B. Trumbore, "Fast, minimum storage ray/triangle intersection", 1997): `clear`
 * where it goes well through a triangle, `any` where it meets one at all, doubtful hits at borders counted.
 */
export function firstHit(
  triangles: readonly Triangle[],
  from: Vec3,
  direction: Vec3,
  far: number,
): { readonly clear: boolean; readonly any: boolean } {
  let any = false;
  for (const [a, b, c] of triangles) {
    const [ab, ac] = [sub3(b, a), sub3(c, a)];
    const p = cross3(direction, ac);
    const det = dot3(ab, p);
    if (det === 0) continue;
    const away = sub3(from, a);
    const u = dot3(away, p) / det;
    const q = cross3(away, ab);
    const v = dot3(direction, q) / det;
    const d = dot3(ac, q) / det;
    const inside = Math.min(u, v, 1 - u - v);
    if (d <= 0 || d >= far || inside < -BORDER) continue;
    any = true;
    // The start's distance from the plane, not along a ray that may graze it.
    const n = cross3(ab, ac);
    const off = Math.abs(dot3(n, away)) / Math.sqrt(dot3(n, n));
    if (off > START && inside > BORDER) return { clear: true, any };
  }
  return { clear: false, any };
}

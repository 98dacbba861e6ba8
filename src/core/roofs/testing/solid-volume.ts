import type { Vec3 } from '../../geometry/vector.ts';
import { measureSolid } from '../../solid/measure.ts';
import type { Solid } from '../../solid/solid.ts';

/**
 * Volume between a solid and its eave plane, mm³, by the divergence theorem: a third of each face's area times the distance of
 * its plane from the origin. The open underside lies in the plane of the origin and adds nothing.
 */
export function solidVolume(solid: Solid): number {
  const { faces } = measureSolid(solid);
  return solid.faces.reduce((sum, { loop }, f) => {
    const [a, b, c] = loop.map((v) => solid.vertices[v] as Vec3) as [Vec3, Vec3, Vec3];
    const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
    const v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const;
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]] as const;
    const distance = (a[0] * n[0] + a[1] * n[1] + a[2] * n[2]) / Math.hypot(...n);
    return sum + ((faces[f]?.area ?? 0) * distance) / 3;
  }, 0);
}

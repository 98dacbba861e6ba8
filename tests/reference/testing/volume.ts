import { at } from '../../../src/core/geometry/polygon.ts';
import { cross3, dot3, type Vec3 } from '../../../src/core/geometry/vector.ts';
import { facetsOf } from '../../../src/core/solid/face-frame.ts';
import type { Solid } from '../../../src/core/solid/solid.ts';

/**
 * Volume between a solid and its eave plane, mm³, by the divergence theorem: each face is the base of a pyramid whose tip is
 * the origin. The open underside lies in the plane of the tip and adds nothing. A smooth face counts by its facets.
 */
export function volumeOf({ vertices, faces }: Solid): number {
  const corner = (ring: readonly number[], i: number): Vec3 => vertices[at(ring, i)] as Vec3;
  return faces
    .flatMap((face) => facetsOf(face))
    .reduce((sum, ring) => {
      const parts = ring.map((_, i) => dot3(corner(ring, 0), cross3(corner(ring, i), corner(ring, i + 1))) / 6);
      return sum + parts.reduce((a, b) => a + b, 0);
    }, 0);
}

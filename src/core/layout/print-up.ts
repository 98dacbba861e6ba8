import { at } from '../geometry/polygon.ts';
import { cross2, sub2, type Vec2 } from '../geometry/vector.ts';
import type { Piece } from '../net/net.ts';
import type { Solid } from '../solid/solid.ts';
import { isPositive, NOISE_MM2 } from '../tolerance.ts';

/** A panel whose up differs from the piece's by less than this looks upright, radians: a protractor is read to so much. */
const UPRIGHT = Math.PI / 360;

/**
 * Faces whose panels do not stand upright where the piece does: on a print with an up they show it askew. A level panel has no
 * up, a rolled one has it along its middle.
 */
export function askewFaces({ panels }: Pick<Piece, 'panels'>, solid: Solid): readonly number[] {
  return panels.flatMap(({ face, polygon }) => {
    const up = upOf(polygon, solid, face);
    return up && Math.abs(Math.atan2(up[0], up[1])) > UPRIGHT ? [face] : [];
  });
}

/** Which way is up in a panel laid flat: where the height of its corners rises; null where it is level. */
function upOf(polygon: readonly Vec2[], { faces, vertices }: Solid, face: number): Vec2 | null {
  const { loop = [], roll } = faces[face] ?? {};
  if (roll) return null;
  const heights = loop.map((v) => vertices[v]?.[2] ?? 0);
  // The three corners that span the largest triangle with the first edge give the plane of the heights.
  const [a, b] = [at(polygon, 0), at(polygon, 1)];
  const areas = polygon.map((p) => Math.abs(cross2(sub2(b, a), sub2(p, a))));
  const far = areas.indexOf(Math.max(...areas));
  const [u, v] = [sub2(b, a), sub2(at(polygon, far), a)];
  const area = cross2(u, v);
  if (Math.abs(area) <= NOISE_MM2) return null;
  const [s, t] = [at(heights, 1) - at(heights, 0), at(heights, far) - at(heights, 0)];
  const up: Vec2 = [(s * v[1] - t * u[1]) / area, (t * u[0] - s * v[0]) / area];
  return isPositive(Math.hypot(up[0], up[1])) ? up : null;
}

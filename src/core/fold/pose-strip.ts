import { compose, type Motion } from '../geometry/motion.ts';
import { alignSegments } from '../geometry/rigid2.ts';
import { add3, cross3, scale3, sub3, unit3, type Vec3 } from '../geometry/vector.ts';
import type { SeamStrip } from '../net/net.ts';
import { frameMotion, normalAt } from '../solid/face-frame.ts';
import type { Edge, Face, Solid } from '../solid/solid.ts';
import { liftMotion } from './bend.ts';

/** The motion that lays the first half of a seam strip under the first face of its edge; where that is smooth, along the seam. */
export function underFirstFace({ vertices, faces, edges }: Solid, { edge, line }: SeamStrip): Motion {
  const { ends, faces: sides } = edges[edge] as Edge;
  const [a, b] = ends.map((v) => vertices[v] as Vec3) as [Vec3, Vec3];
  const normal = normalAt(vertices, faces[sides[0] as number] as Face, scale3(add3(a, b), 0.5));
  const x = unit3(sub3(b, a));
  const flat = liftMotion(alignSegments(...line, [0, 0], [1, 0]));
  return compose(frameMotion({ origin: a, x, y: cross3(normal, x), normal }), flat);
}

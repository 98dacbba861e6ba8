import { at } from '../../../src/core/geometry/polygon.ts';
import { alignSegments, apply2 } from '../../../src/core/geometry/rigid2.ts';
import { distance2, lerp2, type Vec2 } from '../../../src/core/geometry/vector.ts';
import type { Unfolded } from '../../../src/core/net/unfold.ts';

/** Places are compared in steps of this part of the longest edge; off the round, so that none falls on a half step. */
const STEPS = 99_991.7;

/** A text that is the same for two nets just where they are congruent, mirror images included. */
export function netKey({ panels, folds }: Unfolded): string {
  const rings = panels.map(({ polygon }) => polygon);
  const longest = Math.max(...rings.flatMap((ring) => ring.map((p, i) => distance2(p, at(ring, i + 1)))));
  const marks: Vec2[] = [
    ...rings.map(
      (ring): Vec2 => [
        ring.reduce((sum, p) => sum + p[0], 0) / ring.length,
        ring.reduce((sum, p) => sum + p[1], 0) / ring.length,
      ],
    ),
    // Where panels touch along an edge that is cut it is another net.
    ...folds.map(({ ends }) => lerp2(...ends, 0.5)),
  ];
  const keys = [false, true].flatMap((isMirrored) => {
    const seen = ([x, y]: Vec2): Vec2 => (isMirrored ? [-x, y] : [x, y]);
    return rings.flatMap((ring) =>
      ring.map((p, i) => {
        const q = at(ring, i + 1);
        const [from, to] = isMirrored ? [seen(q), seen(p)] : [p, q];
        const motion = alignSegments(from, to, [0, 0], [1, 0]);
        const places = marks.map((mark) =>
          apply2(motion, seen(mark))
            .map((part) => Math.round((part / longest) * STEPS + 0.25))
            .join(),
        );
        return `${ring.length}:${places.sort().join(' ')}`;
      }),
    );
  });
  return keys.sort()[0] ?? '';
}

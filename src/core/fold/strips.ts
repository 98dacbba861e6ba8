import type { Vec2 } from '../geometry/vector.ts';
import type { Panel } from '../net/net.ts';
import { facetsOf } from '../solid/face-frame.ts';
import type { Solid } from '../solid/solid.ts';

/** A panel as the rings that stay flat while it bends: itself, or the strips between the rulings of a rolled one. */
export const stripsOf = (solid: Solid, { face, polygon }: Panel): readonly (readonly Vec2[])[] => {
  const roll = solid.faces[face]?.roll;
  if (!roll) return [polygon];
  return facetsOf({ loop: polygon.map((_, i) => i), roll }).map((ring) => ring.map((i) => polygon[i] as Vec2));
};

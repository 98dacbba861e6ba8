import type { Vec2 } from './vector.ts';
import { cross2, dot2, sub2, unit2 } from './vector.ts';

/** A motion in the plane that turns nothing over: p becomes R p + move, with R the turn by (cos, sin). */
export interface Rigid2 {
  readonly cos: number;
  readonly sin: number;
  readonly move: Vec2;
}

export const rest2: Rigid2 = { cos: 1, sin: 0, move: [0, 0] };

export const apply2 = ({ cos, sin, move }: Rigid2, p: Vec2): Vec2 => [
  cos * p[0] - sin * p[1] + move[0],
  sin * p[0] + cos * p[1] + move[1],
];

/** The motion that takes a to a2 and the direction a→b to the direction a2→b2. */
export function alignSegments(a: Vec2, b: Vec2, a2: Vec2, b2: Vec2): Rigid2 {
  const u = unit2(sub2(b, a));
  const v = unit2(sub2(b2, a2));
  const cos = dot2(u, v);
  const sin = cross2(u, v);
  return { cos, sin, move: [a2[0] - (cos * a[0] - sin * a[1]), a2[1] - (sin * a[0] + cos * a[1])] };
}

/** First `inner`, then `outer`. */
export const compose2 = (outer: Rigid2, inner: Rigid2): Rigid2 => ({
  cos: outer.cos * inner.cos - outer.sin * inner.sin,
  sin: outer.sin * inner.cos + outer.cos * inner.sin,
  move: apply2(outer, inner.move),
});

/** The motion back. */
export const inverse2 = ({ cos, sin, move: [x, y] }: Rigid2): Rigid2 => ({
  cos,
  sin: -sin,
  move: [-(cos * x + sin * y), sin * x - cos * y],
});

import { wallNames } from '../footprint/sides.ts';
import { at, distanceToSegment } from '../geometry/polygon.ts';
import { dot2, length2, sub2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Body, Neighbour } from '../project/project.ts';
import { directionOf } from '../solid/compass.ts';
import { edgePath, type Solid } from '../solid/solid.ts';

/** How near the roof comes to what stands beside its body. */
export interface Clearance {
  readonly neighbour: Neighbour;
  /** Shortest way between the roof and the neighbour, mm; where they run into each other, less than 0: how far. */
  readonly distance: number;
  /** The edges of the roof that come nearest: indices into `solid.edges`. */
  readonly edges: readonly number[];
}

/** A wall of the body in plan: a point on it and the direction straight out, of length 1. */
interface Wall {
  readonly from: Vec2;
  readonly out: Vec2;
}

/**
 * Shortest way from the roof to each neighbour: a straight wall as long as need be, parallel to a wall of the body and `gap`
 * away from it, that ends level at its height over the table. `rest`: height of the roof's eave plane over the table, mm.
 */
export function clearances(
  solid: Solid,
  body: Body,
  { neighbours, rest }: { readonly neighbours: readonly Neighbour[]; readonly rest: number },
): readonly Clearance[] {
  return neighbours.flatMap((neighbour): Clearance[] => {
    const wall = wallOf(body, neighbour.side);
    if (!wall) return [];
    // Across the gap and up: from here on the neighbour fills x > 0, y < 0.
    const section = (v: number): Vec2 => {
      const [x, y, z] = solid.vertices[v] as Vec3;
      return [dot2(sub2([x, y], wall.from), wall.out) - neighbour.gap, z + rest - neighbour.height];
    };
    const found = solid.edges.map((edge) => {
      const path = edgePath(edge).map(section);
      return Math.min(...path.slice(1).map((q, i) => distanceToQuarter(path[i] as Vec2, q)));
    });
    const distance = Math.min(...found);
    return [{ neighbour, distance, edges: found.flatMap((own, e) => (own === distance ? [e] : [])) }];
  });
}

function wallOf(body: Body, side: string): Wall | null {
  if (body.isRound) {
    const out = directionOf(side);
    return out && { from: [out[0] * radiusOf(body), out[1] * radiusOf(body)], out };
  }
  const i = wallNames(body).indexOf(side);
  if (i < 0) return null;
  const [from, to] = [at(body.outline, i), at(body.outline, i + 1)];
  const [x, y] = sub2(to, from);
  return { from, out: [y / length2([x, y]), -x / length2([x, y])] };
}

const radiusOf = ({ outline }: Body): number => length2(outline[0] as Vec2);

/** Distance from a segment to the quarter plane x > 0, y < 0; under 0 as deep as the segment reaches into it. */
function distanceToQuarter(p: Vec2, q: Vec2): number {
  const [low, high] = [p, q].map(([x, y]) => Math.min(x, -y)) as [number, number];
  // Deepest at an end, or where it is as far from one side as from the other.
  const deepest = Math.max(low, high, depthBetween(p, q));
  if (deepest >= 0) return -deepest;
  const outside = ([x, y]: Vec2): number => Math.hypot(Math.max(0, -x), Math.max(0, y));
  return Math.min(outside(p), outside(q), distanceToSegment([0, 0], p, q));
}

/** How deep the point of a segment lies that is as far inside one side of the quarter as the other; under 0 outside. */
function depthBetween(p: Vec2, q: Vec2): number {
  const [from, to] = [p[0] + p[1], q[0] + q[1]];
  if (from * to >= 0) return Number.NEGATIVE_INFINITY;
  const t = from / (from - to);
  return p[0] + (q[0] - p[0]) * t;
}

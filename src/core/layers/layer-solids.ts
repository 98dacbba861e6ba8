import { restHeight } from '../fit/rest.ts';
import { boxOf } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { type Result, succeed } from '../issue.ts';
import type { Body } from '../project/project.ts';
import type { Solid } from '../solid/solid.ts';
import { isPositive } from '../tolerance.ts';
import { offsetSolid } from './offset-solid.ts';
import { settleWalls, type WallSeat, withInsets } from './settle-walls.ts';
import { layerOffsets, type StackedLayer } from './stack.ts';

/**
 * The surface that the panels of each layer are cut to, from the inside out; in place of one that the roof has no room for, why.
 * `seat`: where the walls on the body begin, from `wallSeat`. Walls end from the shape on where they really do, then the layer's
 * surface is offset from it.
 */
export function layerSolids(
  shape: Solid,
  stack: readonly StackedLayer[],
  seat: WallSeat | null,
): readonly Result<Solid>[] {
  const head = -undersideOf(stack);
  return layerOffsets(stack).map((by, l) => {
    const { as, thickness } = stack[l] as StackedLayer;
    // Board is cut to its outside, anything folded to its middle.
    const own = as === 'board' ? 0 : thickness / 2;
    const ends = { head, foot: Math.max(0, by + own) };
    const settled = settleWalls(shape, ends, seat);
    const surface = settled.ok ? offsetSolid(settled.value, by, ends) : settled;
    return surface.ok
      ? succeed(withInsets(surface.value, { head: head + by, foot: own }, l > 0), surface.issues)
      : surface;
  });
}

/**
 * The underside of a roof: its shape is the outside of board and card; a cover that is innermost lies on what is there. Where a
 * valley comes down below the feet of walls, they are let down so far.
 */
export function insideOf(shape: Solid, stack: readonly StackedLayer[]): Result<Solid> {
  const under = undersideOf(stack);
  const first = offsetSolid(shape, under);
  const level = first.ok ? null : lowestFoot(shape);
  if (level === null) return first;
  for (const times of DEEPER) {
    const still = { head: 0, foot: 0 };
    const settled = settleWalls(shape, still, { level, drop: -times * under });
    const inside = settled.ok ? offsetSolid(settled.value, under) : settled;
    if (inside.ok) return inside;
  }
  return first;
}

/** How deep a valley's underside may lie below it, in thicknesses; each is tried in turn. */
const DEEPER = [2, 8, 32] as const;

const undersideOf = ([innermost]: readonly StackedLayer[]): number =>
  innermost && innermost.as !== 'cover' ? -innermost.thickness : 0;

/** Level at which the walls on the body begin, and how much lower the underside comes to rest; without a body as over its own plan. */
export function wallSeat(shape: Solid, inside: Solid, body: Body | null): WallSeat | null {
  const level = lowestFoot(shape);
  if (level === null) return null;
  const stand = body ?? planOf(shape);
  const [own, lower] = [shape, inside].map((solid) => stand.height - restHeight(solid, stand)) as [number, number];
  return { level: body ? own : level, drop: isPositive(own - lower) ? own - lower : 0 };
}

/** Level at which the walls on the body begin; null where there are none. */
export function lowestFoot({ vertices, faces, edges }: Solid): number | null {
  const levels = edges.flatMap(({ role, ends: [v], faces: [f = -1] }) =>
    role === 'foot' && faces[f]?.part === 'wall' ? [vertices[v]?.[2] ?? 0] : [],
  );
  return levels.length === 0 ? null : Math.min(...levels);
}

/** A body as wide and as deep as the roof. */
function planOf({ vertices }: Solid): Body {
  const { minX, minY, maxX, maxY } = boxOf(vertices);
  const outline: readonly Vec2[] = [
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
  ];
  return { outline, height: 0, rectangle: null };
}

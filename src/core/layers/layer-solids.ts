import { restHeight } from '../fit/rest.ts';
import type { Result } from '../issue.ts';
import { succeed } from '../issue.ts';
import type { Body } from '../project/project.ts';
import type { Solid } from '../solid/solid.ts';
import { offsetSolid } from './offset-solid.ts';
import { settleWalls, type WallEnds } from './settle-walls.ts';
import { layerOffsets, type StackedLayer } from './stack.ts';

/**
 * The surface that the panels of each layer are cut to, from the inside out; in place of one that the roof has no room for, why.
 * `seat`: where the walls on the body begin, from `wallSeat`.
 */
export function layerSolids(
  shape: Solid,
  stack: readonly StackedLayer[],
  seat: WallEnds['seat'],
): readonly Result<Solid>[] {
  const under = undersideOf(stack);
  return layerOffsets(stack).map((by, l) => {
    const surface = offsetSolid(shape, by);
    if (!surface.ok) return surface;
    const { as, thickness } = stack[l] as StackedLayer;
    // Board is cut to its outside, anything folded to its middle.
    const settled = settleWalls(surface.value, { head: by - under, foot: as === 'board' ? 0 : thickness / 2, seat });
    return settled.ok ? succeed(settled.value, [...surface.issues, ...settled.issues]) : settled;
  });
}

/** The underside of a roof: its shape is the outside of board and card; a cover that is innermost lies on what is there. */
export const insideOf = (shape: Solid, stack: readonly StackedLayer[]): Result<Solid> =>
  offsetSolid(shape, undersideOf(stack));

const undersideOf = ([innermost]: readonly StackedLayer[]): number =>
  innermost && innermost.as !== 'cover' ? -innermost.thickness : 0;

/** Level at which the shape comes to rest on a body, and how much lower its underside does. */
export function wallSeat(shape: Solid, inside: Solid, body: Body): NonNullable<WallEnds['seat']> {
  const [own, lower] = [shape, inside].map((solid) => body.height - restHeight(solid, body)) as [number, number];
  return { level: own, drop: Math.max(0, own - lower) };
}

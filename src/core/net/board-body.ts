import { at } from '../geometry/polygon.ts';
import type { Vec2, Vec3 } from '../geometry/vector.ts';
import { type CutSide, cutSides } from './cut-ring.ts';
import type { BoardCut, Panel } from './net.ts';

/** A flat part of a board's cut side; corners counter-clockwise seen from outside the board. */
export type BoardFacet = readonly [Vec3, Vec3, Vec3];

/**
 * The cut side of a panel of board, which closes it between its outside and its inside. Frame: the piece's, mm, z 0 on the outside
 * of the roof and under 0 into the board. Along a side that both surfaces have it is flat; where only one of them has the side left,
 * it narrows to a corner of the other.
 */
export function boardFacets({ polygon }: Pick<Panel, 'polygon'>, board: BoardCut): readonly BoardFacet[] {
  const outer = outerSides({ polygon }, board);
  const inner = sidesOf(
    polygon,
    board.edges.map((edge) => edge.inner),
  );
  const above = ({ to: [x, y] }: CutSide): Vec3 => [x, y, 0];
  const below = ({ to: [x, y] }: CutSide): Vec3 => [x, y, -board.thickness];
  const tops = new Map(outer.map((side) => [side.side, above(side)]));
  const bottoms = new Map(inner.map((side) => [side.side, below(side)]));
  const round = [...new Set([...tops.keys(), ...bottoms.keys()])].sort((a, b) => a - b);
  let top = above(outer.at(-1) as CutSide);
  let bottom = below(inner.at(-1) as CutSide);
  return round.flatMap((side) => {
    const [from, under] = [top, bottom];
    top = tops.get(side) ?? top;
    bottom = bottoms.get(side) ?? bottom;
    const low: readonly BoardFacet[] = bottom === under ? [] : [[under, bottom, top]];
    const high: readonly BoardFacet[] = top === from ? [] : [[under, top, from]];
    return [...low, ...high];
  });
}

/** The outside of a panel of board, stretch by stretch; `side` counts the edges of the face's loop. */
export const outerSides = ({ polygon }: Pick<Panel, 'polygon'>, board: BoardCut): readonly CutSide[] =>
  sidesOf(
    polygon,
    board.edges.map((edge) => edge.outer),
  );

/** The sides of a panel as it is cut out: of paper those of its polygon, of board those of its outline. */
export const sidesToCut = ({ polygon }: Pick<Panel, 'polygon'>, board: BoardCut | undefined): readonly CutSide[] =>
  board
    ? sidesOf(
        polygon,
        board.edges.map((edge) => Math.min(edge.outer, edge.inner)),
      )
    : polygon.map((from, side) => ({ side, from, to: at(polygon, side + 1) }));

function sidesOf(polygon: readonly Vec2[], inwards: readonly number[]): readonly CutSide[] {
  const sides = cutSides(polygon, inwards);
  if (!sides) throw new Error('a panel of board has an outside and an inside');
  return sides;
}

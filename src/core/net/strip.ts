import { at, boxOf, clipConvex } from '../geometry/polygon.ts';
import { sub2, type Vec2 } from '../geometry/vector.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { NOISE_MM } from '../tolerance.ts';
import type { Flap, NetPoint, Piece } from './net.ts';
import { fromSeam, type SeamFlap } from './seam-flap.ts';
import { turnAt } from './unfold.ts';

/** What a strip's half is glued under: the flap that the other face would carry. */
export type StripHalves = readonly [underFirst: SeamFlap, underSecond: SeamFlap];

/** A strip needs a straight seam: round a curve it would have to stretch. */
export const takesStrip = ({ faces, via }: Edge): boolean => faces.length === 2 && via === undefined;

/**
 * Both halves as long as each other, x along the edge from its beginning, the first half at y over 0; null where the two have
 * less than a usable flap in common.
 */
export function matchHalves(
  [first, second]: StripHalves,
  least: number,
): readonly [readonly Vec2[], readonly Vec2[]] | null {
  if (first.polygon.length === 0 || second.polygon.length === 0) return null;
  const { length } = first;
  const turned = (ring: readonly Vec2[]): Vec2[] => ring.map(([x, y]): Vec2 => [length - x, -y]);
  const [from, to] = [at(first.polygon, 0)[0], at(first.polygon, 1)[0]];
  const [end, start] = turned(second.polygon.slice(0, 2)).map((p) => p[0]) as [number, number];
  const [low, high] = [Math.max(from, start), Math.min(to, end)];
  const within = (ring: readonly Vec2[], a: number, b: number): readonly Vec2[] => {
    const left = clipConvex(ring, { normal: [1, 0], offset: a - NOISE_MM / 10 });
    const kept = fromSeam(clipConvex(left, { normal: [-1, 0], offset: -b - NOISE_MM / 10 }), least);
    // Both feet are one line to the last digit.
    return kept.length === 0 ? kept : [[a, 0], [b, 0], ...kept.slice(2)];
  };
  const above = within(first.polygon, low, high);
  const below = within(second.polygon, length - high, length - low);
  if (above.length === 0 || below.length === 0) return null;
  const [, , ...tips] = turned(below);
  return [above, [[high, 0], [low, 0], ...tips]];
}

/** The strip that joins a seam, laid flat as seen from the outside of the roof; its seam runs level. */
export function buildStrip(
  solid: Solid,
  edge: number,
  [above, below]: readonly [readonly Vec2[], readonly Vec2[]],
  name: Pick<Piece, 'id' | 'title'>,
): Piece {
  const { faces, length } = solid.edges[edge] as Edge;
  const [first, second] = faces as readonly [number, number];
  const outline = [...below.slice(1), ...above.slice(1)];
  const box = boxOf(outline);
  const shift = (p: NetPoint): NetPoint => sub2(p, [box.minX, box.minY]);
  const half = (polygon: readonly Vec2[], from: number, to: number): Flap => ({
    edge,
    from,
    to,
    panel: -1,
    polygon: polygon.map(shift),
    base: 1,
    ...turnAt(solid, edge),
  });
  return {
    ...name,
    outline: outline.map(shift),
    panels: [],
    flaps: [half(above, second, first), half(below, first, second)],
    hems: [],
    folds: [],
    glueLines: [],
    rulings: [],
    strip: { edge, line: [shift([0, 0]), shift([length, 0])] },
    width: box.maxX - box.minX,
    height: box.maxY - box.minY,
  };
}

import { boxOf } from '../../core/geometry/polygon.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { add2, distance2, dot2, left2, lerp2, scale2, sub2, unit2 } from '../../core/geometry/vector.ts';
import { sidesToCut } from '../../core/net/board-body.ts';
import type { Net } from '../../core/net/net.ts';
import { edgesOfFaces } from '../../core/solid/measure.ts';
import type { Edge, Solid } from '../../core/solid/solid.ts';

/** A dimension drawn on the table or on a panel: the line, its end ticks and where the figure goes. mm, table frame. */
export interface Measure {
  readonly length: number;
  readonly ends: readonly [Vec2, Vec2];
  /** Middle of the gap in the line that the figure fills. */
  readonly at: Vec2;
  /** On the paper (in ink) rather than beside it (in chalk). */
  readonly onPaper: boolean;
  /** Width of the paper where the figure goes, mm; missing beside it, where there is room enough. */
  readonly across?: number;
}

/** Straight, at the bottom of a panel. */
const isLevelEdge = (edge: Edge | undefined): boolean =>
  (edge?.role === 'eave' || edge?.role === 'foot') && edge.via === undefined;

/** Where on the slant its figure goes, as a share from the eave. */
const FIGURE = 0.36;

/** Width of a panel through a point, along a direction. */
const widthAt = (polygon: readonly Vec2[], through: Vec2, along: Vec2): number => {
  const across = left2(along);
  const crossings = polygon.flatMap((p, i) => {
    const q = polygon[(i + 1) % polygon.length] as Vec2;
    const [a, b] = [dot2(sub2(p, through), across), dot2(sub2(q, through), across)];
    return a < 0 === b < 0 ? [] : [dot2(sub2(lerp2(p, q, a / (a - b)), through), along)];
  });
  return crossings.length === 0 ? 0 : Math.max(...crossings) - Math.min(...crossings);
};

/**
 * Eave length and slant of every panel shape that differs. `spots`: where pieces lie; `room`: distance of a line from
 * the paper. The eave is measured outside the panel, the slant along its fall line inside it.
 */
export const measureNet = (net: Net, solid: Solid, spots: readonly Vec2[], room: number): readonly Measure[] => {
  const seen = new Set<string>();
  const measures: Measure[] = [];
  const edges = edgesOfFaces(solid);
  net.pieces.forEach((piece, index) => {
    const spot = spots[index] ?? [0, 0];
    for (const panel of piece.panels) {
      const sides = sidesToCut(panel, piece.board);
      const polygon = sides.map(({ from }) => from);
      const low = sides.find(({ side }) => isLevelEdge(solid.edges[edges[panel.face]?.[side] ?? -1]));
      if (low === undefined) continue;
      const { from: a, to: b } = low;
      const width = distance2(a, b);
      if (width === 0) continue;
      const along = unit2(sub2(b, a));
      // The polygon runs counter-clockwise: the panel lies to the left of its edges.
      const up = left2(along);
      const peak = polygon.reduce((best, p) => (dot2(sub2(p, a), up) > dot2(sub2(best, a), up) ? p : best), a);
      const slant = dot2(sub2(peak, a), up);
      const shape = `${Math.round(width * 100)}/${Math.round(slant * 100)}`;
      if (seen.has(shape)) continue;
      seen.add(shape);
      const out = scale2(up, -room);
      measures.push({
        length: width,
        ends: [add2(add2(a, out), spot), add2(add2(b, out), spot)],
        at: add2(add2(lerp2(a, b, 0.5), out), spot),
        onPaper: false,
      });
      const top = polygon.filter((p) => dot2(sub2(p, a), up) > slant - 1e-6);
      const middleTop = top.reduce<Vec2>((sum, p) => add2(sum, scale2(p, 1 / top.length)), [0, 0]);
      // A peak that hangs out over the eave's end has its fall line beside the panel: keep to the foot of the height.
      const foot = add2(a, scale2(along, dot2(sub2(middleTop, a), along)));
      measures.push({
        length: slant,
        ends: [add2(foot, spot), add2(middleTop, spot)],
        at: add2(lerp2(foot, middleTop, FIGURE), spot),
        onPaper: true,
        across: widthAt(polygon, lerp2(foot, middleTop, FIGURE), along),
      });
    }
  });
  return measures;
};

/** The dimensions of a body: along the ground in front and beside it, and up its right edge, as 3D lines. */
export const bodySizes = (
  outline: readonly Vec2[],
  rectangle: { readonly width: number; readonly depth: number } | null,
  isRound = false,
): readonly { readonly length: number; readonly ends: readonly [Vec2, Vec2] }[] => {
  const count = outline.length;
  if (count < 3) return [];
  if (isRound) {
    // The diameter stands before the wall, as a ruler would lie there.
    const { minX, maxX, minY } = boxOf(outline);
    return [
      {
        length: 2 * Math.hypot(...(outline[0] as Vec2)),
        ends: [
          [minX, minY],
          [maxX, minY],
        ],
      },
    ];
  }
  // Front edge: the one whose middle lies furthest south; beside it, the next edge going round (east).
  const southness = (i: number): number => (outline[i] as Vec2)[1] + (outline[(i + 1) % count] as Vec2)[1];
  const front = outline.reduce((best, _, i) => (southness(i) < southness(best) - 1e-9 ? i : best), 0);
  const edge = (i: number): readonly [Vec2, Vec2] => [outline[i % count] as Vec2, outline[(i + 1) % count] as Vec2];
  const edges = rectangle === null ? [edge(front)] : [edge(front), edge(front + 1)];
  return edges.map((ends) => ({ length: distance2(ends[0], ends[1]), ends }));
};

import { dot2, left2, length2, lerp2, scale2, sub2, add2, type Vec2 } from '../../core/geometry/vector.ts';
import type { Net, Piece } from '../../core/net/net.ts';
import { edgesOfFaces } from '../../core/solid/measure.ts';
import type { Solid } from '../../core/solid/solid.ts';

/** A measure on the drawing: its two ends in the piece's frame (mm, y up), and on which side the number stands. */
export interface Measure {
  readonly ends: readonly [Vec2, Vec2];
  readonly length: number;
  /** edge: along the edge, inside the panel · eave: along the edge, outside · fall: up the middle of the panel. */
  readonly kind: 'edge' | 'eave' | 'fall';
  /** Unit normal towards the side of the number. */
  readonly side: Vec2;
}

export interface MatchMark {
  readonly at: Vec2;
  /** Unit normal towards the inside of the panel. */
  readonly side: Vec2;
  readonly letter: string;
}

export interface PieceFigure {
  readonly piece: Piece;
  readonly measures: readonly Measure[];
  readonly marks: readonly MatchMark[];
  /** Titles of the faces at their middles, where a piece has several. */
  readonly names: readonly { readonly at: Vec2; readonly title: string }[];
  /** A flap whose width is written once. */
  readonly flap: { readonly at: Vec2; readonly width: number } | null;
}

const at = <T>(list: readonly T[], i: number): T => list[((i % list.length) + list.length) % list.length] as T;

const middle = (points: readonly Vec2[]): Vec2 =>
  scale2(
    points.reduce<Vec2>((sum, p) => add2(sum, p), [0, 0]),
    1 / points.length,
  );

const unit = (v: Vec2): Vec2 => scale2(v, 1 / Math.max(length2(v), Number.MIN_VALUE));

/** Where a seam's letter stands on its edge: near the lower end, where panels have most room. */
const LETTER_AT = 0.2;

const polygonEdges = (polygon: readonly Vec2[]): (readonly [Vec2, Vec2])[] => polygon.map((p, i) => [p, at(polygon, i + 1)]);

/** Inward normal of an edge of a counter-clockwise polygon. */
const inward = ([a, b]: readonly [Vec2, Vec2]): Vec2 => unit(left2(sub2(b, a)));

/** From the eave straight up the panel to its highest point (or the middle of its top edge). */
const fallLine = (polygon: readonly Vec2[], eave: readonly [Vec2, Vec2]): Measure | null => {
  const up = inward(eave);
  const heights = polygon.map((p) => dot2(sub2(p, eave[0]), up));
  const most = Math.max(...heights);
  const top = middle(polygon.filter((_, i) => most - (heights[i] as number) < most / 1000));
  const foot = sub2(top, scale2(up, most));
  return { ends: [foot, top], length: most, kind: 'fall', side: unit(left2(sub2(top, foot))) };
};

/** Two panels with equal signatures look the same to the eye; only the first is measured. */
const signature = (polygon: readonly Vec2[]): string => {
  const sides = polygonEdges(polygon).map((edge) => length2(sub2(edge[1], edge[0])).toFixed(2));
  const turns = sides.map((_, i) => [...sides.slice(i), ...sides.slice(0, i)].join(' '));
  return turns.sort()[0] ?? '';
};

const measurePanel = (
  solid: Solid,
  edges: readonly number[],
  polygon: readonly Vec2[],
  isFold: (edge: number) => boolean,
): Measure[] => {
  const measures = polygonEdges(polygon).flatMap((ends, i): Measure[] => {
    const edge = solid.edges[edges[i] ?? -1];
    if (edge === undefined) return [];
    const isEave = edge.role === 'eave' || edge.role === 'foot' || edge.role === 'rim';
    const isOutside = isEave && !isFold(edges[i] as number);
    const normal = inward(ends);
    return [{ ends, length: edge.length, kind: isOutside ? 'eave' : 'edge', side: isOutside ? scale2(normal, -1) : normal }];
  });
  const eave = measures.find((measure) => measure.kind === 'eave') ?? measures[0];
  const fall = eave === undefined ? null : fallLine(polygon, eave.ends);
  const repeats = fall !== null && measures.some((one) => Math.abs(one.length - fall.length) < fall.length / 1000);
  return fall === null || repeats ? measures : [...measures, fall];
};

/** What is written on each piece of a net: measures of every panel that is not like one before, letters, names. */
export const netFigures = (solid: Solid, net: Net): readonly PieceFigure[] => {
  const seen = new Set<string>();
  let isFlapMeasured = false;
  const edges = edgesOfFaces(solid);
  return net.pieces.map((piece, index) => {
    const folds = new Set(piece.folds.map((fold) => fold.edge));
    const measures = piece.panels.flatMap((panel) => {
      const key = signature(panel.polygon);
      if (seen.has(key)) return [];
      seen.add(key);
      return measurePanel(solid, edges[panel.face] ?? [], panel.polygon, (edge) => folds.has(edge));
    });
    const marks = net.seams.flatMap((seam) =>
      seam.sides.filter((side) => side.piece === index).map((side): MatchMark => {
        const [a, b] = side.ends;
        const [low, high] = a[1] <= b[1] ? [a, b] : [b, a];
        const normal = unit(left2(sub2(b, a)));
        const inside = middle(piece.panels[side.panel]?.polygon ?? [a, b]);
        const isLeft = dot2(sub2(inside, a), normal) > 0;
        return { at: lerp2(low, high, LETTER_AT), side: isLeft ? normal : scale2(normal, -1), letter: seam.mark };
      }),
    );
    const names =
      piece.panels.length > 1
        ? piece.panels.map((panel) => ({ at: middle(panel.polygon), title: solid.faces[panel.face]?.title ?? '' }))
        : [];
    const first = piece.flaps[0];
    const flap = isFlapMeasured || first === undefined ? null : flapWidth(first.polygon);
    isFlapMeasured ||= flap !== null;
    return { piece, measures, marks, names, flap };
  });
};

/** The first two points of a flap lie on its seam. */
const flapWidth = (polygon: readonly Vec2[]): { readonly at: Vec2; readonly width: number } => {
  const [a, b] = [at(polygon, 0), at(polygon, 1)];
  const normal = unit(left2(sub2(b, a)));
  return { at: middle(polygon), width: Math.max(...polygon.map((p) => Math.abs(dot2(sub2(p, a), normal)))) };
};

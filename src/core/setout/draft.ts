import type { Fan } from '../fit/fan.ts';
import type { RoundedPiece } from '../fit/round-pieces.ts';
import { at, distanceToSegment, isInside } from '../geometry/polygon.ts';
import { add2, distance2, left2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import type { MadeLayer } from '../make-roof.ts';
import type { BoardEdgeCut } from '../net/board-edges.ts';
import { cutEnds } from '../net/cut-ends.ts';
import type { Flap, FoldKind, NetPoint, Panel, Piece } from '../net/net.ts';
import { edgesOfFaces } from '../solid/measure.ts';
import { isPositive, SNAP_MM } from '../tolerance.ts';
import { type FlapMarks, flapMarks, seamFrame } from './flap-marks.ts';
import { stations } from './plan-curve.ts';

type Turned = Pick<Flap, 'polygon' | 'base' | 'kind'>;

/** A flap or hem along a straight edge. */
export interface DraftFlap {
  readonly kind: FoldKind;
  /** By true measures, mm from the origin. */
  readonly polygon: readonly Vec2[];
  /** Null where the ruler is too coarse to draw it. */
  readonly marks: FlapMarks | null;
}

/** One edge of a panel between two corners. Points by true measures, mm from the origin of the rounded piece. */
export interface DraftEdge {
  /** Both ends, and between them the samples of a curve. */
  readonly path: readonly Vec2[];
  /** Where the ends are marked, mm from the origin. */
  readonly ends: readonly [Vec2, Vec2];
  /** A fold to be scored; `flat` goes straight on and has no line; else it is cut. */
  readonly fold: FoldKind | 'flat' | null;
  readonly flaps: readonly DraftFlap[];
  /** Along a curve: how wide the band of teeth is, how wide a tooth, and a notch between two at their tips, mm. */
  readonly teeth: {
    readonly kind: FoldKind;
    readonly width: number;
    readonly apart: number;
    readonly notch: number;
  } | null;
  /** How the blade is tilted along an edge of board. */
  readonly cut: BoardEdgeCut | null;
}

export interface DraftPanel {
  readonly edges: readonly DraftEdge[];
  /** Where the paper is rolled to a cone: the point its rulings run from, mm from the origin. */
  readonly apex: Vec2 | null;
}

/** A piece made ready to be set out: its corners by true measures and on their marks. Frame: of the piece, from its origin. */
export interface Draft {
  readonly piece: Piece;
  readonly rounded: RoundedPiece;
  readonly step: number;
  readonly panels: readonly DraftPanel[];
  /** Slopes round one peak: its apex and the corners round it, on their marks, mm from the origin. */
  readonly fan: Fan | null;
  readonly glue: readonly (readonly [Vec2, Vec2])[];
  /** Some of its glue lines are round. */
  readonly hasRoundGlue: boolean;
  /** What the piece covers as drawn: its panels and flaps, by corners on their marks. */
  readonly rings: readonly (readonly Vec2[])[];
}

const drafts = new WeakMap<RoundedPiece, Draft>();

/** The draft of a piece on its marks; the same for every copy and on every sheet. */
export function draftPiece(
  layer: Pick<MadeLayer, 'solid' | 'net'>,
  index: number,
  rounded: RoundedPiece,
  step: number,
): Draft {
  const draft = drafts.get(rounded) ?? newDraft(layer, index, rounded, step);
  drafts.set(rounded, draft);
  return draft;
}

function newDraft(
  { solid, net }: Pick<MadeLayer, 'solid' | 'net'>,
  index: number,
  rounded: RoundedPiece,
  step: number,
): Draft {
  const piece = net.pieces[index] as Piece;
  const rel = (p: NetPoint): Vec2 => sub2(p, rounded.origin);
  const marked = (p: NetPoint): Vec2 => scale2(rounded.marks(p), step);
  const make = { rel, marked, step };
  const panels = piece.strip
    ? [stripPanel(piece, make)]
    : piece.board
      ? [boardPanel(piece, make)]
      : piece.panels.map((panel, p) => flatPanel({ solid, piece }, panel, p, make));
  const byEdge = new Map<number, (readonly [Vec2, Vec2])[]>();
  for (const { edge, ends } of piece.glueLines) {
    byEdge.set(edge, [...(byEdge.get(edge) ?? []), [marked(ends[0]), marked(ends[1])]]);
  }
  const lines = [...byEdge.values()];
  return {
    piece,
    rounded,
    step,
    panels,
    fan: rounded.fan && {
      apex: marked(rounded.fan.apex),
      rim: rounded.fan.rim.map(marked),
      hung: rounded.fan.hung.map(({ foot, corners }) => ({ foot, corners: corners.map(marked) })),
    },
    glue: lines.filter((own) => own.length === 1).flat(),
    hasRoundGlue: lines.some((own) => own.length > 1),
    rings: ringsOf(panels, step),
  };
}

interface Making {
  readonly rel: (p: NetPoint) => Vec2;
  readonly marked: (p: NetPoint) => Vec2;
  readonly step: number;
}

function flatPanel(
  { solid, piece }: { readonly solid: MadeLayer['solid']; readonly piece: Piece },
  { face, polygon }: Panel,
  index: number,
  { rel, marked, step }: Making,
): DraftPanel {
  const { loop, roll } = solid.faces[face] as MadeLayer['solid']['faces'][number];
  const edges = edgesOfFaces(solid)[face] as readonly number[];
  const sampled = new Set(edges.flatMap((e) => solid.edges[e]?.via ?? []));
  const corners = loop.flatMap((v, i) => (sampled.has(v) ? [] : [i]));
  const starts = corners.length === 0 ? [0] : corners;
  return {
    edges: starts.map((start, k): DraftEdge => {
      const end = k + 1 < starts.length ? (starts[k + 1] as number) : (starts[0] as number) + loop.length;
      const path = Array.from({ length: end - start + 1 }, (_, i) => at(polygon, start + i));
      const edge = edges[start] as number;
      const own = (turned: readonly (Turned & { edge: number; panel: number })[]): readonly Turned[] =>
        turned.filter((one) => one.edge === edge && one.panel === index);
      const turned = [...own(piece.flaps), ...own(piece.hems)];
      const fold = piece.folds.find((one) => one.edge === edge && one.panels.includes(index));
      const ends = [path[0] as Vec2, path.at(-1) as Vec2] as const;
      const isCurved = path.length > 2;
      return {
        path: path.map(rel),
        ends: [marked(ends[0]), marked(ends[1])],
        fold: fold ? (fold.angle > 0 ? fold.kind : 'flat') : null,
        flaps: isCurved
          ? []
          : turned.map((one) => {
              const marks = flapMarks(one, ends, step);
              const ring = one.polygon.map(rel);
              const isAstray = marks && swings(flapRing(marks, [marked(ends[0]), marked(ends[1])], step), ring, step);
              return { kind: one.kind, polygon: ring, marks: isAstray ? null : marks };
            }),
        teeth: isCurved ? teethOf(turned, step) : null,
        cut: null,
      };
    }),
    apex: roll?.surface.form === 'cone' ? apexOf(roll.surface.apex, roll.flat, polygon, rel) : null,
  };
}

/** So many marks outside its true place no flap is drawn: along an edge of a mark or two it may point anywhere. */
const MOST_ASTRAY = 2;

const swings = (drawn: readonly Vec2[], meant: readonly Vec2[], step: number): boolean =>
  drawn.some(
    (p) =>
      !isInside(p, meant) &&
      Math.min(...meant.map((a, i) => distanceToSegment(p, a, at(meant, i + 1)))) > MOST_ASTRAY * step,
  );

/** The point of a rolled panel from which its rulings run, where the panel lies on its piece. */
function apexOf(apex: number, flat: readonly Vec2[], polygon: readonly Vec2[], rel: Making['rel']): Vec2 {
  const far = flat.reduce((best, p, i) => {
    const reach = (q: Vec2): number => Math.hypot(q[0] - (flat[0] as Vec2)[0], q[1] - (flat[0] as Vec2)[1]);
    return reach(p) > reach(flat[best] as Vec2) ? i : best;
  }, 0);
  const [a, b] = [flat[0] as Vec2, flat[far] as Vec2];
  const way = unit2(sub2(b, a));
  const [s, d] = [(0 - a[0]) * way[0] + (apex - a[1]) * way[1], (0 - a[0]) * -way[1] + (apex - a[1]) * way[0]];
  const [p, q] = [polygon[0] as Vec2, polygon[far] as Vec2];
  const along = unit2(sub2(q, p));
  return rel(add2(p, add2(scale2(along, s), scale2(left2(along), d))));
}

/** Teeth stand in a band as wide as the deepest of them, on a mark. */
function teethOf(turned: readonly Turned[], step: number): DraftEdge['teeth'] {
  const [first] = turned;
  if (!first) return null;
  const depths = turned.map(({ polygon, base }) => {
    const foot = polygon.slice(0, base + 1);
    return Math.max(
      ...polygon.slice(base + 1).map((p) => Math.min(...foot.map((q) => Math.hypot(p[0] - q[0], p[1] - q[1])))),
      0,
    );
  });
  const feet = turned.map(({ polygon, base }) => {
    const [a, b] = [polygon[0] as Vec2, polygon[base] as Vec2];
    return Math.hypot(b[0] - a[0], b[1] - a[1]);
  });
  const tips = turned.map(({ polygon, base }) => distance2(at(polygon, base + 1), at(polygon, -1)));
  const rounded = (mm: number): number => Math.max(1, Math.floor(mm / step + SNAP_MM)) * step;
  const apart = rounded(Math.max(...feet));
  return {
    kind: first.kind,
    width: rounded(Math.max(...depths)),
    apart,
    notch: Math.min(rounded(Math.max(...feet.map((foot, i) => foot - (tips[i] as number)))), apart),
  };
}

function stripPanel({ flaps, strip }: Piece, { rel, marked, step }: Making): DraftPanel {
  const [half, other] = flaps;
  if (!half || !strip) return { edges: [], apex: null };
  const [b, a] = [half.polygon[0] as Vec2, half.polygon[half.base] as Vec2];
  const line = (from: Vec2, to: Vec2, flap: Flap | undefined): DraftEdge => ({
    path: [rel(from), rel(to)],
    ends: [marked(from), marked(to)],
    fold: flap?.kind ?? 'flat',
    flaps: flap ? [{ kind: flap.kind, polygon: flap.polygon.map(rel), marks: flapMarks(flap, [from, to], step) }] : [],
    teeth: null,
    cut: null,
  });
  return { edges: [line(a, b, half), line(b, a, other)], apex: null };
}

function boardPanel(piece: Piece, { rel, marked }: Making): DraftPanel {
  const { outline, board } = piece;
  const middle = (p: Vec2, q: Vec2): Vec2 => scale2(add2(p, q), 0.5);
  const cuts = (board?.edges ?? []).map((cut, i) => ({ cut, at: middle(...cutEnds(piece, i)) }));
  return {
    edges: outline.map((p, i): DraftEdge => {
      const q = at(outline, i + 1);
      const here = middle(p, q);
      const away = (point: Vec2): number => Math.hypot(point[0] - here[0], point[1] - here[1]);
      const nearest = cuts.reduce<(typeof cuts)[number] | null>(
        (best, one) => (best === null || away(one.at) < away(best.at) ? one : best),
        null,
      );
      return {
        path: [rel(p), rel(q)],
        ends: [marked(p), marked(q)],
        fold: null,
        flaps: [],
        teeth: null,
        cut: nearest?.cut ?? null,
      };
    }),
    apex: null,
  };
}

/** Panels and their flaps by corners on their marks; curves by their true samples. */
export const ringsOf = (panels: readonly DraftPanel[], step: number): readonly (readonly Vec2[])[] =>
  panels.flatMap((panel) => ringsOfPanel(panel, step));

function ringsOfPanel({ edges }: DraftPanel, step: number): readonly (readonly Vec2[])[] {
  // Curves by no more of their samples than tell a quarter of a mark.
  const panel = edges.flatMap(({ path, ends }) => [
    ends[0],
    ...stations(path, step / 4)
      .slice(1, -1)
      .map((i) => path[i] as Vec2),
  ]);
  const flaps = edges.flatMap(({ ends, flaps: own }) =>
    isPositive(distance2(...ends)) ? own.flatMap(({ marks }) => (marks ? [flapRing(marks, ends, step)] : [])) : [],
  );
  return panel.length > 2 ? [panel, ...flaps] : flaps;
}

/** Corners of a flap beside the drawn line of its seam, mm. */
export function flapRing({ marks, zero }: FlapMarks, ends: readonly [Vec2, Vec2], step: number): readonly Vec2[] {
  const { from, way, out } = seamFrame(ends, zero);
  return marks.map(([s, d]) => add2(from, add2(scale2(way, s * step), scale2(out, d * step))));
}

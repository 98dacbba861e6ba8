import { areApart, at, type Box, boxOf, depthIn, isInside, leftOf, meanPoint } from '../geometry/polygon.ts';
import { add2, left2, scale2, sub2, unit2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { FlapSpec } from '../project/project.ts';
import { pointInFace } from '../solid/face-frame.ts';
import { isFootOnFace } from '../solid/measure.ts';
import { type Edge, edgePath, type Solid } from '../solid/solid.ts';
import { HAIR_MM, NOISE_MM } from '../tolerance.ts';
import { clearOfEdges } from './clear-of-edges.ts';
import type { GlueSide } from './part-flaps.ts';
import { teethAlong } from './teeth.ts';
import type { FlatSolid } from './unfold.ts';

/** A flap, or one tooth, under its mate before anything else lies there. */
export interface FlapBeginning {
  readonly side: GlueSide;
  /** The strip along the seam, in the frame of the panel it is glued to. */
  readonly strip: readonly Vec2[];
  /** What is left of it once it is clear of the panel's other edges. */
  readonly inside: readonly Vec2[];
}

/** Gives the beginnings of the flap that a face carries at a seam; each is worked out once. */
export type FlapBeginnings = (seam: number, from: number) => readonly FlapBeginning[];

export function flapBeginnings(flatSolid: FlatSolid, spec: FlapSpec): FlapBeginnings {
  const known = new Map<number, Map<number, readonly FlapBeginning[]>>();
  const shapeOf = panelShapes(flatSolid);
  return (seam, from) => {
    const atSeam = known.get(seam) ?? new Map<number, readonly FlapBeginning[]>();
    known.set(seam, atSeam);
    const before = atSeam.get(from);
    if (before) return before;
    const found = glueSides(flatSolid, seam, from, spec).map((side): FlapBeginning => {
      const { panel, border, begun } = shapeOf(side.to);
      const [position = -1, ...others] = side.onSeam;
      // A straight flap along an edge of a panel is that of any panel of this shape.
      const isUsual = !side.tooth && !side.isAbutment && position >= 0 && others.length === 0;
      const alike = isUsual ? begun.get(position) : undefined;
      if (alike) return { side, ...alike };
      const strip = stripAlong(side, spec);
      const clear = clearOfBorder(strip, side, border, spec.clearance);
      // Clear of the border all of it lies on one side: a wall let down past a narrow overhang ends beside its slope.
      const isBeside = side.isAbutment && clear.length > 0 && !isInside(meanPoint(clear), panel);
      const beginning = { strip, inside: isBeside ? [] : clear };
      if (isUsual) begun.set(position, beginning);
      return { side, ...beginning };
    });
    atSeam.set(from, found);
    return found;
  };
}

/** What panels that are alike in their own frames have in common. */
interface PanelShape {
  readonly panel: readonly Vec2[];
  readonly border: Border;
  /** By the position of an edge what the flap along it begins as. */
  readonly begun: Map<number, Pick<FlapBeginning, 'strip' | 'inside'>>;
}

function panelShapes({ flat }: FlatSolid): (face: number) => PanelShape {
  const byFace: PanelShape[] = [];
  const byCorners = new Map<string, PanelShape>();
  return (face) => {
    const known = byFace[face];
    if (known) return known;
    const panel = flat[face] as readonly Vec2[];
    const corners = panel.map(([x, y]) => `${Math.round(x / HAIR_MM)} ${Math.round(y / HAIR_MM)}`).join();
    const shape = byCorners.get(corners) ?? { panel, border: borderOf(panel), begun: new Map() };
    byCorners.set(corners, shape);
    byFace[face] = shape;
    return shape;
  };
}

/** The strip along the seam, in the frame of the panel it is glued to. */
function stripAlong({ a, b, isAbutment, tooth }: GlueSide, { width, clearance }: FlapSpec): readonly Vec2[] {
  const along = unit2(sub2(b, a));
  if (tooth) {
    const depth = Math.min(width, tooth.reach);
    const [up, lean] = [scale2(left2(along), depth), scale2(along, depth * Math.tan(tooth.lean))];
    return [a, b, sub2(add2(b, up), lean), add2(add2(a, up), lean)];
  }
  const up = scale2(left2(along), width);
  // A wall's flap must not touch the body's top edge below it or the ridge above it.
  const end = scale2(along, isAbutment ? clearance : 0);
  const [from, to] = [add2(a, end), sub2(b, end)];
  return [from, to, add2(to, up), add2(from, up)];
}

/** The edges of a panel, each in its box. */
type Border = readonly { readonly edge: readonly [Vec2, Vec2]; readonly box: Box }[];

const borderOf = (panel: readonly Vec2[]): Border =>
  panel.map((p, i) => {
    const edge = [p, at(panel, i + 1)] as const;
    return { edge, box: boxOf(edge) };
  });

/** What is left of a ring beside a seam once it is clear of every other edge of the panel. */
function clearOfBorder(start: readonly Vec2[], side: GlueSide, border: Border, clearance: number): readonly Vec2[] {
  const { a, b, onSeam } = side;
  const seam = leftOf(a, b);
  const around = boxOf(start);
  const edges: (readonly [Vec2, Vec2])[] = [];
  for (const [i, { edge, box }] of border.entries()) {
    if (areApart(box, around, clearance) || onSeam.has(i)) continue;
    const isOnSeam = Math.abs(depthIn(seam, edge[0])) <= NOISE_MM && Math.abs(depthIn(seam, edge[1])) <= NOISE_MM;
    if (!isOnSeam) edges.push(edge);
  }
  return clearOfEdges(start, side, edges, clearance);
}

/** A straight seam as it lies under the panel that its flap is glued to; of a curved one the base of each tooth. */
function glueSides(flatSolid: FlatSolid, seam: number, from: number, spec: FlapSpec): readonly GlueSide[] {
  const { solid, edgesOf } = flatSolid;
  const edge = solid.edges[seam] as Solid['edges'][number];
  const to = edge.faces.find((f) => f !== from) as number;
  const path = edgePath(edge).map((v) => pointInFace(solid, to, solid.vertices[v] as Vec3));
  // The edge runs in the direction of its first face's loop, with that face to the left.
  const isTurnedOver = edge.faces[0] !== to && isFootOnFace(solid, seam);
  const isAlong = (edge.faces[0] === to) !== isTurnedOver;
  const onSeam = new Set(
    (edgesOf[to] ?? []).flatMap((e, i) => (e === seam || runsAlong(solid.edges[e], edge) ? [i] : [])),
  );
  const side = (first: number, last: number): GlueSide => ({
    seam,
    from,
    to,
    a: at(path, isAlong ? first : last),
    b: at(path, isAlong ? last : first),
    isAbutment: edge.role === 'abutment',
    isTurnedOver,
    // The carrying panel's loop runs along the edge the other way than the mate's, or at an abutment as the edge does.
    start: edge.faces[0] === from ? first : path.length - 1 - last,
    edges: last - first,
    tooth: null,
    onSeam,
  });
  if (!edge.via) return [side(0, 1)];
  return teethAlong(solid, seam, { carrier: from, mate: to }, spec).map((tooth) => ({
    ...side(tooth.from, tooth.to),
    tooth,
  }));
}

/** Whether an edge is another between the same points: a plate meets the slopes along their eaves. */
const runsAlong = (other: Edge | undefined, { ends: [a, b], via }: Edge): boolean =>
  other !== undefined &&
  other.via?.length === via?.length &&
  ((other.ends[0] === a && other.ends[1] === b) || (other.ends[0] === b && other.ends[1] === a));

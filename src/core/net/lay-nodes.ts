import { type BoxGrid, boxGrid } from '../geometry/box-grid.ts';
import { areApart, type Box, boxOf, convexDepth } from '../geometry/polygon.ts';
import { apply2, compose2, type Rigid2, rest2 } from '../geometry/rigid2.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { NOISE_MM } from '../tolerance.ts';
import type { CutGraph, CutLink, CutNode } from './cut-graph.ts';

type Parts = readonly { readonly ring: readonly Vec2[]; readonly box: Box }[];

/** A node where it lies flat. */
interface LaidNode {
  readonly node: number;
  readonly motion: Rigid2;
  readonly box: Box;
  /** Convex parts where they lie; of more than one panel, or one that is not convex, made when first asked for. */
  parts: Parts | null;
}

export function laidNode({ nodes }: CutGraph, node: number, motion: Rigid2): LaidNode {
  const { isConvex, corners } = nodes[node] as CutNode;
  const whole = isConvex ? movedPart(corners, motion) : null;
  return { node, motion, box: whole?.box ?? movedBox(corners, motion), parts: whole && [whole] };
}

function partsOf({ nodes }: CutGraph, one: LaidNode): Parts {
  if (one.parts) return one.parts;
  const moved: Parts[number][] = [];
  for (const { parts } of (nodes[one.node] as CutNode).rings)
    for (const { ring } of parts) moved.push(movedPart(ring, one.motion));
  one.parts = moved;
  return moved;
}

/** Whether two nodes cover each other where they lie. `areJoined`: by a fold between them. */
export function doCover(graph: CutGraph, one: LaidNode, other: LaidNode, areJoined: boolean): boolean {
  // Two convex panels on either side of their fold cannot meet.
  if (areJoined && graph.nodes[one.node]?.isConvex && graph.nodes[other.node]?.isConvex) return false;
  if (areApart(one.box, other.box)) return false;
  const own = partsOf(graph, one);
  return partsOf(graph, other).some(
    (q) =>
      !areApart(q.box, one.box) &&
      own.some((p) => !areApart(p.box, q.box) && convexDepth(p.ring, q.ring) > NOISE_MM / 2),
  );
}

/** One piece as it grows: nodes laid flat, none of them covering another. */
export interface GrowingPiece {
  readonly nodes: readonly number[];
  /**
   * Lays a node; false, and nothing is changed, where it would cover another or the piece would not fit any more. `by`: the link
   * that joins it, to the node `from`; null for the first.
   */
  add(node: number, motion: Rigid2, joint: { readonly by: CutLink; readonly from: number } | null): boolean;
  readonly has: (node: number) => boolean;
  readonly motionOf: (node: number) => Rigid2;
  readonly box: () => Box;
}

/** `isClear`: none of the nodes cover each other, as is known. */
export function growingPiece(graph: CutGraph, fits?: CutRules['fits'], isClear = false): GrowingPiece {
  const nodes: number[] = [];
  const laid: LaidNode[] = [];
  const placeOf: Rigid2[] = [];
  const grid: BoxGrid = boxGrid();
  let around = boxOf([]);
  /** With the flaps that may be there. */
  let reached = around;
  return {
    nodes,
    add: (node, motion, joint) => {
      const own = graph.nodes[node] as CutNode;
      const one = isClear ? null : laidNode(graph, node, motion);
      const box = one?.box ?? movedBox(own.corners, motion);
      let reach = reached;
      if (fits) {
        const flaps = own.reach.filter(({ edge }) => edge !== joint?.by.edge).flatMap(({ corners }) => corners);
        reach = unite(unite(reached, box), movedBox(flaps, motion));
        if (joint && !fits(reach.maxX - reach.minX, reach.maxY - reach.minY)) return false;
      }
      if (one) {
        const isCovered = (index: number): boolean => {
          const other = laid[index] as LaidNode;
          return doCover(graph, one, other, other.node === joint?.from);
        };
        if (grid.meets(box, 0, isCovered)) return false;
        laid.push(one);
        grid.add(box);
      }
      nodes.push(node);
      placeOf[node] = motion;
      around = unite(around, box);
      reached = reach;
      return true;
    },
    has: (node) => placeOf[node] !== undefined,
    motionOf: (node) => placeOf[node] as Rigid2,
    box: () => around,
  };
}

function movedPart(ring: readonly Vec2[], motion: Rigid2): Parts[number] {
  const moved: Vec2[] = [];
  for (const p of ring) moved.push(apply2(motion, p));
  return { ring: moved, box: boxOf(moved) };
}

/** The box of points that are moved. */
function movedBox(points: readonly Vec2[], { cos, sin, move }: Rigid2): Box {
  let [minX, minY, maxX, maxY] = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ];
  for (const [px, py] of points) {
    const x = cos * px - sin * py + move[0];
    const y = sin * px + cos * py + move[1];
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
}

export const unite = (a: Box, b: Box): Box => ({
  minX: Math.min(a.minX, b.minX),
  minY: Math.min(a.minY, b.minY),
  maxX: Math.max(a.maxX, b.maxX),
  maxY: Math.max(a.maxY, b.maxY),
});

/** The node beyond a link, and the motion that lays it against the node on this side where that lies by `motion`. */
export function across({ nodes: [a, b], motions }: CutLink, node: number, motion: Rigid2): [number, Rigid2] {
  return node === a ? [b, compose2(motion, motions[0])] : [a, compose2(motion, motions[1])];
}

/** What a net has to keep to. */
export interface CutRules {
  /** A fold shorter than this between two parts both larger than its square is a neck, mm. */
  readonly neck: number;
  /** Whether a piece of this width and height can be cut; missing: any can. */
  readonly fits?: (width: number, height: number) => boolean;
}

/** How good a net is, the first figure before the next: fewer is better. */
export type CutScore = readonly [pieces: number, necks: number, seam: number, box: number];

/** A forest of links laid flat. */
export interface Laying {
  readonly score: CutScore;
  /** For each node its piece, the node it hangs from and by which link (-1: it is the first), and how far down. */
  readonly pieceOf: Int32Array;
  readonly parent: Int32Array;
  readonly by: Int32Array;
  readonly depth: Int32Array;
  /** Where each node lies on its piece. */
  readonly motions: readonly Rigid2[];
}

/** A net as its joined links. */
export interface CutForest {
  readonly joined: Uint8Array;
  readonly laying: Laying;
}

/** Boxes are compared in millionths of the area of the panels. */
const BOX_PARTS = 1_000_000;

/**
 * Lays every piece of a forest, given as the joined links, from its first node. Null where a panel would cover another, a
 * piece does not fit, or the links close a ring. `isClear`: no panel covers another, as is known.
 */
export function layForest(graph: CutGraph, joined: Uint8Array, rules: CutRules, isClear = false): Laying | null {
  const count = graph.nodes.length;
  const pieceOf = new Int32Array(count).fill(-1);
  const parent = new Int32Array(count).fill(-1);
  const by = new Int32Array(count).fill(-1);
  const depth = new Int32Array(count);
  const motions: Rigid2[] = new Array(count);
  let [pieces, necks, boxes, folds] = [0, 0, 0, 0];
  for (let first = 0; first < count; first++) {
    if (pieceOf[first] !== -1) continue;
    const piece = growingPiece(graph, undefined, isClear);
    piece.add(first, rest2, null);
    pieceOf[first] = pieces;
    motions[first] = rest2;
    for (let next = 0; next < piece.nodes.length; next++) {
      const node = piece.nodes[next] as number;
      const motion = motions[node] as Rigid2;
      for (const l of graph.linksAt[node] ?? []) {
        if (!joined[l] || by[node] === l) continue;
        const link = graph.links[l] as CutLink;
        const [child, place] = across(link, node, motion);
        if (pieceOf[child] !== -1 || !piece.add(child, place, { by: link, from: node })) return null;
        pieceOf[child] = pieces;
        motions[child] = place;
        parent[child] = node;
        by[child] = l;
        depth[child] = (depth[node] as number) + 1;
        folds++;
      }
    }
    if (piece.nodes.length > 1 && rules.fits && !fitsLaid(graph, piece, joined, rules.fits)) return null;
    necks += countNecks(graph, piece.nodes, by, parent, rules.neck);
    const { minX, minY, maxX, maxY } = piece.box();
    boxes += (maxX - minX) * (maxY - minY);
    pieces++;
  }
  if (folds + pieces !== count) return null;
  const area = graph.nodes.reduce((sum, node) => sum + node.area, 0);
  const seam = graph.links.reduce((sum, { weight }, l) => (joined[l] ? sum : sum + weight), 0);
  return { score: [pieces, necks, seam, Math.round((boxes / area) * BOX_PARTS)], pieceOf, parent, by, depth, motions };
}

/** Whether a piece fits with the flaps that its seams may carry. */
function fitsLaid(
  graph: CutGraph,
  piece: GrowingPiece,
  joined: Uint8Array,
  fits: (width: number, height: number) => boolean,
): boolean {
  const folded = new Set(
    piece.nodes.flatMap((n) => (graph.linksAt[n] ?? []).filter((l) => joined[l]).map((l) => graph.links[l]?.edge)),
  );
  let box = piece.box();
  for (const n of piece.nodes) {
    const { reach } = graph.nodes[n] as CutNode;
    const corners = reach.flatMap((flap) => (folded.has(flap.edge) ? [] : flap.corners));
    if (corners.length > 0) box = unite(box, movedBox(corners, piece.motionOf(n)));
  }
  return fits(box.maxX - box.minX, box.maxY - box.minY);
}

/** Folds shorter than the neck with more than its square of paper on either side. Parents come before their children. */
function countNecks(
  { nodes, links }: CutGraph,
  piece: readonly number[],
  by: Int32Array,
  parent: Int32Array,
  neck: number,
): number {
  if (!piece.some((n) => (by[n] as number) >= 0 && (links[by[n] as number] as CutLink).length < neck)) return 0;
  const hanging = Float64Array.from(nodes, ({ area }) => area);
  for (let i = piece.length - 1; i >= 0; i--) {
    const n = piece[i] as number;
    const up = parent[n] as number;
    if (up >= 0) hanging[up] = (hanging[up] as number) + (hanging[n] as number);
  }
  const whole = hanging[piece[0] as number] as number;
  return piece.filter((n) => {
    const l = by[n] as number;
    if (l < 0 || (links[l] as CutLink).length >= neck) return false;
    const part = hanging[n] as number;
    return Math.min(part, whole - part) > neck * neck;
  }).length;
}

export function isBetter(a: CutScore, b: CutScore): boolean {
  for (const [i, figure] of a.entries()) if (figure !== b[i]) return figure < (b[i] as number);
  return false;
}

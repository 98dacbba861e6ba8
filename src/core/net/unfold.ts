import { type BoxedRing, boxedRing, ringDepth } from '../geometry/convex-parts.ts';
import { at } from '../geometry/polygon.ts';
import { alignSegments, apply2, type Rigid2, rest2 } from '../geometry/rigid2.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { flattenFace } from '../solid/face-frame.ts';
import { edgesOfFaces } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { NOISE_MM, NOISE_RAD } from '../tolerance.ts';
import type { Fold, FoldKind, Panel } from './net.ts';

/** A solid with what unfolding asks of it again and again. */
export interface FlatSolid {
  readonly solid: Solid;
  /** For each face its corners in its own frame (`flattenFace`). */
  readonly flat: readonly (readonly Vec2[])[];
  /** For each face the edges of its loop (`edgesOfFaces`). */
  readonly edgesOf: readonly (readonly number[])[];
  /** For each face its neighbours, in the order of its loop. Nothing is joined at an abutment or round a curve. */
  readonly links: readonly (readonly Link[])[];
}

interface Link {
  readonly to: number;
  readonly edge: number;
}

export function flattenSolid(solid: Solid): FlatSolid {
  const edgesOf = edgesOfFaces(solid);
  return {
    solid,
    edgesOf,
    flat: solid.faces.map((_, f) => flattenFace(solid, f)),
    links: edgesOf.map((edges, f) =>
      edges.flatMap((edge) => {
        const { faces, role, via } = solid.edges[edge] as Solid['edges'][number];
        const to = faces.find((other) => other !== f);
        return to === undefined || role === 'abutment' || via ? [] : [{ to, edge }];
      }),
    ),
  };
}

/** Panels of one piece laid flat and the folds between them, before flaps. The first panel's fall line runs down the page. */
export interface Unfolded {
  readonly panels: readonly Panel[];
  readonly folds: readonly Fold[];
}

/** How many starts are tried before the one with the fewest pieces is taken. */
const MOST_STARTS = 12;

/**
 * Lays connected faces flat, joined along as many edges as it can without one covering another. A piece grows from one face by
 * its neighbours, breadth first or depth first, leaving out whatever would overlap; what is left over grows pieces of its own.
 * Started from each face in turn, the first single piece is taken, so that it is centred on its front panel where it can be;
 * where there is none, the fewest pieces.
 */
export function unfoldFaces(flatSolid: FlatSolid, faces: readonly number[]): readonly Unfolded[] {
  let best: readonly Unfolded[] | null = null;
  const starts = (['breadth', 'depth'] as const).flatMap((order) => faces.map((root) => ({ order, root })));
  for (const { order, root } of starts.slice(0, MOST_STARTS)) {
    const pieces = growPieces(flatSolid, faces, root, order);
    if (!best || pieces.length < best.length) best = pieces;
    if (best.length === 1) break;
  }
  return best ?? [];
}

function growPieces(flatSolid: FlatSolid, faces: readonly number[], root: number, order: Order): Unfolded[] {
  const wanted = new Set(faces);
  const pieces: Unfolded[] = [];
  for (let next: number | undefined = root; next !== undefined; [next] = wanted) {
    pieces.push(growPiece(flatSolid, wanted, next, order));
  }
  return pieces;
}

/** Groups of the given faces that hang together by edges both run along. In order of their first face. */
export function connectedFaces({ links }: FlatSolid, faces: readonly number[]): number[][] {
  const left = new Set(faces);
  const groups: number[][] = [];
  for (const first of faces) {
    if (!left.delete(first)) continue;
    const group = [first];
    for (const face of group) {
      for (const { to } of links[face] ?? []) if (left.delete(to)) group.push(to);
    }
    groups.push(group.sort((a, b) => a - b));
  }
  return groups;
}

type Order = 'breadth' | 'depth';

/** One piece from a root; takes the faces it lays out of `wanted`. */
function growPiece(flatSolid: FlatSolid, wanted: Set<number>, root: number, order: Order): Unfolded {
  const { solid, flat, links } = flatSolid;
  const panels: Panel[] = [];
  const folds: Fold[] = [];
  const laid: BoxedRing[] = [];
  /** Index of the panel, null where it would cover one that is laid already. */
  const lay = (face: number, motion: Rigid2): number | null => {
    const polygon = (flat[face] as readonly Vec2[]).map((p) => apply2(motion, p));
    const own = boxedRing(polygon);
    if (laid.some((other) => ringDepth(own, other) > NOISE_MM / 2)) return null;
    wanted.delete(face);
    laid.push(own);
    return panels.push({ face, polygon }) - 1;
  };
  const join = (parent: number, { to, edge }: Link): number | null => {
    const { face, polygon } = panels[parent] as Panel;
    const ends = endsOnPanel(flatSolid, edge, face, polygon);
    const [start, end] = endsOnPanel(flatSolid, edge, to, flat[to] as readonly Vec2[]);
    // The neighbour runs along the edge the other way round.
    const child = lay(to, alignSegments(end, start, ...ends));
    if (child === null) return null;
    folds.push({ edge, ends, ...turnAt(solid, edge), panels: [parent, child] });
    return child;
  };

  lay(root, rest2);
  const open = [0];
  for (let parent = open.shift(); parent !== undefined; parent = open.shift()) {
    const grown = (links[(panels[parent] as Panel).face] ?? []).flatMap((link) => {
      const child = wanted.has(link.to) ? join(parent as number, link) : null;
      return child === null ? [] : [child];
    });
    if (order === 'breadth') open.push(...grown);
    else open.unshift(...grown);
  }
  return { panels, folds };
}

/** How far the paper is turned from flat along an edge, and which way. */
export function turnAt(solid: Solid, edge: number): { readonly kind: FoldKind; readonly angle: number } {
  const turn = Math.PI - (solid.edges[edge]?.dihedral ?? Math.PI);
  // Between two parts of one smooth surface the paper goes straight on.
  return Math.abs(turn) <= NOISE_RAD
    ? { kind: 'mountain', angle: 0 }
    : { kind: turn > 0 ? 'mountain' : 'valley', angle: Math.abs(turn) };
}

/** Where an edge lies on a panel laid flat, in the direction of the panel's loop: its ends. */
export function endsOnPanel(
  flatSolid: FlatSolid,
  edge: number,
  face: number,
  polygon: readonly Vec2[],
): readonly [Vec2, Vec2] {
  const { first, count } = stretchOf(flatSolid, edge, face);
  return [at(polygon, first), at(polygon, first + count)];
}

/** The part of a face's loop that is one edge: the position where it begins and of how many steps it is. */
export function stretchOf(
  { solid, edgesOf }: FlatSolid,
  edge: number,
  face: number,
): { readonly first: number; readonly count: number } {
  const edges = edgesOf[face] ?? [];
  const first = edges.findIndex((e, i) => e === edge && at(edges, i - 1) !== edge);
  if (first < 0) throw new Error(`edge ${solid.edges[edge]?.id} does not bound face ${solid.faces[face]?.id}`);
  return { first, count: edges.filter((e) => e === edge).length };
}

import { convexParts } from '../geometry/convex-parts.ts';
import { at, type Box, boxOf, convexDepth } from '../geometry/polygon.ts';
import { alignSegments, apply2, type Rigid2, rest2 } from '../geometry/rigid2.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { edgesOfFaces, flattenFace } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { NOISE_MM } from '../tolerance.ts';
import type { Fold, Panel } from './net.ts';

/** A solid with what unfolding asks of it again and again. */
export interface FlatSolid {
  readonly solid: Solid;
  /** For each face its corners in its own frame (`flattenFace`). */
  readonly flat: readonly (readonly Vec2[])[];
  /** For each face the edges of its loop (`edgesOfFaces`). */
  readonly edgesOf: readonly (readonly number[])[];
  /** For each face its neighbours, in the order of its loop. An abutment joins nothing. */
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
        const { faces, role } = solid.edges[edge] as Solid['edges'][number];
        const to = faces.find((other) => other !== f);
        return to === undefined || role === 'abutment' ? [] : [{ to, edge }];
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
  const laid: Laid[] = [];
  /** Index of the panel, null where it would cover one that is laid already. */
  const lay = (face: number, motion: Rigid2): number | null => {
    const polygon = (flat[face] as readonly Vec2[]).map((p) => apply2(motion, p));
    const own: Laid = { box: boxOf(polygon), parts: convexParts(polygon) };
    if (laid.some((other) => covers(own, other))) return null;
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
    const turn = Math.PI - ((solid.edges[edge] as Solid['edges'][number]).dihedral ?? Math.PI);
    folds.push({ edge, ends, kind: turn >= 0 ? 'mountain' : 'valley', angle: Math.abs(turn), panels: [parent, child] });
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

/** A panel laid flat, ready to be compared with others. */
interface Laid {
  readonly box: Box;
  readonly parts: readonly (readonly Vec2[])[];
}

function covers(a: Laid, b: Laid): boolean {
  const [p, q] = [a.box, b.box];
  if (p.maxX < q.minX || q.maxX < p.minX || p.maxY < q.minY || q.maxY < p.minY) return false;
  return a.parts.some((one) => b.parts.some((other) => convexDepth(one, other) > NOISE_MM / 2));
}

/** Where an edge lies on a panel laid flat, in the direction of the panel's loop. */
export function endsOnPanel(
  { solid, edgesOf }: FlatSolid,
  edge: number,
  face: number,
  polygon: readonly Vec2[],
): readonly [Vec2, Vec2] {
  const index = edgesOf[face]?.indexOf(edge) ?? -1;
  if (index < 0) throw new Error(`edge ${solid.edges[edge]?.id} does not bound face ${solid.faces[face]?.id}`);
  return [at(polygon, index), at(polygon, index + 1)];
}

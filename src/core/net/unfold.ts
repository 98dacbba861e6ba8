import { at } from '../geometry/polygon.ts';
import { alignSegments, apply2, rest2 } from '../geometry/rigid2.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { flattenFace } from '../solid/face-frame.ts';
import { edgesOfFaces } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { NOISE_RAD } from '../tolerance.ts';
import type { Fold, FoldKind, Panel } from './net.ts';

/** A solid with what unfolding asks of it again and again. */
export interface FlatSolid {
  readonly solid: Solid;
  /** For each face its corners in its own frame (`flattenFace`). */
  readonly flat: readonly (readonly Vec2[])[];
  /** For each face the edges of its loop (`edgesOfFaces`). */
  readonly edgesOf: readonly (readonly number[])[];
  /** The same, each edge once. */
  readonly boundsOf: readonly (readonly number[])[];
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
    boundsOf: edgesOf.map((edges) => [...new Set(edges)]),
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

/**
 * Lays the pieces of a forest flat: faces joined by the given edges. Each piece begins with the first of its faces, whose fall
 * line runs down the page; a panel comes after the one that it is joined to.
 */
export function unfoldAlong(
  flatSolid: FlatSolid,
  faces: readonly number[],
  joined: ReadonlySet<number>,
): readonly Unfolded[] {
  const { solid, flat, links } = flatSolid;
  const laid = new Set<number>();
  return faces.flatMap((root): Unfolded[] => {
    if (laid.has(root)) return [];
    laid.add(root);
    const panels: Panel[] = [{ face: root, polygon: (flat[root] as readonly Vec2[]).map((p) => apply2(rest2, p)) }];
    const folds: Fold[] = [];
    for (let parent = 0; parent < panels.length; parent++) {
      const { face, polygon } = panels[parent] as Panel;
      for (const { to, edge } of links[face] ?? []) {
        if (!joined.has(edge) || laid.has(to)) continue;
        laid.add(to);
        const ends = endsOnPanel(flatSolid, edge, face, polygon);
        const [start, end] = endsOnPanel(flatSolid, edge, to, flat[to] as readonly Vec2[]);
        // The neighbour runs along the edge the other way round.
        const motion = alignSegments(end, start, ...ends);
        const child =
          panels.push({ face: to, polygon: (flat[to] as readonly Vec2[]).map((p) => apply2(motion, p)) }) - 1;
        folds.push({ edge, ends, ...turnAt(solid, edge), panels: [parent, child] });
      }
    }
    return [{ panels, folds }];
  });
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

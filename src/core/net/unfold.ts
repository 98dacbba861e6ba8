import { convexParts } from '../geometry/convex-parts.ts';
import { at, boxOf, convexOverlap, ringLength } from '../geometry/polygon.ts';
import { alignSegments, apply2, type Rigid2, rest2 } from '../geometry/rigid2.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { edgesOfFaces, flattenFace } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { NOISE_MM2 } from '../tolerance.ts';
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

/**
 * Lays connected faces flat, joined along as many edges as a tree has. Trees are tried breadth first and then depth
 * first from each face in turn; the first without overlap wins, so the piece is centred on its front panel where it can be.
 * Null where every tree overlaps.
 */
export function unfoldFaces(flatSolid: FlatSolid, faces: readonly number[]): Unfolded | null {
  for (const order of ['breadth', 'depth'] as const) {
    for (const root of faces) {
      const unfolded = unfoldTree(flatSolid, faces, root, order);
      if (!overlaps(unfolded.panels.map((panel) => panel.polygon))) return unfolded;
    }
  }
  return null;
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

function unfoldTree(
  flatSolid: FlatSolid,
  faces: readonly number[],
  root: number,
  order: 'breadth' | 'depth',
): Unfolded {
  const { solid, flat, links } = flatSolid;
  const wanted = new Set(faces);
  const panels: Panel[] = [];
  const folds: Fold[] = [];
  const visit = (face: number, motion: Rigid2): number => {
    wanted.delete(face);
    return panels.push({ face, polygon: (flat[face] as readonly Vec2[]).map((p) => apply2(motion, p)) }) - 1;
  };
  const join = (parent: number, { to, edge }: Link): number => {
    const { face, polygon } = panels[parent] as Panel;
    const ends = endsOnPanel(flatSolid, edge, face, polygon);
    const [start, end] = endsOnPanel(flatSolid, edge, to, flat[to] as readonly Vec2[]);
    // The neighbour runs along the edge the other way round.
    const child = visit(to, alignSegments(end, start, ...ends));
    const turn = Math.PI - ((solid.edges[edge] as Solid['edges'][number]).dihedral ?? Math.PI);
    folds.push({ edge, ends, kind: turn >= 0 ? 'mountain' : 'valley', angle: Math.abs(turn), panels: [parent, child] });
    return child;
  };
  const deepen = (parent: number): void => {
    for (const link of links[(panels[parent] as Panel).face] ?? []) {
      if (wanted.has(link.to)) deepen(join(parent, link));
    }
  };

  visit(root, rest2);
  if (order === 'depth') deepen(0);
  else {
    for (let next = 0; next < panels.length; next++) {
      for (const link of links[(panels[next] as Panel).face] ?? []) if (wanted.has(link.to)) join(next, link);
    }
  }
  return { panels, folds };
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

function overlaps(polygons: readonly (readonly Vec2[])[]): boolean {
  const boxes = polygons.map(boxOf);
  const parts = polygons.map(convexParts);
  const cover = (i: number, j: number): number =>
    (parts[i] ?? []).reduce((sum, a) => (parts[j] ?? []).reduce((rest, b) => rest + convexOverlap(a, b), sum), 0);
  return polygons.some((a, i) =>
    polygons.some((_, j) => {
      const p = boxes[i] as (typeof boxes)[number];
      const q = boxes[j] as (typeof boxes)[number];
      if (j <= i || p.maxX < q.minX || q.maxX < p.minX || p.maxY < q.minY || q.maxY < p.minY) return false;
      // Along a shared edge, rounding leaves a sliver as long as the edge.
      return cover(i, j) > NOISE_MM2 * Math.max(1, ringLength(a));
    }),
  );
}

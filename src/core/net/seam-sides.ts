import { at } from '../geometry/polygon.ts';
import { alignSegments, apply2, type Rigid2 } from '../geometry/rigid2.ts';
import type { Vec2, Vec3 } from '../geometry/vector.ts';
import { flattenFace, pointInFace } from '../solid/face-frame.ts';
import { edgePath, isJoinedAt, type Solid } from '../solid/solid.ts';
import type { NetPoint, Panel, Piece, SeamSide } from './net.ts';
import { endsOnPanel, type FlatSolid, stretchOf } from './unfold.ts';

/** For each face the abutments at which a wall is glued to it. */
export function abutmentsByHost({ edges }: Solid): ReadonlyMap<number, readonly number[]> {
  const byHost = new Map<number, number[]>();
  edges.forEach((edge, e) => {
    const host = edge.faces[1];
    if (edge.role === 'abutment' && host !== undefined && isJoinedAt(edge, host))
      byHost.set(host, [...(byHost.get(host) ?? []), e]);
  });
  return byHost;
}

/** Where a wall meets the inside of a panel laid flat, in the direction of the wall's loop. */
export function hostLine(
  { solid, flat }: FlatSolid,
  edge: number,
  { face, polygon }: { readonly face: number; readonly polygon: readonly Vec2[] },
): readonly [Vec2, Vec2] {
  const own = flat[face] as readonly Vec2[];
  const motion: Rigid2 = alignSegments(at(own, 0), at(own, 1), at(polygon, 0), at(polygon, 1));
  return (solid.edges[edge] as Solid['edges'][number]).ends.map((v) =>
    apply2(motion, pointInFace(solid, face, solid.vertices[v] as Vec3)),
  ) as [Vec2, Vec2];
}

/** The points of an edge in space, from end to end. */
export const edgePoints = ({ vertices, edges }: Solid, edge: number): readonly Vec3[] =>
  edgePath(edges[edge] as Solid['edges'][number]).map((v) => vertices[v] as Vec3);

/** The lines along which something is glued on a panel laid flat, below points at its face: one, or round a curve many. */
export function glueLinesOn(
  solid: Solid,
  points: readonly Vec3[],
  { face, polygon }: Panel,
): readonly (readonly [Vec2, Vec2])[] {
  const own = flattenFace(solid, face);
  const motion = alignSegments(at(own, 0), at(own, 1), at(polygon, 0), at(polygon, 1));
  const path = points.map((point) => apply2(motion, pointInFace(solid, face, point)));
  return path.slice(1).map((end, i) => [path[i] as Vec2, end] as const);
}

/** For each face the piece that it is a panel of, and which of its panels. */
type Places = ReadonlyMap<number, readonly [piece: number, panel: number]>;

export const placesOf = (pieces: readonly Piece[]): Places =>
  new Map(pieces.flatMap((piece, p) => piece.panels.map(({ face }, i) => [face, [p, i]] as const)));

export function seamSides(
  flatSolid: FlatSolid,
  pieces: readonly Piece[],
  places: Places,
  edge: number,
): readonly [SeamSide, SeamSide] {
  const { faces, role, via } = flatSolid.solid.edges[edge] as Solid['edges'][number];
  return faces.map((face, side): SeamSide => {
    const place = places.get(face);
    if (!place) return { piece: -1, panel: face, ends: lineOnFace(flatSolid, edge, face) };
    const [piece, panel] = place;
    const laid = pieces[piece]?.panels[panel] as Panel;
    const isHost = role === 'abutment' && side === 1;
    const ends = isHost ? hostLine(flatSolid, edge, laid) : endsOnPanel(flatSolid, edge, face, laid.polygon);
    return { piece, panel, ends, ...(via && !isHost ? { curve: curveOnPanel(flatSolid, edge, laid) } : {}) };
  }) as [SeamSide, SeamSide];
}

/** An edge on a face that another layer cuts, in the face's own frame and the direction in which it is drawn there. */
function lineOnFace({ solid }: FlatSolid, edge: number, face: number): readonly [Vec2, Vec2] {
  const { ends, faces, role } = solid.edges[edge] as Solid['edges'][number];
  const [a, b] = ends.map((v) => pointInFace(solid, face, solid.vertices[v] as Vec3)) as [Vec2, Vec2];
  return faces[0] === face || role === 'abutment' ? [a, b] : [b, a];
}

function curveOnPanel(flatSolid: FlatSolid, edge: number, { face, polygon }: Panel): readonly NetPoint[] {
  const { first, count } = stretchOf(flatSolid, edge, face);
  return Array.from({ length: count + 1 }, (_, i) => at(polygon, first + i));
}

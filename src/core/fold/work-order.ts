import { cross3, scale3, sub3, type Vec3 } from '../geometry/vector.ts';
import type { Net } from '../net/net.ts';
import { normalAt } from '../solid/face-frame.ts';
import { isFootOnFace } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { isPositive } from '../tolerance.ts';

/**
 * The order in which pieces go on, as indices into `net.pieces`: what others stand on or come to rest on before them, one
 * part of the roof after the other; then walls before the slopes that rest on them, then pieces with most flaps first, so
 * that plain ones close over the flaps; among equals in the order of the net.
 */
export function workOrder(solid: Solid, net: Net): readonly number[] {
  const rank = net.pieces.map((piece) => {
    const isWall = piece.panels.every(({ face }) => solid.faces[face]?.part === 'wall');
    const carriesAbutment = piece.flaps.some((flap) => solid.edges[flap.edge]?.role === 'abutment');
    return isWall && carriesAbutment ? Number.POSITIVE_INFINITY : piece.flaps.length;
  });
  const byRank = (a: number, b: number): number =>
    rank[a] === rank[b] ? a - b : (rank[b] as number) - (rank[a] as number);
  const { parts, supports } = partsOf(solid, net);
  const left = new Set(parts.map((part) => part.toSorted(byRank)));
  const laid = new Set<number>();
  const order: number[] = [];
  while (left.size > 0) {
    const waiting = [...left].sort(([a], [b]) => byRank(a as number, b as number));
    const isReady = (part: readonly number[]): boolean => part.every((p) => supports(p).every((q) => laid.has(q)));
    // Parts that each rest on the other go on by rank alone.
    const next = waiting.find(isReady) ?? (waiting[0] as number[]);
    left.delete(next);
    order.push(...next);
    for (const p of next) laid.add(p);
  }
  return order;
}

/** Pieces joined edge to edge, together; and for each piece those of other parts that it stands or rests on. */
function partsOf(
  solid: Solid,
  net: Net,
): { readonly parts: readonly (readonly number[])[]; readonly supports: (piece: number) => readonly number[] } {
  const pieceOf = new Map(net.pieces.flatMap((piece, p) => piece.panels.map(({ face }) => [face, p] as const)));
  const part = net.pieces.map((_, p) => p);
  const resting: (readonly [number, number])[] = [];
  solid.edges.forEach(({ faces }, e) => {
    const rest = restingAt(solid, e);
    const [a, b] = (rest ?? faces).map((face) => pieceOf.get(face));
    if (a === undefined || b === undefined) return;
    if (rest) resting.push([a, b]);
    else {
      const [from, to] = [part[b], part[a] as number];
      for (const [p, own] of part.entries()) if (own === from) part[p] = to;
    }
  });
  const below = new Map<number, number[]>();
  for (const [under, over] of resting)
    if (part[under] !== part[over]) below.set(over, [...(below.get(over) ?? []), under]);
  return {
    parts: [...new Set(part)].map((own) => net.pieces.flatMap((_, p) => (part[p] === own ? [p] : []))),
    supports: (piece) => below.get(piece) ?? [],
  };
}

/**
 * Of the two faces at an edge the one below and the one that stands or rests on it: at an abutment, and where a wall ends
 * level under a face that goes up from there. Null where neither rests on the other.
 */
function restingAt(solid: Solid, edge: number): readonly [number, number] | null {
  const { faces, role, ends } = solid.edges[edge] as Solid['edges'][number];
  const [first, second] = faces;
  if (first === undefined || second === undefined) return null;
  if (role === 'abutment') return isFootOnFace(solid, edge) ? [second, first] : [first, second];
  const [a, b] = ends.map((v) => solid.vertices[v] as Vec3) as [Vec3, Vec3];
  const isWall = faces.some((f) => solid.faces[f]?.part === 'wall');
  if (!isWall || isPositive(Math.abs(b[2] - a[2]))) return null;
  const along = sub3(b, a);
  const climbs = (face: number, direction: Vec3): number => {
    const normal = normalAt(solid.vertices, solid.faces[face] as Solid['faces'][number], a);
    return cross3(normal, direction)[2];
  };
  const [one, other] = [climbs(first, along), climbs(second, scale3(along, -1))];
  if (one < 0 && other > 0) return [first, second];
  return one > 0 && other < 0 ? [second, first] : null;
}

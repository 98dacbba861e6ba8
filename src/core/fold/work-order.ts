import { cross3, scale3, sub3, type Vec3 } from '../geometry/vector.ts';
import type { Net } from '../net/net.ts';
import { normalAt } from '../solid/face-frame.ts';
import { isFootOnFace } from '../solid/measure.ts';
import { edgePath, type Solid } from '../solid/solid.ts';
import { isPositive } from '../tolerance.ts';

/**
 * The order in which pieces go on, as indices into `net.pieces`: what others stand on or come to rest on before them, one
 * part of the roof after the other; within a part a piece that carries a flap before the piece it goes under, so that plain ones
 * close over the flaps; among those that are free to go on walls, then the piece with most flaps, then the order of the net.
 * Where flaps go round in a ring, the piece with the fewest flaps still to come under it goes on next. The piece that closes the
 * roof (`net.closing`) is the last of its part.
 */
export function workOrder(solid: Solid, net: Net): readonly number[] {
  const pieceOf = piecesOfFaces(net);
  // For each piece those that go on before it because something of them lies under it.
  const under = net.pieces.map(() => new Set<number>());
  net.pieces.forEach(({ flaps, strip }, p) => {
    const mates = flaps.flatMap(({ edge, to }) => {
      const mate = pieceOf.get(to);
      // A wall's foot lies on the panel that it stands on.
      return mate === undefined || mate === p || isFootOnFace(solid, edge) ? [] : [mate];
    });
    if (!strip) for (const mate of mates) under[mate]?.add(p);
    else {
      // A strip is glued under one of its panels, and the other goes over it: the one with fewer flaps.
      const [first, second] = mates.toSorted((a, b) => flapsOf(net, b) - flapsOf(net, a));
      if (first !== undefined) under[p]?.add(first);
      if (second !== undefined) under[second]?.add(p);
    }
  });
  const rank = net.pieces.map((piece) => {
    const isWall = piece.panels.length > 0 && piece.panels.every(({ face }) => solid.faces[face]?.part === 'wall');
    const carriesAbutment = piece.flaps.some((flap) => solid.edges[flap.edge]?.role === 'abutment');
    return isWall && carriesAbutment ? Number.POSITIVE_INFINITY : piece.flaps.length;
  });
  const laid = new Set<number>();
  // How many are still to come under each, and for each piece those that it lies under.
  const waiting = under.map((pieces) => pieces.size);
  const over = net.pieces.map((): number[] => []);
  for (const [p, pieces] of under.entries()) for (const q of pieces) over[q]?.push(p);
  const lay = (p: number): void => {
    laid.add(p);
    for (const q of over[p] ?? []) waiting[q] = (waiting[q] as number) - 1;
  };
  const isBefore = (a: number, b: number): boolean => {
    const [first, second] = [waiting[a] as number, waiting[b] as number];
    if (first !== second) return first < second;
    return rank[a] === rank[b] ? a < b : (rank[a] as number) > (rank[b] as number);
  };
  const best = (pieces: readonly number[]): number => pieces.reduce((one, p) => (isBefore(p, one) ? p : one));

  const { parts: all, supports } = partsOf(solid, net, pieceOf);
  const left = new Set(all);
  const order: number[] = [];
  while (left.size > 0) {
    const parts = [...left];
    const ready = parts.filter((part) => part.every((p) => supports(p).every((q) => laid.has(q))));
    // Parts that each rest on the other go on by their pieces alone.
    const heads = (ready.length > 0 ? ready : parts).map((part) => ({ part, head: best(part) }));
    const next = heads.reduce((one, other) => (isBefore(other.head, one.head) ? other : one)).part;
    left.delete(next);
    for (const open = new Set(next); open.size > 0; ) {
      const early = [...open].filter((p) => p !== net.closing?.piece);
      const p = best(early.length > 0 ? early : [...open]);
      open.delete(p);
      lay(p);
      order.push(p);
    }
  }
  return order;
}

const flapsOf = (net: Net, p: number): number => net.pieces[p]?.flaps.length ?? 0;

const piecesOfFaces = (net: Net): ReadonlyMap<number, number> =>
  new Map(net.pieces.flatMap((piece, p) => piece.panels.map(({ face }) => [face, p] as const)));

/** Pieces joined edge to edge, together; and for each piece those of other parts that it stands or rests on. */
function partsOf(
  solid: Solid,
  net: Net,
  pieceOf: ReadonlyMap<number, number>,
): { readonly parts: readonly (readonly number[])[]; readonly supports: (piece: number) => readonly number[] } {
  const joined: (readonly [number, number])[] = [];
  const resting: (readonly [number, number])[] = [];
  solid.edges.forEach(({ faces }, e) => {
    const rest = restingAt(solid, e);
    const [a, b] = (rest ?? faces).map((face) => pieceOf.get(face));
    if (a === undefined || b === undefined) return;
    if (rest) resting.push([a, b]);
    else joined.push([a, b]);
  });
  const parts = joinedParts(net.pieces.length, joined);
  const part = net.pieces.map(() => -1);
  for (const [index, pieces] of parts.entries()) for (const p of pieces) part[p] = index;
  const below = new Map<number, number[]>();
  for (const [under, over] of resting)
    if (part[under] !== part[over]) below.set(over, [...(below.get(over) ?? []), under]);
  return {
    parts,
    supports: (piece) => below.get(piece) ?? [],
  };
}

/** So many pieces in groups that hang together by pairs; each group, and the groups by their first piece, in rising order. */
function joinedParts(count: number, pairs: readonly (readonly [number, number])[]): readonly (readonly number[])[] {
  const beside = Array.from({ length: count }, (): number[] => []);
  for (const [a, b] of pairs) {
    beside[a]?.push(b);
    beside[b]?.push(a);
  }
  const left = new Set(beside.keys());
  return [...beside.keys()].flatMap((first) => {
    if (!left.delete(first)) return [];
    const group = [first];
    for (const p of group) for (const q of beside[p] ?? []) if (left.delete(q)) group.push(q);
    return [group.sort((p, q) => p - q)];
  });
}

/**
 * Of the two faces at an edge the one below and the one that stands or rests on it: at an abutment, and where a wall ends
 * level under a face that goes up from there. Null where neither rests on the other.
 */
function restingAt(solid: Solid, edge: number): readonly [number, number] | null {
  const asked = solid.edges[edge] as Solid['edges'][number];
  const { faces, role, ends } = asked;
  const [first, second] = faces;
  if (first === undefined || second === undefined) return null;
  if (role === 'abutment') return isFootOnFace(solid, edge) ? [second, first] : [first, second];
  const [a, b] = ends.map((v) => solid.vertices[v] as Vec3) as [Vec3, Vec3];
  const isWall = faces.some((f) => solid.faces[f]?.part === 'wall');
  const isLevel = edgePath(asked).every((v) => !isPositive(Math.abs((solid.vertices[v]?.[2] ?? 0) - a[2])));
  if (!isWall || !isLevel) return null;
  const along = sub3(b, a);
  const climbs = (face: number, direction: Vec3): number => {
    const normal = normalAt(solid.vertices, solid.faces[face] as Solid['faces'][number], a);
    return cross3(normal, direction)[2];
  };
  const [one, other] = [climbs(first, along), climbs(second, scale3(along, -1))];
  if (one < 0 && other > 0) return [first, second];
  return one > 0 && other < 0 ? [second, first] : null;
}

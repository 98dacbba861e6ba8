import { cross2, dot2, sub2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { FlapSides } from '../project/project.ts';
import { pointInFace } from '../solid/face-frame.ts';
import { edgePath, type Solid } from '../solid/solid.ts';
import { isPositive } from '../tolerance.ts';

/** Tries before the search for the largest plain set settles for the best found; far above what roofs of few panels need; large ones are laid out well before. */
const MOST_BRANCHES = 1_000;

/** Who carries the flap of each seam. */
export interface Carriers {
  /** For each seam (an index into `solid.edges`) the face that carries its flap; empty where nobody does. */
  readonly from: ReadonlyMap<number, number>;
  /** Seams whose flap the other face may carry: neither is bound. For each whether a plain piece is spoiled by it. */
  readonly mayTurn: ReadonlyMap<number, 'freely' | 'spoiling'>;
  /** For each seam the face that comes first going round. */
  readonly around: ReadonlyMap<number, number>;
  /** Pieces that carry no flap at a seam with another piece. */
  readonly plain: ReadonlySet<number>;
  /** Whether no larger set of plain pieces exists for certain; otherwise the search was stopped. */
  readonly isLargest: boolean;
}

/**
 * Chooses who carries the flaps.
 *
 * `one-side`: the face that comes first going round counter-clockwise; its loop runs up the seam. Along a level seam: the
 * face listed first. `alternate`: the largest set of pieces, no two sharing a seam, carries no flap; within a piece as with
 * `one-side`. At an abutment the wall always carries it, since the slope goes on over the wall. Round a curve the panel whose
 * edge is the hollower one flat carries the teeth, so that they spread and lie under the other. `none`: nobody.
 * `pieceOf`: the piece that a face is part of; each is one by itself where nothing is said.
 */
export function chooseCarriers(
  solid: Solid,
  seams: readonly number[],
  on: FlapSides,
  pieceOf: (face: number) => number = (face) => face,
): Carriers {
  if (on === 'none')
    return { from: new Map(), mayTurn: new Map(), around: new Map(), plain: new Set(), isLargest: true };
  const { plain, isLargest } =
    on === 'alternate' ? plainPieces(solid, seams, pieceOf) : { plain: new Set<number>(), isLargest: true };
  const from = new Map<number, number>();
  const mayTurn = new Map<number, 'freely' | 'spoiling'>();
  for (const seam of seams) {
    const [a, b] = (solid.edges[seam] as Solid['edges'][number]).faces as readonly [number, number];
    const bound = boundCarrier(solid, seam);
    const [p, q] = [pieceOf(a), pieceOf(b)];
    const isPlain = p !== q && (plain.has(p) || plain.has(q));
    if (bound !== null) from.set(seam, bound);
    else {
      from.set(seam, isPlain ? (plain.has(q) ? a : b) : firstGoingRound(solid, seam));
      mayTurn.set(seam, isPlain ? 'spoiling' : 'freely');
    }
  }
  const around = new Map(seams.map((seam) => [seam, firstGoingRound(solid, seam)]));
  return { from, mayTurn, around, plain, isLargest };
}

/** The face that alone can carry a seam's flap; null where either can. */
export function boundCarrier(solid: Solid, seam: number): number | null {
  const { faces, role, via } = solid.edges[seam] as Solid['edges'][number];
  const [a, b] = faces as readonly [number, number];
  if (role === 'abutment') return a;
  if (!via) return null;
  return turningAlong(solid, seam, b) < turningAlong(solid, seam, a) ? b : a;
}

/** How far the edge of a panel laid flat turns to the left along a curve, radians: over 0 where it bulges. */
export function turningAlong(solid: Solid, edge: number, face: number): number {
  const path = edgePath(solid.edges[edge] as Solid['edges'][number]).map((v) =>
    pointInFace(solid, face, solid.vertices[v] as Vec3),
  );
  const legs = path.slice(1).map((p, i) => sub2(p, path[i] as Vec2));
  const turn = legs.slice(1).reduce((sum, leg, i) => {
    const before = legs[i] as Vec2;
    return sum + Math.atan2(cross2(before, leg), dot2(before, leg));
  }, 0);
  return solid.edges[edge]?.faces[0] === face ? turn : -turn;
}

function firstGoingRound(solid: Solid, seam: number): number {
  const { ends, faces } = solid.edges[seam] as Solid['edges'][number];
  const [a, b] = faces as readonly [number, number];
  const climb = (solid.vertices[ends[1]]?.[2] ?? 0) - (solid.vertices[ends[0]]?.[2] ?? 0);
  if (isPositive(climb)) return a;
  return isPositive(-climb) ? b : Math.min(a, b);
}

/** A largest set of pieces, no two sharing a seam and none bound to carry a flap; that of the front face is in it where it can be. */
function plainPieces(
  solid: Solid,
  seams: readonly number[],
  pieceOf: (face: number) => number,
): Pick<Carriers, 'plain' | 'isLargest'> {
  const neighbours = new Map<number, Set<number>>();
  const bound = new Set<number>();
  for (const seam of seams) {
    const [a, b] = (solid.edges[seam] as Solid['edges'][number]).faces.map(pieceOf) as [number, number];
    if (a === b) continue;
    const carrier = boundCarrier(solid, seam);
    if (carrier !== null) {
      bound.add(pieceOf(carrier));
      continue;
    }
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      neighbours.set(from, (neighbours.get(from) ?? new Set()).add(to));
    }
  }
  const pieces = [...new Set(solid.faces.map((_, f) => pieceOf(f)))].filter((piece) => !bound.has(piece));
  let branches = 0;

  /** Largest independent set among `open`, lowest indices first among equals. */
  const largest = (open: ReadonlySet<number>): number[] => {
    const left = new Set(open);
    const taken: number[] = [];
    const degree = (f: number): number => [...(neighbours.get(f) ?? [])].filter((n) => left.has(n)).length;
    const take = (f: number): void => {
      taken.push(f);
      left.delete(f);
      for (const n of neighbours.get(f) ?? []) left.delete(n);
    };
    for (;;) {
      // One with at most one open neighbour belongs to some largest set.
      const easy = [...left].find((f) => degree(f) <= 1);
      if (easy === undefined) break;
      take(easy);
    }
    if (left.size === 0) return taken;
    const pivot = [...left].reduce((best, f) => (degree(f) > degree(best) ? f : best));
    const around = neighbours.get(pivot) ?? new Set<number>();
    const withPivot = [pivot, ...largest(new Set([...left].filter((f) => f !== pivot && !around.has(f))))];
    if (++branches > MOST_BRANCHES) return [...taken, ...withPivot];
    const without = largest(new Set([...left].filter((f) => f !== pivot)));
    return [...taken, ...(without.length > withPivot.length ? without : withPivot)];
  };
  return { plain: new Set(largest(new Set(pieces))), isLargest: branches <= MOST_BRANCHES };
}

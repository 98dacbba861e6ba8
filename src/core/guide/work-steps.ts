import type { Net, Piece } from '../net/net.ts';
import type { Solid } from '../solid/solid.ts';

/** One step of assembling a layer: which pieces go on, and which seams are joined then. */
export interface AssemblyStep {
  /** Closing a piece by itself, or the last seam of all, is a step without a piece that goes on. */
  readonly kind: 'close-piece' | 'put-on' | 'close';
  /** Indices into the net's pieces, in order; seam strips are not among them, they go with their seams. */
  readonly pieces: readonly number[];
  /** Indices into the net's seams. */
  readonly joins: readonly number[];
}

/**
 * The steps in which the pieces of a layer are joined, in the order of work (`planWork`): first each piece's own seams, then the
 * pieces one after another, each joined to what is on already; like pieces that follow each other make one step, the piece that
 * closes the layer one by itself. A seam that is joined last from inside (`net.closing`) comes at the end.
 */
export function assemblySteps(solid: Solid, net: Net, order: readonly number[]): readonly AssemblyStep[] {
  const lastSeam = net.seams.findIndex(({ edge }) => edge === net.closing?.seam);
  const seams = net.seams.map((_, s) => s).filter((s) => s !== lastSeam);
  const piecesOf = (s: number): readonly number[] => (net.seams[s]?.sides ?? []).map(({ piece }) => piece);
  const isOwn = (s: number): boolean => piecesOf(s).every((p) => p === piecesOf(s)[0]);
  const goingOn = order.filter((p) => !net.pieces[p]?.strip);
  const own = goingOn.flatMap((p): AssemblyStep[] => {
    const joins = seams.filter((s) => isOwn(s) && piecesOf(s)[0] === p);
    return joins.length === 0 ? [] : [{ kind: 'close-piece', pieces: [p], joins }];
  });
  const on = new Set<number>([-1]);
  const between = seams.filter((s) => !isOwn(s));
  const singles = goingOn.map((p): AssemblyStep & { readonly sort: string } => {
    on.add(p);
    const joins = between.filter((s) => piecesOf(s).includes(p) && piecesOf(s).every((q) => on.has(q)));
    const sort = p === net.closing?.piece ? 'closing' : sortOf(solid, net.pieces[p] as Piece, joins.length);
    return { kind: 'put-on', pieces: [p], joins, sort };
  });
  const grouped: (AssemblyStep & { readonly sort: string })[] = [];
  for (const single of singles) {
    const last = grouped.at(-1);
    if (last?.sort !== single.sort) grouped.push(single);
    else
      grouped[grouped.length - 1] = {
        ...last,
        pieces: [...last.pieces, ...single.pieces],
        joins: [...last.joins, ...single.joins],
      };
  }
  const closing: AssemblyStep[] =
    lastSeam < 0 ? [] : [{ kind: 'close', pieces: [net.closing?.piece ?? 0], joins: [lastSeam] }];
  // A single piece is closed before it goes on; its last seam with it.
  const isSingle = goingOn.length === 1;
  const puts = grouped.map(({ sort: _, ...step }) => step);
  return isSingle ? [...own, ...closing, ...puts] : [...own, ...puts, ...closing];
}

/** Pieces of one sort are put on in the same way. */
function sortOf(solid: Solid, { panels, flaps }: Piece, joins: number): string {
  const parts = [...new Set(panels.map(({ face }) => solid.faces[face]?.part))].sort().join(' ');
  return `${parts} ${flaps.length > 0 ? 'flapped' : 'plain'} ${joins}`;
}

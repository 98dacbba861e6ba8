import { cutLayers } from '../cut-layers.ts';
import type { PieceKey } from '../layout/layout.ts';
import type { Piece } from '../net/net.ts';
import type { Production } from '../pipeline.ts';

/** Congruent pieces of one layer, cut from one stock. */
export interface CutRow {
  /** As the guide numbers it, from 1. */
  readonly key: number;
  readonly roof: number;
  readonly layer: number;
  /** Indices of the pieces in the layer's net. */
  readonly pieces: readonly number[];
  /** All copies together. */
  readonly count: number;
  /** Index into the project's stock: what most of them lie on, or the first choice where they do not lie yet. */
  readonly stock: number;
  readonly width: number;
  readonly height: number;
}

/** Every piece that is cut, congruent ones in one row, in the order of roofs and layers. */
export function cutRows(production: Production): readonly CutRow[] {
  const stockOf = new Map<string, number>();
  for (const sheet of production.sheets)
    for (const placement of sheet.placements) stockOf.set(keyOf(placement), sheet.stock);
  const rows: CutRow[] = [];
  production.roofs.forEach((made, roof) => {
    cutLayers(made).forEach(({ net, spec }, layer) => {
      for (const [first, pieces] of alikePieces(net.pieces)) {
        const { width, height } = net.pieces[first] as Piece;
        const wanted = production.project.stock.findIndex(({ id }) => id === spec.stock[0]);
        rows.push({
          key: rows.length + 1,
          roof,
          layer,
          pieces,
          count: pieces.length * made.spec.copies,
          stock: stockOf.get(keyOf({ roof, layer, piece: first, copy: 0 })) ?? wanted,
          width,
          height,
        });
      }
    });
  });
  return rows;
}

const keyOf = ({ roof, layer, piece, copy }: PieceKey): string => `${roof} ${layer} ${piece} ${copy}`;

/** Pieces by the first that they are congruent to. */
export function alikePieces(pieces: readonly Piece[]): ReadonlyMap<number, readonly number[]> {
  const first = new Map(pieces.map(({ id }, p) => [id, p] as const));
  const groups = new Map<number, number[]>();
  pieces.forEach(({ same }, p) => {
    const root = same === undefined ? p : (first.get(same) ?? p);
    groups.set(root, [...(groups.get(root) ?? []), p]);
  });
  return groups;
}

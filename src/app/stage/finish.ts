import type { Vec2 } from '../../core/geometry/vector.ts';
import type { LaidSheet, Placement } from '../../core/layout/layout.ts';
import type { MadeLayer, MadeRoof } from '../../core/make-roof.ts';
import type { Stock } from '../../core/project/project.ts';
import { choosePrint, type Print, printTable } from './prints.ts';

/** How a layer's paper looks: its print, and the place on the print of every point of its pieces. */
export interface Finish {
  readonly print: Print;
  readonly mapping: (piece: number, p: Vec2) => Vec2;
}

/** A net point on its sheet. */
export const onSheet = ({ x, y, rotation }: Pick<Placement, 'x' | 'y' | 'rotation'>, p: Vec2): Vec2 => {
  const cos = Math.cos(rotation);
  const sin = Math.sin(rotation);
  return [cos * p[0] - sin * p[1] + x, sin * p[0] + cos * p[1] + y];
};

/**
 * The finish of a roof's layer as laid: each panel wears the very part of the sheet it is cut from (first copy).
 * Pieces that are not laid show the print from their own lower left corner.
 */
export const finishLayer = (
  roof: number,
  layer: number,
  made: MadeLayer,
  sheets: readonly LaidSheet[],
  stock: readonly Stock[],
): Finish => {
  const laid = new Map<number, Placement>();
  let used: number | undefined;
  for (const sheet of sheets) {
    for (const placement of sheet.placements) {
      if (placement.roof !== roof || placement.layer !== layer || placement.copy !== 0) continue;
      used ??= sheet.stock;
      laid.set(placement.piece, placement);
    }
  }
  const owned = used === undefined ? stock.find(({ id }) => id === made.spec.stock[0]) : stock[used];
  const print = made.spec.as === 'board' ? 'greyboard' : choosePrint(owned);
  const { repeat } = printTable[print];
  return {
    print,
    mapping: (piece, p) => {
      const placement = laid.get(piece);
      const [x, y] = placement === undefined ? p : onSheet(placement, p);
      return [x / repeat, y / repeat];
    },
  };
};

/** The layer that is folded on the bench: the outermost. */
export const topLayer = (roof: MadeRoof | undefined): { readonly index: number; readonly layer: MadeLayer } | null => {
  const layers = roof?.made?.layers ?? [];
  const layer = layers.at(-1);
  return layer === undefined ? null : { index: layers.length - 1, layer };
};

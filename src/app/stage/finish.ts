import { apply2 } from '../../core/geometry/rigid2.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { LaidSheet, Placement } from '../../core/layout/layout.ts';
import { placementMotion } from '../../core/layout/placed.ts';
import { matchSeams, type SeamMatch } from '../../core/layout/print-match.ts';
import type { MadeLayer, MadeRoof } from '../../core/make-roof.ts';
import type { Stock } from '../../core/project/project.ts';
import { followedIn, type Look, lookOf, printLook } from './prints.ts';
import { tones } from './tones.ts';

/** How a layer's papers look: the prints on them, and the place on its print of every point of a piece, in tiles. */
export interface Finish {
  readonly looks: readonly Look[];
  /** Index into `looks` of the paper a piece is cut from. */
  readonly lookAt: (piece: number) => number;
  readonly mapping: (piece: number, p: Vec2) => Vec2;
}

/** A net point on its sheet. */
export const onSheet = (placement: Pick<Placement, 'x' | 'y' | 'rotation'>, p: Vec2): Vec2 =>
  apply2(placementMotion(placement), p);

/** Which layer of which copy of a roof is dressed; indices as in `PieceKey`. */
export interface Dressed {
  readonly roof: number;
  readonly layer: number;
  readonly copy: number;
}

/**
 * The finish of a roof's layer as laid: each panel wears the very part of the sheet it is cut from.
 * Pieces that are not laid show the print from their own lower left corner.
 */
export const finishLayer = (
  { roof, layer, copy }: Dressed,
  { spec }: Pick<MadeLayer, 'spec'>,
  sheets: readonly LaidSheet[],
  stock: readonly Stock[],
): Finish => {
  const laid = new Map<number, { readonly stock: number; readonly placement: Placement }>();
  for (const { stock: paper, placements } of sheets) {
    for (const placement of placements) {
      if (placement.roof !== roof || placement.layer !== layer || placement.copy !== copy) continue;
      laid.set(placement.piece, { stock: paper, placement });
    }
  }
  const usual = stock.findIndex(({ id }) => id === spec.stock[0]);
  const used = [...new Set([...laid.values()].map((one) => one.stock))];
  const papers = used.length === 0 ? [usual] : used;
  const looks = papers.map((one) => lookOfLayer(spec, stock[one]));
  const lookAt = (piece: number): number => Math.max(0, papers.indexOf(laid.get(piece)?.stock ?? usual));
  return {
    looks,
    lookAt,
    mapping: (piece, p) => {
      const found = laid.get(piece);
      const [x, y] = found === undefined ? p : onSheet(found.placement, p);
      const { tile } = looks[lookAt(piece)] as Look;
      return [x / tile, y / tile];
    },
  };
};

/** Board that no print is glued to is grey. */
const lookOfLayer = ({ as }: MadeLayer['spec'], stock: Stock | undefined): Look =>
  as === 'board' && !stock?.print && !stock?.picture ? printLook('greyboard') : lookOf(stock);

/** What is seen of a layer where it is not printed: board is grey through and through. */
export const insideTone = ({ spec }: Pick<MadeLayer, 'spec'>): string =>
  spec.as === 'board' ? tones.greyboard : tones.wrongSide;

/** The layer that is folded on the bench: the outermost. */
export const topLayer = (roof: MadeRoof | undefined): { readonly index: number; readonly layer: MadeLayer } | null => {
  const layers = roof?.made?.layers ?? [];
  const layer = layers.at(-1);
  return layer === undefined ? null : { index: layers.length - 1, layer };
};

/** How the prints of a layer go over its seams, as laid. */
export const seamsOf = (
  { solid, net, spec }: MadeLayer,
  dressed: Dressed,
  sheets: readonly LaidSheet[],
  stock: readonly Stock[],
): readonly SeamMatch[] =>
  matchSeams(solid, net, dressed, sheets, (paper) => followedIn(lookOfLayer(spec, stock[paper])));

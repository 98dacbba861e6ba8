import { cutLayers } from './cut-layers.ts';
import { type Box, pathLength, ringLength } from './geometry/polygon.ts';
import type { Vec2 } from './geometry/vector.ts';
import { sheetArea } from './layout/lay-sheets.ts';
import type { LaidSheet } from './layout/layout.ts';
import { laidRing } from './layout/placed.ts';
import { sheetPrice } from './layout/preference.ts';
import { restRectangles } from './layout/rest.ts';
import { type TrimPlan, trimCuts } from './layout/strips/trim-cuts.ts';
import { rectangle } from './layout/usable.ts';
import type { MadeRoof } from './make-roof.ts';
import { type SeamJoin, scoredLines } from './net/net.ts';
import type { Project, Stock } from './project/project.ts';

export interface StockUse {
  /** Index into the project's stock. */
  readonly stock: number;
  readonly sheets: number;
  /** mm² under pieces. */
  readonly area: number;
  /** Share of the area of its sheets, 0 to 1; 0 where there are none. */
  readonly used: number;
  /** Of its sheets, where the stock has a price. */
  readonly price?: { readonly amount: number; readonly currency: string };
}

export interface Materials {
  readonly byStock: readonly StockUse[];
  /** mm of seam joined by tape, of cutting and of scoring, all copies. */
  readonly tape: number;
  readonly cut: number;
  readonly score: number;
  /** mm of seam between boards, glued edge to edge, all copies. */
  readonly glue: number;
}

export function countMaterials(project: Project, roofs: readonly MadeRoof[], sheets: readonly LaidSheet[]): Materials {
  const byStock = project.stock.map((one, stock) =>
    useOf(
      one,
      stock,
      sheets.filter((sheet) => sheet.stock === stock),
    ),
  );
  let [tape, cut, score, glue] = [0, 0, 0, 0];
  for (const roof of roofs) {
    const { spec } = roof;
    for (const { solid, net } of cutLayers(roof)) {
      const along = (join: SeamJoin): number =>
        net.seams.reduce((sum, seam) => sum + (seam.join === join ? (solid.edges[seam.edge]?.length ?? 0) : 0), 0);
      tape += spec.copies * along('tape');
      glue += spec.copies * along('glue');
      for (const piece of net.pieces) {
        cut += spec.copies * ringLength(piece.outline);
        score += spec.copies * scoredLines(piece).reduce((sum, { points }) => sum + pathLength(points), 0);
      }
    }
  }
  return { byStock, tape, cut, score, glue };
}

function useOf(one: Stock, stock: number, sheets: readonly LaidSheet[]): StockUse {
  const whole = sheetArea(one);
  const area = sheets.reduce((sum, { used }) => sum + used * whole, 0);
  const price = sheetPrice(one);
  return {
    stock,
    sheets: sheets.length,
    area,
    used: sheets.length === 0 ? 0 : area / (whole * sheets.length),
    ...(price !== null && one.price ? { price: { amount: price * sheets.length, currency: one.price.currency } } : {}),
  };
}

/** The outlines of the pieces on a sheet, where they lie. */
export const ringsOn = (
  roofs: readonly MadeRoof[],
  sheet: Pick<LaidSheet, 'placements'>,
): readonly (readonly Vec2[])[] =>
  sheet.placements.flatMap((placement) => {
    const roof = roofs[placement.roof];
    const piece = roof && cutLayers(roof)[placement.layer]?.net.pieces[placement.piece];
    return piece ? [laidRing(piece, placement)] : [];
  });

/** How the pieces on a sheet are cut apart with a paper trimmer. */
export const trimPlanOf = (roofs: readonly MadeRoof[], sheet: LaidSheet): TrimPlan =>
  trimCuts(ringsOn(roofs, sheet), rectangle(0, 0, sheet.width, sheet.height));

/** What is left of a sheet as upright rectangles, the largest first. */
export const restsOf = ({ stock }: Project, roofs: readonly MadeRoof[], sheet: LaidSheet): readonly Box[] =>
  restRectangles(stock[sheet.stock] as Stock, ringsOn(roofs, sheet));

import { ringArea } from '../geometry/polygon.ts';
import type { Stock } from '../project/project.ts';
import type { LayoutJob } from './job.ts';
import { keyOf, type LaidSheet, type Layout, type Placement } from './layout.ts';
import { sheetRing } from './usable.ts';

/** A placement and the sheet that it is on. */
export interface Spot {
  readonly stock: number;
  readonly index: number;
  readonly placement: Placement;
}

/** Sheets with what lies on them, from placements in any order; pieces without a placement are left out. */
export function laySheets(job: Pick<LayoutJob, 'pieces' | 'stock'>, spots: readonly Spot[]): Layout {
  const areas = new Map(job.pieces.map((piece) => [keyOf(piece), ringArea(piece.outline)]));
  const sheets = new Map<string, Spot[]>();
  for (const spot of spots) {
    const key = `${spot.stock}/${spot.index}`;
    const on = sheets.get(key);
    if (on) on.push(spot);
    else sheets.set(key, [spot]);
  }
  const laid = [...sheets.values()].map((on): LaidSheet => {
    const [{ stock: s, index }] = on as [Spot];
    const placements = on.map(({ placement }) => placement);
    const area = placements.reduce((sum, placement) => sum + (areas.get(keyOf(placement)) ?? 0), 0);
    return {
      ...blankSheet(job.stock[s] as Stock, s, index),
      used: area / sheetArea(job.stock[s] as Stock),
      placements,
    };
  });
  const found = new Set(spots.map(({ placement }) => keyOf(placement)));
  return {
    sheets: laid.sort((a, b) => a.stock - b.stock || a.index - b.index),
    leftOut: job.pieces.flatMap((piece, i) => (found.has(keyOf(piece)) ? [] : [i])),
  };
}

/** A sheet with nothing on it. */
const blankSheet = (
  { width, height, outline }: Stock,
  stock: number,
  index: number,
): Omit<LaidSheet, 'used' | 'placements'> => ({
  stock,
  index,
  width,
  height,
  ...(outline ? { outline } : {}),
});

/** mm². */
export const sheetArea = (stock: Stock): number => ringArea(sheetRing(stock));

/** What stays where it is. */
export const fixedSpots = ({ fixed }: LayoutJob): readonly Spot[] =>
  fixed.flatMap(({ stock, index, placements }) => placements.map((placement) => ({ stock, index, placement })));

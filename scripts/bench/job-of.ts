import type { LayoutJob } from '../../src/core/layout/job.ts';
import type { PieceToLay } from '../../src/core/layout/layout.ts';
import { rectangle } from '../../src/core/layout/usable.ts';
import type { LayoutSpec, Stock } from '../../src/core/project/project.ts';

interface Item {
  readonly w: number;
  readonly h: number;
  /** Missing: a rectangle. */
  readonly outline?: PieceToLay['outline'];
}

/** Items to be laid on sheets of one size. */
export function jobOf(
  items: readonly Item[],
  [width, height]: readonly [number, number],
  { direction, count, cuts }: Pick<Stock, 'direction' | 'count'> & Pick<LayoutSpec, 'cuts'>,
): LayoutJob {
  return {
    pieces: items.map(({ w, h, outline = rectangle(0, 0, w, h) }, piece): PieceToLay => {
      const id = String(piece);
      const key = { roof: 0, layer: 0, piece, copy: 0, id, fingerprint: '', title: id, path: '' };
      return { ...key, outline, width: w, height: h, stock: [0] };
    }),
    stock: [{ id: 'sheet', name: 'Sheet', width, height, count, thickness: 0, direction, margin: 0, gap: 0 }],
    rules: { cuts, prefer: 'sheets', offcuts: 'as-listed' },
    fixed: [],
    seed: 1,
  };
}

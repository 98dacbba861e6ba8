import type { LayoutSpec, Stock } from '../project/project.ts';
import type { LaidSheet, PieceToLay } from './layout.ts';
import { orderOfStocks } from './preference.ts';

/** All that laying needs: plain data that can be sent to a worker. */
export interface LayoutJob {
  readonly pieces: readonly PieceToLay[];
  readonly stock: readonly Stock[];
  readonly rules: LayoutSpec;
  /** What lies where it is and stays there. */
  readonly fixed: readonly LaidSheet[];
  readonly seed: number;
}

/** The job without what laying has no use for, each piece's papers in the order in which they are to be used. */
export function readyLayout(job: LayoutJob): LayoutJob {
  const stock = job.stock.map(({ picture: _, ...one }) => one);
  const order = orderOfStocks(stock, job.rules);
  return { ...job, stock, pieces: job.pieces.map((piece) => ({ ...piece, stock: order(piece.stock) })) };
}

import type { Direction, Stock } from '../project/project.ts';
import type { LayoutJob } from './job.ts';
import { fixedSpots, laySheets } from './lay-sheets.ts';
import { keyOf, type Layout } from './layout.ts';
import type { NestLayout, NestPiece, NestProblem, NestSheet, Ring, Turns } from './nest/nest.ts';
import { laidRing } from './placed.ts';
import { usableRings } from './usable.ts';

/** A problem for the search, and how its layouts are read. */
export interface NestTask {
  readonly problem: NestProblem;
  readonly read: (layout: NestLayout) => Layout;
}

const turns: Readonly<Record<Direction, Turns>> = { 'one-way': [0], 'two-way': [0, Math.PI], any: 'any' };

/** The job as the search takes it: sheets less their margins, what is fixed as rings that lie there. */
export function nestTask(job: LayoutJob): NestTask {
  const fixed = fixedSpots(job);
  const byKey = new Map(job.pieces.map((piece) => [keyOf(piece), piece]));
  const done = new Set(fixed.map(({ placement }) => keyOf(placement)));
  const free = job.pieces.filter((piece) => !done.has(keyOf(piece)));
  const kinds = job.stock.flatMap((stock, s) => {
    const parts = usableRings(stock);
    return parts.length > 0 ? [{ s, stock, parts }] : [];
  });
  const sheets = kinds.map(({ s, stock, parts }): NestSheet => {
    const on = fixed.filter((spot) => spot.stock === s);
    const last = Math.max(-1, ...on.map(({ index }) => index));
    const taken = Array.from({ length: last + 1 }, (_, index) =>
      on.flatMap(({ index: own, placement }): readonly Ring[] => {
        const piece = byKey.get(keyOf(placement));
        return own === index && piece ? [laidRing(piece, placement)] : [];
      }),
    );
    return { parts, count: stock.count, gap: stock.gap, taken };
  });
  const pieces = free.map(
    ({ outline, stock }): NestPiece => ({
      outline,
      choices: stock.flatMap((s) => {
        const kind = kinds.findIndex((one) => one.s === s);
        return kind < 0 ? [] : [{ kind, turns: turns[(job.stock[s] as Stock).direction] }];
      }),
    }),
  );
  const read = ({ placements }: NestLayout): Layout =>
    laySheets(job, [
      ...fixed,
      ...placements.map(({ piece: i, kind, sheet, x, y, rotation }) => {
        const { roof, layer, piece, copy } = free[i] as (typeof free)[number];
        const stock = (kinds[kind] as (typeof kinds)[number]).s;
        return { stock, index: sheet, placement: { roof, layer, piece, copy, x, y, rotation } };
      }),
    ]);
  return { problem: { pieces, sheets }, read };
}

import { type Construction, layInOrder, leftmost, lowest } from './construct.ts';
import { costOf } from './cost.ts';
import { type Job, readyJob } from './job.ts';
import type { NestLayout, NestOptions, NestPlacement, NestProblem, NestStep } from './problem.ts';

export type {
  NestChoice,
  NestLayout,
  NestOptions,
  NestPiece,
  NestPlacement,
  NestProblem,
  NestSheet,
  NestStep,
  Ring,
  Turns,
} from './problem.ts';

/**
 * Lays pieces on sheets: every layout handed out is complete and valid, each better than those before it. The same problem, seed
 * and rounds give the same layouts to the last digit. Stops after the rounds asked for, or when nothing can be gained.
 */
export function* nestSheets(problem: NestProblem, _options: NestOptions): Generator<NestStep, void> {
  const job = readyJob(problem);
  let best: NestLayout | null = null;
  for (const construction of firstTries(job)) {
    const cost = costOf(job, construction);
    const isBetter = best === null || cost < best.cost;
    if (best === null || isBetter) best = layoutOf(construction, cost);
    yield { layout: best, isBetter };
  }
}

function* firstTries(job: Job): Generator<Construction> {
  const heights = job.pieces.map(({ poses }) => Math.max(0, ...poses.flat().map(({ shape }) => shape.height)));
  const indices = job.pieces.map((_, i) => i);
  const byArea = indices.toSorted((a, b) => job.pieces[b]!.area - job.pieces[a]!.area || a - b);
  const byHeight = indices.toSorted((a, b) => heights[b]! - heights[a]! || a - b);
  for (const order of [byArea, byHeight]) for (const wish of [leftmost, lowest]) yield layInOrder(job, order, wish);
}

function layoutOf({ sheets, leftOut }: Construction, cost: number): NestLayout {
  const placements = sheets.flatMap(({ kind, sheet, laid }) =>
    laid.map(
      ({ piece, pose, x, y }): NestPlacement => ({
        piece,
        kind,
        sheet,
        x: x + pose.shift[0],
        y: y + pose.shift[1],
        rotation: pose.rotation,
      }),
    ),
  );
  return {
    placements: placements.sort((a, b) => a.piece - b.piece),
    leftOut: leftOut.toSorted((a, b) => a - b),
    cost,
  };
}

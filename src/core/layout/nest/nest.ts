import { seeded } from '../../random.ts';
import { type Construction, layInOrder, leftmost, lowest, openSheet } from './construct.ts';
import { convexHull } from './convex.ts';
import { costOf } from './cost.ts';
import { type Job, readyJob, withTurns } from './job.ts';
import type { NestLayout, NestOptions, NestPlacement, NestProblem, NestStep } from './problem.ts';
import { improveSheets } from './sheets.ts';

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
export { nestStrip, type StripPiece, type StripStep } from './strip.ts';

/**
 * Lays pieces on sheets: every layout handed out is complete and valid, each better than those before it. The same problem, seed
 * and rounds give the same layouts to the last digit. Stops after the rounds asked for, or when nothing can be gained.
 */
export function* nestSheets(asked: NestProblem, { seed, rounds, share }: NestOptions): Generator<NestStep, void> {
  // Hulls and pieces are turned alike, so that a layout of the ones is one of the others.
  const problem = withTurns(asked);
  const hulls = readyJob({
    ...problem,
    pieces: problem.pieces.map((piece) => ({ ...piece, outline: convexHull(piece.outline) })),
  });
  const quick = layInOrder(hulls, byArea(hulls), leftmost);
  let layout = layoutOf(hulls, quick);
  yield { layout, isBetter: true };

  const job = readyJob(problem);
  let best = takenOver(job, quick);
  for (const construction of firstTries(job)) {
    const isBetter = costOf(job, construction) < layout.cost;
    if (isBetter) [best, layout] = [construction, layoutOf(job, construction)];
    yield { layout, isBetter };
  }
  let step = 0;
  const isOver = (): boolean => (share ? share(step) : step / Math.max(1, rounds)) >= 1;
  if (rounds === 0 && !share) return;
  for (const found of improveSheets(job, best, seeded(seed))) {
    if (found) layout = layoutOf(job, found);
    step++;
    yield { layout, isBetter: found !== null };
    if (isOver()) return;
  }
}

const byArea = ({ pieces }: Job): number[] =>
  pieces.map((_, i) => i).sort((a, b) => pieces[b]!.area - pieces[a]!.area || a - b);

function* firstTries(job: Job): Generator<Construction> {
  for (const wish of [leftmost, lowest]) yield layInOrder(job, byArea(job), wish);
}

/** A layout of the pieces' hulls as one of the pieces themselves. */
function takenOver(job: Job, { sheets, leftOut }: Construction): Construction {
  return {
    sheets: sheets.map(({ kind, sheet, laid }) => ({
      ...openSheet(job, kind, sheet),
      laid: laid.map((one) => {
        const poses = job.pieces[one.piece]!.poses[kind]!;
        return { ...one, pose: poses.find(({ rotation }) => rotation === one.pose.rotation)! };
      }),
    })),
    leftOut,
  };
}

function layoutOf(job: Job, construction: Construction): NestLayout {
  const { sheets, leftOut } = construction;
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
    cost: costOf(job, construction),
  };
}

import { type Random, seeded } from '../../random.ts';
import { type Construction, layInOrder, leftmost, lowest } from './construct.ts';
import { costOf } from './cost.ts';
import { type Job, readyJob, withTurns } from './job.ts';
import { alone, pairUp, takenApart } from './pairs.ts';
import type { NestLayout, NestOptions, NestPlacement, NestProblem, NestStep } from './problem.ts';
import { improveSheets } from './sheets.ts';
import { mayBeSpared } from './trial.ts';

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

/** Attempts in a row without gain after which units are taken apart, and those after which a layout is taken for final. */
const VAIN = { joined: 10, apart: 200 } as const;

/**
 * Lays pieces on sheets: every layout handed out is complete and valid, each better than those before it. Repeated pieces are first
 * laid two by two. The same problem, seed and rounds give the same layouts to the last digit. Stops after the rounds asked for, or
 * when nothing can be gained.
 */
export function* nestSheets(asked: NestProblem, { seed, rounds, share }: NestOptions): Generator<NestStep, void> {
  const problem = withTurns(asked);
  const job = readyJob(problem);
  let best: Construction = { sheets: [], leftOut: [] };
  let layout: NestLayout = { placements: [], leftOut: [], cost: Number.POSITIVE_INFINITY };
  const offer = (found: Construction | null): NestStep => {
    const isBetter = found !== null && costOf(job, found) < layout.cost;
    if (isBetter) [best, layout] = [found, layoutOf(job, found)];
    return { layout, isBetter };
  };
  const onceMore = function* (): Generator<NestStep> {
    for (const wish of [leftmost, lowest]) yield offer(layInOrder(job, byArea(job), wish));
  };
  const units = pairUp(problem, job);
  const joined = readyJob({ ...problem, pieces: units });
  const first = layInOrder(joined, byArea(joined), leftmost);
  offer(takenApart(job, problem, units, first));
  if (best.leftOut.length > 0 || mayBeSpared(job, best)) {
    const single = problem.pieces.map((_, piece) => alone(problem, piece));
    const hulls = readyJob({ ...problem, pieces: single });
    offer(takenApart(job, problem, single, layInOrder(hulls, byArea(hulls), leftmost)));
  }
  yield { layout, isBetter: true };
  const [isAll, short] = [rounds === 0 && !share, best.leftOut.length];
  if (isAll || short > 0) yield* onceMore();
  if (isAll) return;

  let step = 0;
  const isOver = (): boolean => (share ? share(step) : step / Math.max(1, rounds)) >= 1;
  const random = seeded(seed);
  // Units that take a sheet more than the pieces by themselves are no help.
  if (units.length < problem.pieces.length && costOf(joined, first) <= Math.ceil(layout.cost)) {
    for (const found of fromStarts(joined, byArea(joined), first, random)) {
      step++;
      yield offer(found && takenApart(job, problem, units, found));
      if (isOver()) return;
    }
  }
  if (short === 0 && mayBeSpared(job, best)) yield* onceMore();
  for (const found of improveSheets(job, best, random, VAIN.apart)) {
    step++;
    yield offer(found);
    if (isOver()) return;
  }
}

/** Further starts, the orders that are laid for each, and how far a piece may go astray in them. */
const STARTS = 2;
const ORDERS = 4;
const ASTRAY = 3;
/** Steps that each start is given before the best goes on. */
const TRIAL = 25;

/**
 * Makes the first layout better for some steps, then likewise a few that are laid in other orders, each the best of several; the one
 * that came farthest goes on. Yields after every bit of work, what it found where that is better than its own start.
 */
function* fromStarts(
  job: Job,
  order: readonly number[],
  first: Construction,
  random: Random,
): Generator<Construction | null, void> {
  let best: Construction | null = null;
  for (let s = 0; s <= STARTS; s++) {
    let own = s === 0 ? first : yield* laidAstray(job, order, random);
    let steps = 0;
    for (const found of improveSheets(job, own, random, VAIN.joined)) {
      own = found ?? own;
      yield found;
      if (++steps >= TRIAL) break;
    }
    if (best === null || costOf(job, own) < costOf(job, best)) best = own;
  }
  yield* improveSheets(job, best ?? first, random, VAIN.joined);
}

/** The best of layouts in several orders. */
function* laidAstray(job: Job, order: readonly number[], random: Random): Generator<Construction, Construction> {
  let best: Construction | null = null;
  for (let k = 0; k < ORDERS || best === null; k++) {
    const laid = layInOrder(job, astray(order, random), k % 2 === 0 ? lowest : leftmost);
    if (best === null || costOf(job, laid) < costOf(job, best)) best = laid;
    yield laid;
  }
  return best;
}

/** An order with everything a little before or after its place. */
const astray = (order: readonly number[], random: Random): readonly number[] =>
  order
    .map((piece, i) => ({ piece, place: i + random() * ASTRAY }))
    .sort((a, b) => a.place - b.place)
    .map(({ piece }) => piece);

const byArea = ({ pieces }: Job): number[] =>
  pieces.map((_, i) => i).sort((a, b) => pieces[b]!.area - pieces[a]!.area || a - b);

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

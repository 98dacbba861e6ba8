import type { Random } from '../../random.ts';
import type { Construction } from './construct.ts';
import { costOf } from './cost.ts';
import type { Spots } from './field.ts';
import type { Job } from './job.ts';
import { Mover } from './move.ts';
import { inBits, type Patience, separate } from './separate.ts';
import { swapTwo } from './swap.ts';
import { addLeftOut, emptySheet, layoutFrom, pressLast, type Trial } from './trial.ts';

/** After so many, two pieces change places before each further one. */
const STUCK = 4;
/** Shares of the last sheet's used length taken off at a time. */
const BOLD = 0.05;
const TIMID = 0.002;
/** Attempts to press between two to empty, at most. */
const MOST_PAUSE = 3;
const EMPTYING: Patience = { rounds: 80, strikes: 2 };
const PRESSING: Patience = { rounds: 25, strikes: 1 };

/**
 * Makes a layout better: brings in pieces that have no place, empties a sheet onto the others, and presses together what lies on the
 * sheet with the most room. Yields after every bit of work, what it found where that is better; ends when so many attempts in a row
 * gained nothing.
 */
export function* improveSheets(
  job: Job,
  start: Construction,
  random: Random,
  patience: number,
): Generator<Construction | null, void> {
  let best = start;
  let cut = BOLD;
  let vain = 0;
  // Emptying a sheet is tried less and less often while it does not succeed.
  let [untilWide, pause] = [0, 1];
  let nearest: Nearest | null = null;
  // The press that left the least overlap since the layout was last made better.
  let pressed: Nearest | null = null;
  while (vain < patience) {
    const wide: Trial | null = untilWide-- <= 0 ? wideTrial(job, best, nearest, random) : null;
    const isStuck = vain > STUCK;
    const again: Nearest | null = !wide && isStuck && pressed !== null && random() < AGAIN ? pressed : null;
    const trial: Trial | null = wide ?? (again ? restored(again) : pressLast(job, best, cut, random));
    if (!trial) return;
    if (!wide && isStuck) swapTwo(trial.field, random);
    const mover = new Mover(trial.field, random);
    const search = inBits(separate(trial.field, mover, random, wide ? EMPTYING : PRESSING), mover);
    let turn = search.next();
    while (!turn.done) {
      yield null;
      turn = search.next();
    }
    const { isDone, spots, loss } = turn.value;
    const found = isDone ? layoutFrom(job, trial, spots) : null;
    const isBetter = found !== null && costOf(job, found) < costOf(job, best);
    if (isBetter) best = found;
    vain = isBetter ? 0 : vain + 1;
    if (isBetter || (again && isDone)) pressed = null;
    if (wide) {
      [untilWide, pause] = isBetter ? [0, 1] : [pause, Math.min(MOST_PAUSE, pause + 1)];
      if (isDone) nearest = null;
      else if (nearest === null || loss < nearest.loss) nearest = { trial, spots, loss };
    } else {
      if (isStuck && !isDone && (pressed === null || loss < pressed.loss)) pressed = { trial, spots, loss };
      cut = isBetter ? Math.min(BOLD, cut * 2.5) : Math.max(TIMID, cut / 2);
    }
    yield isBetter ? found : null;
  }
}

/** The attempt to empty a sheet, or to bring in further pieces, that left the least overlap. */
interface Nearest {
  readonly trial: Trial;
  readonly spots: Spots;
  readonly loss: number;
}

/** Share of attempts that go on from the nearest miss. */
const AGAIN = 0.75;

function wideTrial(job: Job, best: Construction, nearest: Nearest | null, random: Random): Trial | null {
  if (!nearest || random() > AGAIN) return addLeftOut(job, best, random) ?? emptySheet(job, best, random);
  const trial = restored(nearest);
  swapTwo(trial.field, random);
  return trial;
}

function restored({ trial, spots }: Nearest): Trial {
  trial.field.restore(spots);
  trial.field.resetWeights();
  return trial;
}

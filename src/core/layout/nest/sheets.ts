import type { Random } from '../../random.ts';
import type { Construction } from './construct.ts';
import { costOf } from './cost.ts';
import type { Job } from './job.ts';
import { Mover } from './move.ts';
import { inBits, type Patience, separate } from './separate.ts';
import { addLeftOut, emptySheet, layoutFrom, pressLast } from './trial.ts';

/** Attempts in a row that gain nothing until the search takes the layout for final. */
const VAIN = 60;
/** Shares of the last sheet's used length taken off at a time. */
const BOLD = 0.1;
const TIMID = 0.002;
const PATIENCE: Patience = { rounds: 80, strikes: 2 };

/**
 * Makes a layout better: brings in pieces that have no place, empties a sheet onto the others, and presses together what lies on the
 * sheet with the most room. Yields after every bit of work, what it found where that is better; ends when many attempts in a row
 * gained nothing.
 */
export function* improveSheets(job: Job, start: Construction, random: Random): Generator<Construction | null, void> {
  let best = start;
  let cut = BOLD;
  let vain = 0;
  for (let attempt = 0; vain < VAIN; attempt++) {
    const wide = attempt % 2 === 0 ? (addLeftOut(job, best, random) ?? emptySheet(job, best, random)) : null;
    const trial = wide ?? pressLast(job, best, cut, random);
    if (!trial) return;
    const mover = new Mover(trial.field, random);
    const search = inBits(separate(trial.field, mover, random, PATIENCE), mover);
    let turn = search.next();
    while (!turn.done) {
      yield null;
      turn = search.next();
    }
    const found = turn.value.isDone ? layoutFrom(job, trial, turn.value.spots) : null;
    const isBetter = found !== null && costOf(job, found) < costOf(job, best);
    if (isBetter) best = found;
    vain = isBetter ? 0 : vain + 1;
    if (!wide) cut = isBetter ? Math.min(BOLD, cut * 1.5) : Math.max(TIMID, cut / 2);
    yield isBetter ? found : null;
  }
}

import type { Random } from '../../random.ts';
import type { Field, Spots } from './field.ts';
import type { Mover } from './move.ts';

export interface Patience {
  /** Rounds without progress until a strike, and strikes until it gives up. */
  readonly rounds: number;
  readonly strikes: number;
}

/** Least progress that counts: a total of losses this much smaller. */
const PROGRESS = 0.98;

export interface Separation {
  readonly isDone: boolean;
  /** Where it came nearest. */
  readonly spots: Spots;
  readonly loss: number;
}

/** Moves overlapping pieces, one after the other in random order, until none overlaps or patience ends. Yields after every round. */
export function* separate(field: Field, mover: Mover, random: Random, patience: Patience): Generator<void, Separation> {
  let loss = field.addUp();
  let spots = field.spots();
  for (let strike = 0; strike < patience.strikes && loss > 0; strike++) {
    if (strike > 0) field.restore(spots);
    let before = loss;
    for (let idle = 0; idle < patience.rounds; idle++) {
      const order: number[] = [];
      for (let item = 0; item < field.count; item++) if (field.own[item]! > 0) order.push(item);
      shuffle(order, random);
      for (const item of order) if (field.own[item]! > 0) mover.move(item);
      const total = field.addUp();
      if (total < loss) {
        loss = total;
        spots = field.spots();
        if (total === 0) return { isDone: true, spots, loss };
        if (total < before * PROGRESS) {
          before = total;
          idle = -1;
        }
      }
      field.learn();
      yield;
    }
  }
  return { isDone: loss === 0, spots, loss };
}

/** Points asked about in one bit of work. */
const BIT = 5_000;

/** The same search, yielding only after about so much work. */
export function* inBits(search: Generator<void, Separation>, mover: Mover): Generator<void, Separation> {
  let worked = mover.work;
  for (;;) {
    const { done, value } = search.next();
    if (done) return value;
    if (mover.work - worked < BIT) continue;
    worked = mover.work;
    yield;
  }
}

export function shuffle(list: number[], random: Random): void {
  for (let i = list.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    const kept = list[i]!;
    list[i] = list[j]!;
    list[j] = kept;
  }
}

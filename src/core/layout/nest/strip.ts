import { type Random, seeded } from '../../random.ts';
import { layInOrder, leftmost } from './construct.ts';
import { type Bin, Field, type Spots } from './field.ts';
import { type Job, readyJob } from './job.ts';
import { Mover } from './move.ts';
import type { NestOptions, NestPlacement, Ring, Turns } from './problem.ts';
import { inBits, type Patience, type Separation, separate } from './separate.ts';
import { swapTwo } from './swap.ts';

export interface StripPiece {
  readonly outline: Ring;
  readonly turns: Turns;
}

export interface StripStep {
  readonly length: number;
  readonly placements: readonly NestPlacement[];
  readonly isBetter: boolean;
}

/** Share of the work spent on large changes; the rest presses the best layout together. */
const EXPLORING = 0.8;
const EXPLORE: Patience = { rounds: 100, strikes: 2 };
const PRESS: Patience = { rounds: 60, strikes: 3 };
/** Shares of the length taken off at a time. */
const BOLD = 0.02;
const TIMID = 0.001;
const PRESS_FROM = 0.0005;
const PRESS_TO = 0.00001;
const MOST_MISSES = 20;
/** Share of the misses within one standard deviation of the nearest. */
const SPREAD = 0.25;

/**
 * All pieces on one strip of the given height, as short as can be found. Yields the best so far after every bit of work. Each piece
 * must fit the height at one of its turns; the same pieces, seed and rounds give the same strips.
 */
export function* nestStrip(
  pieces: readonly StripPiece[],
  height: number,
  { seed, rounds, share }: NestOptions,
): Generator<StripStep, void> {
  const random = seeded(seed);
  const long = pieces.reduce((sum, { outline }) => sum + spanOf(outline), 0);
  const sheet: Ring = [
    [0, 0],
    [long, 0],
    [long, height],
    [0, height],
  ];
  const job = readyJob({
    pieces: pieces.map(({ outline, turns }) => ({ outline, choices: [{ kind: 0, turns }] })),
    sheets: [{ parts: [sheet], count: 1, gap: 0, taken: [] }],
  });
  const bin: Bin = { kind: 0, gap: 0, minX: 0, minY: 0, maxX: long, maxY: height };
  const field = new Field(job.shapes, job.pieces, [bin], []);
  const mover = new Mover(field, random);
  startFrom(job, field);
  let best = field.spots();
  let length = pressedLength(field);
  let step = 0;
  const done = (): number => (share ? share(step) : step / Math.max(1, rounds));
  let isBetter = true;
  const result = (): StripStep => ({ length, placements: placementsOf(field, best), isBetter });
  yield result();
  isBetter = false;

  const misses = new NearMisses();
  let cut = BOLD;
  bin.maxX = length;
  while (done() < 1) {
    const exploring = done() < EXPLORING;
    const target = exploring
      ? length * (1 - cut)
      : length * (1 - PRESS_FROM * (PRESS_TO / PRESS_FROM) ** Math.max(0, (done() - EXPLORING) / (1 - EXPLORING)));
    if (!exploring || misses.isEmpty) {
      bin.maxX = length;
      field.restore(best);
      shorten(field, bin, target, random);
    } else {
      bin.maxX = target;
      field.restore(misses.pick(random));
      swapTwo(field, random);
    }
    field.resetWeights();
    const search = inBits(separate(field, mover, random, exploring ? EXPLORE : PRESS), mover);
    let turn = search.next();
    while (!turn.done) {
      step++;
      yield result();
      isBetter = false;
      if (done() >= 1) return;
      turn = search.next();
    }
    const { value } = turn;
    step++;
    if (value.isDone) {
      best = value.spots;
      length = pressedLength(field);
      bin.maxX = length;
      isBetter = true;
      misses.clear();
      if (exploring) cut = Math.min(BOLD, cut * 1.2);
    } else if (exploring && cut > TIMID) {
      cut = Math.max(TIMID, cut / 2);
      misses.clear();
    } else if (exploring) misses.add(value);
  }
  yield result();
}

/** Layouts of one length in which little overlaps. */
class NearMisses {
  private readonly list: Separation[] = [];

  get isEmpty(): boolean {
    return this.list.length === 0;
  }

  clear(): void {
    this.list.length = 0;
  }

  add(miss: Separation): void {
    this.list.push(miss);
    this.list.sort((a, b) => a.loss - b.loss);
    if (this.list.length > MOST_MISSES) this.list.pop();
  }

  /** One of the nearer ones, by chance. */
  pick(random: Random): Spots {
    const { list } = this;
    const at = Math.floor(Math.abs(bell(random)) * SPREAD * list.length);
    return list[Math.min(list.length - 1, at)]!.spots;
  }
}

/** Greatest distance that an outline can span at any angle, and more. */
const spanOf = (ring: Ring): number =>
  ring.reduce((sum, [x, y], i) => {
    const [px, py] = ring.at(i - 1)!;
    return sum + Math.sqrt((x - px) ** 2 + (y - py) ** 2);
  }, 0);

function startFrom(job: Job, field: Field): void {
  const order = job.pieces.map((_, i) => i).sort((a, b) => job.pieces[b]!.area - job.pieces[a]!.area || a - b);
  const { sheets } = layInOrder(job, order, leftmost);
  for (const { piece, pose, x, y } of sheets[0]!.laid) field.put(piece, 0, field.posesIn(piece, 0).indexOf(pose), x, y);
}

/** Length that the pieces take. */
function pressedLength(field: Field): number {
  let length = 0;
  for (let item = 0; item < field.count; item++) length = Math.max(length, field.x[item]! + field.shapeOf[item]!.width);
  return length;
}

/** Takes a slice out of the strip at a random place: what lies right of it moves left. */
function shorten(field: Field, bin: Bin, target: number, random: Random): void {
  const off = bin.maxX - target;
  const at = random() * bin.maxX;
  bin.maxX = target;
  for (let item = 0; item < field.count; item++) {
    const middle = field.x[item]! + field.shapeOf[item]!.width / 2;
    field.put(item, 0, field.pose[item]!, field.x[item]! - (middle > at ? off : 0), field.y[item]!);
  }
  field.measureAll();
}

/** Normally distributed, by the sum of twelve. */
function bell(random: Random): number {
  let sum = -6;
  for (let k = 0; k < 12; k++) sum += random();
  return sum;
}

function placementsOf(field: Field, spots: Spots): readonly NestPlacement[] {
  return field.items.map(({ poses }, piece) => {
    const { shift, rotation } = poses[0]![spots.pose[piece]!]!;
    return { piece, kind: 0, sheet: 0, x: spots.x[piece]! + shift[0], y: spots.y[piece]! + shift[1], rotation };
  });
}

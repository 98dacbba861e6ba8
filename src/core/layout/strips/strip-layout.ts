import { type Box, boxOf, ringArea } from '../../geometry/polygon.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import type { Direction, Stock } from '../../project/project.ts';
import { type Random, seeded } from '../../random.ts';
import { costOf, isCheaper } from '../compare.ts';
import type { LayoutEffort } from '../effort.ts';
import type { LayoutJob } from '../job.ts';
import { fixedSpots, laySheets, type Spot } from '../lay-sheets.ts';
import { keyOf, type Layout, type PieceToLay } from '../layout.ts';
import { laidRing } from '../placed.ts';
import { emptyRectangles } from '../rectangles.ts';
import { offsetRing, usableRings } from '../usable.ts';
import { type FillRules, fillRectangle, type StripItem } from './fill.ts';
import { poseOf } from './slide.ts';

/** Empty rectangles of an offcut, or beside what is fixed, that are cut into strips. */
const MOST_RECTANGLES = 4;
const quarters: Readonly<Record<Direction, readonly number[]>> = {
  'one-way': [0],
  'two-way': [0, 2],
  any: [0, 1, 2, 3],
};
/** Shares of a strip's height that pieces in it must have; strict first. */
const slacks = [0.9, 0.999, 0.75, 0.5] as const;
/** Rounds after which every plan that is not a change of another has been tried. */
export const STARTS: number = 2 * slacks.length - 1;

/**
 * Lays the pieces of a job in strips for a paper trimmer, better and better: first by height, then in orders that are changed a
 * little at a time and gone on from where they are no worse than the last one, or than the one so many steps before (late
 * acceptance: E. K. Burke, Y. Bykov, "The late acceptance hill-climbing heuristic", European Journal of Operational Research 258,
 * 2017). The first step comes at once; every step is complete and valid.
 */
export function* searchStrips(
  job: LayoutJob,
  { rounds, share = () => 0 }: LayoutEffort,
): Generator<{ readonly layout: Layout; readonly isBetter: boolean }, void> {
  const task = readyTask(job);
  const random = seeded(job.seed);
  const byHeight = task.free
    .map((_, i) => i)
    .sort((a, b) => (task.free[b] as PieceToLay).height - (task.free[a] as PieceToLay).height || a - b);
  const byArea = byHeight.toSorted((a, b) => areaOf(task, b) - areaOf(task, a));
  const plain = { across: task.free.map(() => false), turns: task.free.map(() => 0) };
  const starts = [byHeight, byArea].flatMap((order) => slacks.map((slack): Plan => ({ order, slack, ...plain })));
  let plan = starts[0] as Plan;
  let best = layIn(task, plan);
  let least = costOf(job, best);
  let now = least;
  const past = Array.from({ length: PAST }, () => now);
  yield { layout: best, isBetter: true };
  for (let step = 1; step <= rounds && share(step - 1) < 1; step++) {
    const tried = starts[step] ?? changed(plan, random);
    const layout = layIn(task, tried);
    const cost = costOf(job, layout);
    const isBetter = isCheaper(cost, least);
    if (isBetter) [best, least] = [layout, cost];
    const before = past[step % PAST] as readonly number[];
    if (!isCheaper(now, cost) || !isCheaper(before, cost)) [plan, now] = [tried, cost];
    past[step % PAST] = now;
    yield { layout: best, isBetter };
  }
}

/** Steps that an order is held against from before. */
const PAST = 60;

/** What a layout in strips follows from. */
interface Plan {
  /** Free pieces, those that strips begin with first. */
  readonly order: readonly number[];
  readonly slack: number;
  /** For each free piece, as `FillRules` has it. */
  readonly across: readonly boolean[];
  readonly turns: readonly number[];
}

const pick = (random: Random, count: number): number => Math.floor(random() * count);

/** The plan with one thing changed: a piece moved elsewhere or changed for another, or another turn, cut or slack. */
function changed({ order, slack, across, turns }: Plan, random: Random): Plan {
  const [kind, i, j] = [pick(random, 8), pick(random, order.length), pick(random, order.length)];
  if (kind === 0) return { order, turns, across, slack: slacks[pick(random, slacks.length)] ?? slack };
  if (kind === 1) return { order, slack, across, turns: turns.map((turn, k) => (k === i ? (turn + 1) % TURNS : turn)) };
  if (kind <= 3) return { order, slack, turns, across: across.map((is, k) => (k === i ? !is : is)) };
  const next = [...order];
  if (kind <= 5) {
    const [a, b] = [next[i] as number, next[j] as number];
    [next[i], next[j]] = [b, a];
  } else {
    const [moved] = next.splice(i, 1);
    next.splice(j, 0, moved as number);
  }
  return { order: next, slack, across, turns };
}

const TURNS = 4;

interface Task {
  readonly job: LayoutJob;
  /** Pieces that are not fixed. */
  readonly free: readonly PieceToLay[];
  /** Of the free pieces, for each stock. */
  readonly items: readonly (readonly StripItem[])[];
  /** What is empty of a new sheet of each stock, and of the sheets that hold something fixed. */
  readonly blank: readonly (readonly Box[])[];
  readonly begun: readonly { readonly stock: number; readonly index: number; readonly boxes: readonly Box[] }[];
}

const areaOf = ({ free }: Task, i: number): number => ringArea((free[i] as PieceToLay).outline);

function readyTask(job: LayoutJob): Task {
  const fixed = new Set(fixedSpots(job).map(({ placement }) => keyOf(placement)));
  const free = job.pieces.filter((piece) => !fixed.has(keyOf(piece)));
  const shapes = new Map<string, number>();
  const shapeOf = (outline: readonly Vec2[]): number => {
    const text = outline.join(' ');
    if (!shapes.has(text)) shapes.set(text, shapes.size);
    return shapes.get(text) as number;
  };
  const items = job.stock.map(({ direction }) =>
    free.map(
      ({ outline }): StripItem => ({
        poses: quarters[direction].map((quarter) => poseOf(outline, quarter)),
        area: ringArea(outline),
        shape: shapeOf(outline),
      }),
    ),
  );
  const byKey = new Map(job.pieces.map((piece) => [keyOf(piece), piece]));
  const begun = job.fixed.map(({ stock: s, index, placements }) => {
    const { gap } = job.stock[s] as Stock;
    const rings = placements.map((placement) => laidRing(byKey.get(keyOf(placement)) as PieceToLay, placement));
    const taken = gap > 0 ? rings.flatMap((ring) => offsetRing(ring, gap)) : rings;
    return { stock: s, index, boxes: boxesOf(job.stock[s] as Stock, taken) };
  });
  return { job, free, items, blank: job.stock.map((stock) => boxesOf(stock, [])), begun };
}

function boxesOf(stock: Stock, taken: readonly (readonly Vec2[])[]): readonly Box[] {
  const parts = usableRings(stock);
  if (!stock.outline && taken.length === 0) return parts.map(boxOf);
  return emptyRectangles(parts, taken, { least: 1, most: MOST_RECTANGLES, gap: stock.gap });
}

/** One layout: by the order of each piece's papers, sheet after sheet. */
function layIn(task: Task, { order, slack, across, turns }: Plan): Layout {
  const { job, free, items, blank, begun } = task;
  const spots: Spot[] = [...fixedSpots(job)];
  let left = order;
  const ranks = Math.max(0, ...free.map(({ stock }) => stock.length));
  for (let rank = 0; rank < ranks; rank++) {
    for (const [s, stock] of job.stock.entries()) {
      const wanting = new Set(left.filter((i) => (free[i] as PieceToLay).stock[rank] === s));
      if (wanting.size === 0) continue;
      const rules: FillRules = {
        gap: stock.gap,
        slack,
        isAcross: (item) => across[item] ?? false,
        turn: (item) => turns[item] ?? 0,
      };
      const put = (boxes: readonly Box[], index: number): number => {
        const before = wanting.size;
        for (const box of boxes) {
          for (const spot of fillRectangle(items[s] as readonly StripItem[], wanting, box, rules)) {
            const { roof, layer, piece, copy } = free[spot.item] as PieceToLay;
            const { shift, rotation } = spot.pose;
            const at = { x: spot.x + shift[0], y: spot.y + shift[1], rotation };
            spots.push({ stock: s, index, placement: { roof, layer, piece, copy, ...at } });
          }
        }
        return before - wanting.size;
      };
      for (const sheet of begun) if (sheet.stock === s) put(sheet.boxes, sheet.index);
      const used = new Set(spots.flatMap((spot) => (spot.stock === s ? [spot.index] : [])));
      for (let index = 0; wanting.size > 0 && index < (stock.count ?? Number.POSITIVE_INFINITY); index++) {
        if (!used.has(index) && put(blank[s] as readonly Box[], index) === 0) break;
      }
      const laid = new Set(spots.map(({ placement }) => keyOf(placement)));
      left = left.filter((i) => !laid.has(keyOf(free[i] as PieceToLay)));
    }
  }
  return laySheets(job, spots);
}

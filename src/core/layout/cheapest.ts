import { ringArea } from '../geometry/polygon.ts';
import type { Stock } from '../project/project.ts';
import { isAtMost } from '../tolerance.ts';
import { sheetWeight } from './compare.ts';
import type { LayoutJob } from './job.ts';
import { keyOf, type Layout, type PieceToLay } from './layout.ts';
import { areComparable } from './preference.ts';
import { usableRings } from './usable.ts';

/** Papers of which one may take another's pieces, and the pieces that may go on them: indices into a job's stock and pieces. */
export interface Choice {
  readonly stock: readonly number[];
  readonly pieces: readonly number[];
}

/** More combinations of sheets than so many are not looked through. */
const MOST_LOOKED = 20_000;
/** So many of them, the cheapest, are worth laying; where there are more, only those that need not be filled so well. */
const MOST_LAID = 16;
const EASY_FILL = 0.85;
/** Pieces never fill less than this share of sheets that are chosen well. */
const LEAST_FILL = 0.4;

/** Where the least price is asked for: the papers that can stand in for each other. None where a piece has no choice. */
export function choicesOf({ pieces, stock, rules }: LayoutJob): readonly Choice[] {
  if (rules.prefer !== 'cheapest' || !areComparable(stock)) return [];
  const group = stock.map((_, s) => s);
  for (const { stock: own } of pieces) {
    const joined = new Set(own.map((s) => group[s]));
    const first = Math.min(...(joined as Set<number>));
    for (let s = 0; s < group.length; s++) if (joined.has(group[s])) group[s] = first;
  }
  return [...new Set(group)].flatMap((g): readonly Choice[] => {
    const papers = stock.flatMap((_, s) => (group[s] === g ? [s] : []));
    const own = pieces.flatMap(({ stock: [first = -1] }, i) => (group[first] === g ? [i] : []));
    return papers.length > 1 && own.length > 0 ? [{ stock: papers, pieces: own }] : [];
  });
}

/** The job with the pieces and fixed sheets of one choice alone. */
export function jobOfChoice(job: LayoutJob, { stock, pieces }: Choice): LayoutJob {
  const own = pieces.map((i) => job.pieces[i] as PieceToLay);
  return { ...job, pieces: own, fixed: job.fixed.filter((sheet) => stock.includes(sheet.stock)) };
}

/** Sheets of each paper that nothing fixed lies on. */
export function sheetsOf({ stock, fixed }: LayoutJob, { sheets }: Layout): readonly number[] {
  const begun = new Set(fixed.map((sheet) => `${sheet.stock}/${sheet.index}`));
  const fresh = sheets.filter((sheet) => !begun.has(`${sheet.stock}/${sheet.index}`));
  return stock.map((_, s) => fresh.filter((sheet) => sheet.stock === s).length);
}

/** What the new sheets of one choice cost. */
export function priceOf(job: LayoutJob, { stock }: Choice, layout: Layout): number {
  const counts = sheetsOf(job, layout);
  return stock.reduce((sum, s) => sum + (counts[s] as number) * sheetWeight(job, s), 0);
}

/**
 * New sheets of each paper of a choice, by index into the job's stock, that cost less together than a price: the cheapest first. Left
 * out is what cannot have room by area: for all pieces, or for those that fit on some of the papers alone.
 */
export function cheaperSheets(job: LayoutJob, choice: Choice, price: number): readonly (readonly number[])[] {
  const { stock } = choice;
  const rooms = stock.map((s) => roomOf(job.stock[s] as Stock));
  const weights = stock.map((s) => sheetWeight(job, s));
  const needs = needsOf(job, choice);
  const all = needs.reduce((sum, { area }) => Math.max(sum, area), 0);
  const most = stock.map((s, k) => {
    const owned = job.stock[s]?.count ?? Number.POSITIVE_INFINITY;
    const begun = job.fixed.filter((sheet) => sheet.stock === s).length;
    return Math.min(owned - begun, choice.pieces.length, Math.ceil(all / (LEAST_FILL * (rooms[k] as number))));
  });
  const found: { readonly counts: readonly number[]; readonly price: number; readonly fill: number }[] = [];
  let looked = 0;
  const look = (counts: readonly number[], paid: number): void => {
    looked++;
    const k = counts.length;
    if (k < stock.length) {
      for (let n = 0; n <= (most[k] as number); n++) {
        const next = paid + n * (weights[k] as number);
        if (next >= price || looked > MOST_LOOKED) break;
        look([...counts, n], next);
      }
      return;
    }
    const fills = needs.map(({ on, area, begun }) => {
      const room = on.reduce((sum, i) => sum + (counts[i] as number) * (rooms[i] as number), begun);
      return isAtMost(area, room) ? area / Math.max(area, room) : Number.POSITIVE_INFINITY;
    });
    const fill = Math.max(...fills);
    if (fill <= 1) found.push({ counts, price: paid, fill });
  };
  look([], 0);
  const easy = found.length > MOST_LAID ? found.filter(({ fill }) => fill <= EASY_FILL) : found;
  const sorted = easy.sort((a, b) => a.price - b.price).slice(0, MOST_LAID);
  return sorted.map(({ counts }) => job.stock.map((_, s) => counts[stock.indexOf(s)] ?? 0));
}

/** The job with no more new sheets of the papers of a choice than so many. */
export function withSheets(job: LayoutJob, { stock }: Choice, counts: readonly number[]): LayoutJob {
  const limited = job.stock.map((paper, s): Stock => {
    if (!stock.includes(s)) return paper;
    const begun = new Set(job.fixed.flatMap((sheet) => (sheet.stock === s ? [sheet.index] : [])));
    let [count, fresh] = [0, 0];
    while (fresh < (counts[s] as number) || begun.has(count)) {
      if (!begun.has(count)) fresh++;
      count++;
    }
    return { ...paper, count };
  });
  return { ...job, stock: limited };
}

/** mm² that can be used. */
const roomOf = (stock: Stock): number => usableRings(stock).reduce((sum, ring) => sum + ringArea(ring), 0);

interface Need {
  /** Indices into the choice's papers. */
  readonly on: readonly number[];
  /** Of the pieces that fit on no other of the papers, mm². */
  readonly area: number;
  /** Room on sheets that hold something fixed. */
  readonly begun: number;
}

function needsOf(job: LayoutJob, { stock, pieces }: Choice): readonly Need[] {
  const fixed = new Set(job.fixed.flatMap(({ placements }) => placements.map(keyOf)));
  const free = pieces.map((i) => job.pieces[i] as PieceToLay).filter((piece) => !fixed.has(keyOf(piece)));
  const fitting = free.map((piece) => ({
    area: ringArea(piece.outline),
    on: stock.flatMap((s, k) => (piece.stock.includes(s) && mayFit(piece, job.stock[s] as Stock) ? [k] : [])),
  }));
  const sets = new Map([stock.map((_, k) => k), ...fitting.map(({ on }) => on)].map((on) => [on.join(), on]));
  return [...sets.values()].map((on): Need => {
    const within = fitting.filter((piece) => piece.on.every((k) => on.includes(k)));
    const begun = job.fixed.filter((sheet) => on.includes(stock.indexOf(sheet.stock)));
    return {
      on,
      area: within.reduce((sum, { area }) => sum + area, 0),
      begun: begun.reduce((sum, sheet) => sum + roomOf(job.stock[sheet.stock] as Stock), 0),
    };
  });
}

/** Whether the box of a piece has room; on paper that it may lie on at any angle that says nothing. */
const mayFit = ({ width, height }: PieceToLay, stock: Stock): boolean =>
  stock.direction === 'any' ||
  (isAtMost(width, stock.width - 2 * stock.margin) && isAtMost(height, stock.height - 2 * stock.margin));

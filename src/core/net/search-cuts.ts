import { rest2 } from '../geometry/rigid2.ts';
import { type Random, seeded } from '../random.ts';
import { coverTrial } from './cover-trial.ts';
import type { CutGraph, CutLink } from './cut-graph.ts';
import { bestCuts } from './every-cut.ts';
import { across, type CutForest, type CutRules, growingPiece, isBetter, type Laying, layForest } from './lay-nodes.ts';
import { rankedQueue } from './ranked-queue.ts';

export interface SearchOptions extends CutRules {
  /** How often the panels of a group are laid; missing: by their number. */
  readonly rounds?: number;
  readonly seed: number;
  /** Panels of a group up to which all nets are tried where they are few enough; missing: `FEW`. */
  readonly few?: number;
}

/** What `few` is where nothing is said, and how many nets are laid for it at most. */
const FEW = 8;
const MOST_NETS = 400;

/** Rounds of one search where nothing is said, at least and at most, and the panels that are laid in them. */
const [LEAST_ROUNDS, MOST_ROUNDS] = [1, 100];
const PANELS = 480;

/** While there are several pieces: rounds at most, and the panels or the pairs of panels. A maker would rather wait than glue one more seam. */
const MOST_APART = 200;
const [PANELS_APART, PAIRS_APART] = [800, 60_000];

/** Rounds of a search where nothing is said. `isApart`: the best net so far has several pieces. */
export function usualRounds(nodes: number, isApart = false): number {
  const rounds = isApart
    ? Math.min(MOST_APART, Math.max(PANELS_APART / nodes, PAIRS_APART / nodes ** 2))
    : Math.min(MOST_ROUNDS, PANELS / nodes);
  return Math.max(LEAST_ROUNDS, Math.floor(rounds));
}

/** Share of the rounds that one start may be bettered for. */
const PER_START = 1 / 8;

/**
 * Searches the joined links of a net: fewest pieces, then fewest necks, then the least length of seams (those seen from the
 * front count twice), then the smallest bounding rectangles. Pieces are grown from a start by the longest edges first, then
 * every side of the roof whole before its neighbours, then those joined where they are widest, then breadth first, then with edges
 * weighed anew by chance; each is bettered by exchanging one fold for another, or by joining two pieces. A round is one laying of all
 * panels. Ends early where no better net can be; where the first start may not be the best of few panels, all nets are tried.
 */
export function searchCuts(graph: CutGraph, { few = FEW, ...options }: SearchOptions): CutForest {
  const random = seeded(options.seed);
  const starts = startRanks(graph, options, random);
  let best: CutForest | null = null;
  for (let [used, rounds] = [0, 1]; used < rounds; ) {
    const isFirst = used === 0;
    const from = isFirst || options.fits ? 0 : Math.floor(random() * graph.nodes.length);
    const grown = growForest(graph, starts.next().value, from, options, best?.laying.score[0]);
    used++;
    // A few changes seldom save a piece: another start is worth more than they.
    if (!grown) continue;
    const { joined, isFree } = grown;
    // As it grew nothing came to cover anything.
    const laying = layForest(graph, joined, options, true);
    if (!laying) throw new Error('a grown piece does not fit');
    const [pieces] = laying.score;
    rounds = options.rounds ?? usualRounds(graph.nodes.length, pieces > 1);
    // Where nothing was in the way of the longest edges nothing has shorter seams; a row of panels has no other net.
    const isOnly = graph.links.length < graph.nodes.length;
    const isShortest = isFirst && isFree && laying.score[0] === 1 && (isOnly || laying.score[1] === 0);
    const exact = isFirst && !isShortest && graph.nodes.length <= few ? bestCuts(graph, options, MOST_NETS) : null;
    if (exact) return exact;
    const share = isShortest ? rounds : Math.ceil(rounds * PER_START);
    const room = Math.min(rounds - used, share);
    const bettered = better(graph, { joined, laying }, options, { rounds: room, random });
    used += bettered.used;
    if (!best || isBetter(bettered.found.laying.score, best.laying.score)) best = bettered.found;
    if (isShortest) break;
  }
  return best as CutForest;
}

/** Every second start by chance begins with so many of the links left out: a piece that takes all it can may leave two behind. */
const LEFT_OUT = 0.3;

/** For each start how soon each link is tried, the lowest first, never where it is infinite; null: as its nodes are laid. */
function* startRanks(
  { nodes, links }: CutGraph,
  { neck }: CutRules,
  random: Random,
): Generator<readonly number[] | null, never> {
  const all = links.reduce((sum, { weight }) => sum + weight, 0);
  const longestFirst = links.map(({ weight, length }) => (length < neck ? 2 * all - weight : all - weight));
  yield longestFirst;
  const sidesFirst = links.map(({ isUp }, l) => (longestFirst[l] as number) - (isUp ? 2 * all : 0));
  const hasSides = links.some(({ isUp }) => isUp);
  if (hasSides) yield sidesFirst;
  if (hasSides) yield widestNext({ nodes, links }, sidesFirst, all);
  yield null;
  for (let isSparse = false; ; isSparse = !isSparse) {
    const spread = 2 * random();
    const ranks = random() < 0.5 ? longestFirst : sidesFirst;
    yield ranks.map((rank, l) =>
      isSparse && random() < LEFT_OUT
        ? Number.POSITIVE_INFINITY
        : rank + (random() - 0.5) * spread * (links[l]?.weight ?? 0),
    );
  }
}

/**
 * Sides whole first, then joined where their panels are widest: there the gores of an onion bulge towards each other, and part above
 * and below.
 */
function widestNext(
  { nodes, links }: Pick<CutGraph, 'nodes' | 'links'>,
  sidesFirst: readonly number[],
  all: number,
): number[] {
  const widths = links.map(
    ({ nodes: ends, length }) => ends.reduce((sum, n) => sum + (nodes[n]?.area ?? 0), 0) / length,
  );
  const widest = Math.max(...widths);
  return links.map(({ isUp }, l) => (isUp ? (sidesFirst[l] as number) : all * (1 - (widths[l] as number) / widest)));
}

/**
 * Grows pieces link by link, the first from the node `from`; null where there would be more than `most`. `isFree`: nothing was left
 * out for being in the way.
 */
function growForest(
  graph: CutGraph,
  ranks: readonly number[] | null,
  from: number,
  { fits }: CutRules,
  most = Number.POSITIVE_INFINITY,
): { readonly joined: Uint8Array; readonly isFree: boolean } | null {
  const count = graph.links.length;
  const joined = new Uint8Array(count);
  const done = new Uint8Array(graph.nodes.length);
  // Of equal ranks the first link comes first, and each link is a whole number of its own.
  const order = ranks && inOrder(ranks);
  let isFree = true;
  let pieces = 0;
  for (let turn = 0; turn < graph.nodes.length; turn++) {
    const first = (from + turn) % graph.nodes.length;
    if (done[first]) continue;
    if (++pieces > most) return null;
    const piece = growingPiece(graph, fits);
    const open = rankedQueue();
    const reached = (node: number): void => {
      done[node] = 1;
      for (const l of graph.linksAt[node] ?? []) {
        const place = order ? (order.placeOf[l] as number) : piece.nodes.length * count + l;
        if (place >= 0) open.push(place);
      }
    };
    piece.add(first, rest2, null);
    reached(first);
    for (let place = open.pop(); place !== null; place = open.pop()) {
      const l = order ? (order.links[place] as number) : place % count;
      const link = graph.links[l] as CutLink;
      const on = link.nodes[piece.has(link.nodes[0]) ? 0 : 1];
      const [node, motion] = across(link, on, piece.motionOf(on));
      if (done[node]) continue;
      if (piece.add(node, motion, { by: link, from: on })) {
        joined[l] = 1;
        reached(node);
      } else isFree = false;
    }
  }
  return { joined, isFree };
}

/** The links by their ranks, the lowest first, and for each link its place among them, -1 where it has none. */
function inOrder(ranks: readonly number[]): { readonly links: readonly number[]; readonly placeOf: Int32Array } {
  const links = [...ranks.keys()].filter((l) => (ranks[l] as number) < Number.POSITIVE_INFINITY);
  links.sort((a, b) => (ranks[a] as number) - (ranks[b] as number) || a - b);
  const placeOf = new Int32Array(ranks.length).fill(-1);
  for (const [place, l] of links.entries()) placeOf[l] = place;
  return { links, placeOf };
}

/** Betters a net by one change after another until none helps or the rounds are used. */
function better(
  graph: CutGraph,
  start: CutForest,
  rules: CutRules,
  { rounds, random }: { readonly rounds: number; readonly random: Random },
): { readonly found: CutForest; readonly used: number } {
  let found = start;
  let used = 0;
  for (let isBettered = true; isBettered && used < rounds; ) {
    isBettered = false;
    const doCover = coverTrial(graph, found.laying);
    const open = shuffled(
      graph.links.flatMap((_, l) => (found.joined[l] ? [] : [l])),
      random,
    );
    for (const link of open) {
      for (const change of changesAt(graph, found, link, rules.neck)) {
        if (used === rounds) return { found, used };
        used++;
        if (doCover(link, change)) continue;
        const joined = found.joined.slice();
        joined[link] = 1;
        if (change !== null) joined[change] = 0;
        const laying = layForest(graph, joined, rules, true);
        if (!laying || !isBetter(laying.score, found.laying.score)) continue;
        found = { joined, laying };
        isBettered = true;
        break;
      }
      if (isBettered) break;
    }
  }
  return { found, used };
}

/** Folds that may be cut so that a link can be joined, and the net be better for it; null: none needs to be. */
function changesAt(graph: CutGraph, { laying }: CutForest, link: number, neck: number): readonly (number | null)[] {
  const { nodes, weight } = graph.links[link] as CutLink;
  const [a, b] = nodes;
  const isWorth = (fold: number): boolean => {
    const { weight: own, length } = graph.links[fold] as CutLink;
    return own <= weight || (laying.score[1] > 0 && length < neck);
  };
  if (laying.pieceOf[a] === laying.pieceOf[b]) return foldsBetween(laying, a, b).filter(isWorth);
  const beside = nodes.flatMap((n) => (graph.linksAt[n] ?? []).filter((l) => isFold(laying, graph, l)));
  return [null, ...beside.filter(isWorth)];
}

const isFold = ({ by }: Laying, { links }: CutGraph, l: number): boolean =>
  (links[l] as CutLink).nodes.some((n) => by[n] === l);

/** The folds on the way from one node of a piece to another. */
function foldsBetween({ parent, by, depth }: Laying, a: number, b: number): number[] {
  const folds: number[] = [];
  for (let [p, q] = [a, b]; p !== q; ) {
    const isDeeper = (depth[p] as number) >= (depth[q] as number);
    folds.push(by[isDeeper ? p : q] as number);
    if (isDeeper) p = parent[p] as number;
    else q = parent[q] as number;
  }
  return folds;
}

function shuffled(items: readonly number[], random: Random): number[] {
  const row = [...items];
  for (let i = row.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [row[i], row[j]] = [row[j] as number, row[i] as number];
  }
  return row;
}

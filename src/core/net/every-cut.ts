import { rest2 } from '../geometry/rigid2.ts';
import type { CutGraph, CutLink } from './cut-graph.ts';
import { across, type CutForest, type CutRules, growingPiece, isBetter, layForest } from './lay-nodes.ts';

/**
 * Every forest of so many pieces, as its joined links: one array, which changes from one to the next. `barred`: for each link
 * those before it with which it is not to be joined; missing: any may be.
 */
export function* everyForest(
  { nodes, links }: CutGraph,
  pieces: number,
  barred: readonly (readonly number[])[] = [],
): Generator<Uint8Array> {
  const joined = new Uint8Array(links.length);
  function* choose(l: number, folds: number, group: readonly number[]): Generator<Uint8Array> {
    if (folds === 0) yield joined;
    if (folds === 0 || links.length - l < folds) return;
    const [a, b] = (links[l] as CutLink).nodes.map((n) => group[n] as number) as [number, number];
    if (a !== b && !barred[l]?.some((other) => joined[other])) {
      joined[l] = 1;
      yield* choose(
        l + 1,
        folds - 1,
        group.map((own) => (own === b ? a : own)),
      );
      joined[l] = 0;
    }
    yield* choose(l + 1, folds, group);
  }
  yield* choose(
    0,
    nodes.length - pieces,
    nodes.map((_, n) => n),
  );
}

/** The best net there is, by trying all of them; null where more than `most` would have to be laid. */
export function bestCuts(graph: CutGraph, rules: CutRules, most = Number.POSITIVE_INFINITY): CutForest | null {
  const barred = barredLinks(graph);
  let best: CutForest | null = null;
  let laid = 0;
  for (let pieces = 1; !best; pieces++) {
    for (const joined of everyForest(graph, pieces, barred)) {
      if (++laid > most) return null;
      const laying = layForest(graph, joined, rules);
      if (laying && (!best || isBetter(laying.score, best.laying.score))) best = { joined: joined.slice(), laying };
    }
  }
  return best;
}

/** For each link those before it at one of its nodes that cannot be folds together: the nodes beyond would cover each other. */
const barredLinks = (graph: CutGraph): readonly (readonly number[])[] =>
  graph.links.map(({ nodes }, l) =>
    nodes.flatMap((node) =>
      (graph.linksAt[node] ?? []).filter((other) => {
        if (other >= l) return false;
        const piece = growingPiece(graph);
        piece.add(node, rest2, null);
        return ![other, l].every((by) => {
          const link = graph.links[by] as CutLink;
          const [beyond, motion] = across(link, node, rest2);
          return piece.has(beyond) || piece.add(beyond, motion, { by: link, from: node });
        });
      }),
    ),
  );

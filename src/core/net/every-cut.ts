import type { CutGraph, CutLink } from './cut-graph.ts';
import { type CutRules, isBetter, layForest } from './lay-nodes.ts';
import type { CutForest } from './search-cuts.ts';

/** Every forest of so many pieces, as its joined links (one array, changed from call to call). */
export function everyForest({ nodes, links }: CutGraph, pieces: number, visit: (joined: Uint8Array) => void): void {
  const joined = new Uint8Array(links.length);
  const choose = (l: number, folds: number, group: readonly number[]): void => {
    if (folds === 0) visit(joined);
    if (folds === 0 || links.length - l < folds) return;
    const [a, b] = (links[l] as CutLink).nodes.map((n) => group[n] as number) as [number, number];
    if (a !== b) {
      joined[l] = 1;
      choose(
        l + 1,
        folds - 1,
        group.map((own) => (own === b ? a : own)),
      );
      joined[l] = 0;
    }
    choose(l + 1, folds, group);
  };
  choose(
    0,
    nodes.length - pieces,
    nodes.map((_, n) => n),
  );
}

/** The best net there is, by trying all of them: for few panels, to measure the search by. */
export function bestCuts(graph: CutGraph, rules: CutRules): CutForest {
  for (let pieces = 1; ; pieces++) {
    let best: CutForest | null = null;
    everyForest(graph, pieces, (joined) => {
      const laying = layForest(graph, joined, rules);
      if (laying && (!best || isBetter(laying.score, best.laying.score))) best = { joined: joined.slice(), laying };
    });
    if (best) return best;
  }
}

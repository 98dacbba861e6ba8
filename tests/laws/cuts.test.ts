import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cutGraph } from '../../src/core/net/cut-graph.ts';
import { bestCuts } from '../../src/core/net/every-cut.ts';
import { type CutForest, isBetter } from '../../src/core/net/lay-nodes.ts';
import { searchCuts } from '../../src/core/net/search-cuts.ts';
import { connectedFaces, flattenSolid } from '../../src/core/net/unfold.ts';
import { LEAST_NECK } from '../../src/core/net/unfold-faces.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { arbitraryRoof, kinds } from './arbitrary-roof.ts';
import { runs } from './runs.ts';

/** Panels up to which every net is tried. */
const FEW = 8;
/** Share of roofs for which the search has to find the best net there is in its usual rounds, and as few pieces as there can be. */
const [BEST, FEWEST] = [0.92, 0.98];

const smallSolids = (): readonly Solid[] =>
  kinds.flatMap((kind) =>
    fc.sample(arbitraryRoof(kind), { numRuns: Math.max(4, runs(4)) }).flatMap(({ solid }) => {
      const flat = flattenSolid(solid);
      const groups = connectedFaces(
        flat,
        solid.faces.map((_, f) => f),
      );
      return groups.every((group) => group.length <= FEW) ? [solid] : [];
    }),
  );

/** Of 364 groups of panels (five times as many tries) the rounds alone find the best net of 356 and the fewest pieces of 363. */
test('the search finds the best net of nearly every small roof, by trying all nets', () => {
  const rules = { neck: LEAST_NECK };
  let [best, fewest, all] = [0, 0, 0];
  for (const solid of smallSolids()) {
    const flat = flattenSolid(solid);
    for (const group of connectedFaces(
      flat,
      solid.faces.map((_, f) => f),
    )) {
      if (group.length < 3) continue;
      const graph = cutGraph(flat, group);
      const exact = (bestCuts(graph, rules) as CutForest).laying.score;
      const found = searchCuts(graph, { ...rules, seed: 1, few: 0 }).laying.score;
      // Where all nets are tried none is better.
      const tried = searchCuts(graph, { ...rules, seed: 1 }).laying.score;
      expect(isBetter(found, tried)).toBe(false);
      // Nothing is better than the best.
      expect(isBetter(found, exact)).toBe(false);
      if (found[0] === exact[0]) fewest++;
      all++;
      if (!isBetter(exact, found)) best++;
    }
  }
  expect(all).toBeGreaterThan(0);
  expect(best / all).toBeGreaterThanOrEqual(BEST);
  expect(fewest / all).toBeGreaterThanOrEqual(FEWEST);
});

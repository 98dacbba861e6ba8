import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { workOrder } from '../../src/core/fold/work-order.ts';
import { assemblySteps } from '../../src/core/guide/work-steps.ts';
import { buildBoard } from '../../src/core/net/build-board.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import type { Net } from '../../src/core/net/net.ts';
import type { FlapSides, PiecesMode, SeamInstead } from '../../src/core/project/project.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { arbitraryRoof, kinds, panelsOf } from './arbitrary-roof.ts';
import { runsOver } from './runs.ts';

const ways = fc.record({
  pieces: fc.constantFrom<PiecesMode>('per-panel', 'one-piece'),
  on: fc.constantFrom<FlapSides>('alternate', 'one-side', 'none'),
  instead: fc.constantFrom<SeamInstead>('tape', 'strip'),
});

/** Every seam once, nothing joined to what is not there, and the last thing said is what closes the layer. */
function proveSteps(solid: Solid, net: Net): void {
  const steps = assemblySteps(solid, net, workOrder(solid, net));
  expect(steps.flatMap(({ joins }) => joins).sort((a, b) => a - b)).toEqual(net.seams.map((_, s) => s));
  const whole = net.pieces.flatMap(({ strip }, p) => (strip ? [] : [p]));
  const puts = steps.filter(({ kind }) => kind === 'put-on');
  expect(puts.flatMap(({ pieces }) => pieces).sort((a, b) => a - b)).toEqual(whole);
  const there = new Set([-1]);
  for (const { kind, pieces, joins } of steps) {
    // A piece's own edges are joined while it lies by itself; all others where both sides are in place.
    const isByItself = kind !== 'put-on' && pieces.length === 1;
    for (const p of pieces) if (kind === 'put-on') there.add(p);
    for (const s of joins)
      for (const { piece } of net.seams[s]?.sides ?? [])
        expect(there.has(piece) || (isByItself && piece === pieces[0]), `seam ${net.seams[s]?.mark}`).toBe(true);
  }
  if (!net.closing) return;
  if (net.closing.seam === null) {
    const last = net.pieces[net.closing.piece];
    // It lies on its neighbours' flaps: none of its own goes under another piece.
    const closes = new Set(net.seams.flatMap(({ edge, sides: [a, b] }) => (a.piece === b.piece ? [] : [edge])));
    expect(last?.flaps.filter(({ edge }) => closes.has(edge))).toEqual([]);
    const step = puts.find(({ pieces }) => pieces.includes(net.closing?.piece ?? -1));
    expect(step?.pieces).toEqual([net.closing.piece]);
  } else {
    const named = steps.find(({ kind }) => kind === 'close');
    expect(named?.joins.map((s) => net.seams[s]?.edge)).toEqual([net.closing.seam]);
    expect(steps.slice(steps.indexOf(named as (typeof steps)[number]) + 1).flatMap(({ joins }) => joins)).toEqual([]);
  }
}

describe.each(kinds.map((kind) => [kind.id, kind] as const))('every %s', (_, kind) => {
  test('is put together seam by seam, none twice, none to a panel that is not there', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), ways, ({ solid }, { pieces, on, instead }) => {
        const flaps = { width: 5, on, clearance: 0.5, least: 2, instead };
        proveSteps(solid, buildNet(solid, { pieces, flaps }).net);
        const board = buildBoard(solid, { thickness: 1, edges: 'square', firstMark: 0 });
        if (board.ok) proveSteps(solid, board.value);
      }),
      { numRuns: runsOver(panelsOf(kind), 1) },
    );
  });
});

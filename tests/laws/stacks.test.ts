import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { insideOf, layerSolids, wallSeat } from '../../src/core/layers/layer-solids.ts';
import type { StackedLayer } from '../../src/core/layers/stack.ts';
import { buildBoard } from '../../src/core/net/build-board.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import { checkNet } from '../../src/core/net/check-net.ts';
import type { BoardEdges, FlapSides, PiecesMode } from '../../src/core/project/project.ts';
import { arbitraryRoof, kinds, panelsOf } from './arbitrary-roof.ts';
import { board, cover, shell } from './arbitrary-stack.ts';
import { runsOver } from './runs.ts';

const stack: fc.Arbitrary<readonly StackedLayer[]> = fc.oneof(
  fc.tuple(board, cover),
  fc.tuple(shell, cover),
  fc.tuple(board, shell, cover),
  fc.tuple(cover, cover),
);
const choices = fc.record({
  edges: fc.constantFrom<BoardEdges>('square', 'mitred', 'butted'),
  pieces: fc.constantFrom<PiecesMode>('per-panel', 'one-piece'),
  on: fc.constantFrom<FlapSides>('alternate', 'one-side', 'none'),
  width: fc.double({ min: 2, max: 10, noNaN: true }),
});

describe.each(kinds.map((kind) => [kind.id, kind] as const))('every %s', (_, kind) => {
  test('in layers: each has a net that passes its check, or an issue that says why not', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), stack, choices, ({ solid, body }, layers, { edges, pieces, on, width }) => {
        const flaps = { width, on, clearance: 0.5, least: 1 };
        const inside = insideOf(solid, layers);
        const seat = inside.ok ? wallSeat(solid, inside.value, body) : null;
        layerSolids(solid, layers, seat).forEach((surface, l) => {
          if (!surface.ok) {
            expect(surface.issues[0]?.code).toBe('layer-too-thick');
            return;
          }
          const { as, thickness } = layers[l] as StackedLayer;
          if (as === 'board') {
            const built = buildBoard(surface.value, { thickness, edges });
            if (built.ok) expect(checkNet(surface.value, built.value, flaps)).toEqual([]);
            else expect(['board-rolled', 'board-too-thick']).toContain(built.issues[0]?.code);
            return;
          }
          const { net } = buildNet(surface.value, { pieces, flaps });
          expect(checkNet(surface.value, net, flaps)).toEqual([]);
        });
      }),
      { numRuns: runsOver(panelsOf(kind), 3) },
    );
  });
});

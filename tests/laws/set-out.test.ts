import fc from 'fast-check';
import { describe, test } from 'vitest';
import { buildBoard } from '../../src/core/net/build-board.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import { arbitraryRoof, kinds } from './arbitrary-roof.ts';
import { expectDrawnBack, scattering } from './drawn-back.ts';
import { runs } from './runs.ts';

const layout = fc.record({
  ...scattering,
  pieces: fc.constantFrom('per-panel', 'one-piece', 'board'),
  flaps: fc.record({
    width: fc.double({ min: 3, max: 12, noNaN: true }),
    on: fc.constantFrom('alternate', 'none'),
    clearance: fc.constantFrom(0, 0.5),
    least: fc.constant(2),
    instead: fc.constantFrom('tape', 'strip'),
  }),
  hem: fc.option(fc.double({ min: 3, max: 8, noNaN: true }), { nil: undefined }),
});

describe.each(kinds.map((kind) => [kind.id, kind] as const))('set out by ruler, every %s', (_, kind) => {
  test('drawing the marks back gives every outline within the rounding that is told', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), layout, (roof, { up, ruler, pieces, gap, turns, flaps, hem }) => {
        const isRound = roof.solid.faces.some((face) => face.roll);
        const board =
          pieces === 'board' && !isRound
            ? buildBoard(roof.solid, { thickness: 1, edges: 'mitred', firstMark: 0 })
            : null;
        const net = board?.ok
          ? board.value
          : buildNet(roof.solid, {
              pieces: pieces === 'one-piece' ? 'one-piece' : 'per-panel',
              flaps,
              ...(hem ? { hem } : {}),
            } as Parameters<typeof buildNet>[1]).net;
        expectDrawnBack({ solid: roof.solid, net }, { up, ruler, turns, gap });
      }),
      { numRuns: runs(1), endOnFailure: true },
    );
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rectangularBody } from '../../src/core/footprint/rectangular-body.ts';
import { buildBoard } from '../../src/core/net/build-board.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import { findKind } from '../../src/core/roofs/catalogue.ts';
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

test('a mark before the line that others are measured along is told from its nearer end', () => {
  // Teeth of 17 by 50 at two fifths, turned by a hair: nothing of them lies level.
  const built = findKind('sawtooth')?.build(
    { width: 6.9, depth: 80.130944, pitch: 1.0611431, teeth: 4, glazingPitch: 1.0806688, ends: 'open' },
    rectangularBody(3.715946, 49.620443, 2.2914751),
  );
  if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
  const flaps = { width: 6, on: 'alternate', clearance: 0.5, least: 1 } as const;
  const { net } = buildNet(built.value, { pieces: 'one-piece', flaps });
  const { strips } = expectDrawnBack(
    { solid: built.value, net },
    { up: 'wrong', ruler: '1/8in', turns: [1.06e-6], gap: 0 },
  );
  const texts = strips.flatMap(({ steps }) => steps.map(({ text }) => text));
  expect(texts.some((text) => /^Ruler along line 1–2 and on past 1: tick .+ from 1\. Mark \d+\.$/.test(text))).toBe(
    true,
  );
});

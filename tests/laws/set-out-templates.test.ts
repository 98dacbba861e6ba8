import fc from 'fast-check';
import { expect, test } from 'vitest';
import { buildNet } from '../../src/core/net/build-net.ts';
import { arbitraryRoof, kinds } from './arbitrary-roof.ts';
import { expectDrawnBack, scattering } from './drawn-back.ts';
import { runs } from './runs.ts';

/** Kinds of many like pieces, each of several panels. */
const many = kinds.filter(({ id }) => ['bell-cast-spire', 'dome', 'ogee-spire', 'onion'].includes(id));

test('pieces that come several times are traced from a template, which is laid where each of them lies', () => {
  let traced = 0;
  fc.assert(
    fc.property(
      fc.oneof(...many.map(arbitraryRoof)),
      fc.constantFrom('alternate', 'one-side'),
      fc.record({
        ...scattering,
        turns: fc.array(fc.double({ min: 0, max: 6, noNaN: true }), { minLength: 5, maxLength: 7 }),
      }),
      ({ solid }, on, where) => {
        const flaps = { width: 5, on, clearance: 0.5, least: 2 } as const;
        const { net } = buildNet(solid, { pieces: 'per-panel', flaps });
        const out = expectDrawnBack({ solid, net }, where);
        for (const { strip, hold, times, measures } of out.templates) {
          if (!hold) continue;
          traced++;
          expect(times).toBeGreaterThan(1);
          expect(measures[0]).toBeLessThan(measures[1]);
          // Its name is asked for once on each strip that it is traced on.
          const asks = out.strips.flatMap(({ steps }) =>
            steps.filter(({ text }) => text === `Take the ${strip.title.replace('Template', 'template')}.`),
          );
          expect(asks.length).toBeGreaterThan(0);
        }
      },
    ),
    { numRuns: runs(2) },
  );
  expect(traced).toBeGreaterThan(0);
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { arbitraryRoof, kinds } from './arbitrary-roof.ts';
import { seatChoices, seatOn } from './arbitrary-seat.ts';
import { expectDrawnBack, scattering } from './drawn-back.ts';
import { runs } from './runs.ts';

const under = kinds.filter(({ id }) => ['pyramid', 'hip', 'gable', 'spire', 'frustum', 'cone'].includes(id));

test('the collars and plates of seats, drawn back from their marks, are within the rounding that is told', () => {
  let seats = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(...under).chain((kind) => arbitraryRoof(kind)),
      seatChoices,
      fc.record(scattering),
      (roof, choice, layout) => {
        const made = seatOn(roof, choice);
        if (!made.ok) return;
        seats++;
        expectDrawnBack({ ...made.value, isSeat: true }, layout);
      },
    ),
    { numRuns: runs(25), endOnFailure: true },
  );
  expect(seats).toBeGreaterThan(0);
});

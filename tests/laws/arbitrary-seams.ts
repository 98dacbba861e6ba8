import fc from 'fast-check';
import type { SheetRoom } from '../../src/core/net/plan-cuts.ts';
import type { SeamChoice, SeamChoices } from '../../src/core/project/project.ts';
import type { Solid } from '../../src/core/solid/solid.ts';

/** Choices by hand before the roof is known: which edge out of all, how it is joined, and on which of its panels. */
export type Picks = readonly { readonly edge: number; readonly join: SeamChoice['join']; readonly side: number }[];

export const arbitraryPicks: fc.Arbitrary<Picks> = fc.oneof(
  fc.constant([]),
  fc.array(
    fc.record({
      edge: fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
      join: fc.constantFrom<SeamChoice['join']>('fold', 'fold', 'flap', 'tape', 'strip'),
      side: fc.integer({ min: 0, max: 2 }),
    }),
    { maxLength: 12 },
  ),
);

/** The picks as choices for the edges of a solid, possible or not. */
export const choicesOf = ({ edges, faces }: Solid, picks: Picks): SeamChoices =>
  Object.fromEntries(
    picks.map(({ edge, join, side }) => {
      const { id, faces: sides } = edges[Math.floor(edge * edges.length)] as Solid['edges'][number];
      const on = join === 'flap' && side < 2 ? faces[sides[side % sides.length] as number]?.id : undefined;
      return [id, on === undefined ? { join } : { join, on }];
    }),
  );

/** Sheets from smaller than most panels to larger than most roofs. */
export const arbitrarySheets: fc.Arbitrary<readonly SheetRoom[]> = fc.array(
  fc.record({
    width: fc.double({ min: 10, max: 900, noNaN: true }),
    height: fc.double({ min: 10, max: 900, noNaN: true }),
    mayLie: fc.boolean(),
  }),
  { minLength: 1, maxLength: 2 },
);

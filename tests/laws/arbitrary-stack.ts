import fc from 'fast-check';
import type { StackedLayer } from '../../src/core/layers/stack.ts';

const of = (as: StackedLayer['as'], min: number, max: number): fc.Arbitrary<StackedLayer> =>
  fc.record({ as: fc.constant(as), thickness: fc.double({ min, max, noNaN: true }) });

/** Layers of usual thickness, mm. */
export const [board, shell, cover] = [of('board', 0.5, 3), of('shell', 0.2, 0.8), of('cover', 0.1, 0.6)] as const;

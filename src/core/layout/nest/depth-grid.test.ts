import fc from 'fast-check';
import { expect, test } from 'vitest';
import { runs } from '../../../../tests/laws/runs.ts';
import { fewConvexParts } from './convex.ts';
import { NoFit } from './no-fit.ts';
import type { Ring } from './problem.ts';

const size = fc.integer({ min: 8, max: 60 });
/** An arrow, hollow below: two of them fit into each other. */
const arrow = fc.tuple(size, size, fc.double({ min: 0.1, max: 0.8, noNaN: true })).map(
  ([w, h, share]): Ring => [
    [0, 0],
    [w / 2, h * share],
    [w, 0],
    [w / 2, h],
  ],
);
const unit = fc.integer({ min: 0, max: 9973 }).map((n) => n / 9973);

test('the raster knows exactly what overlaps, and nearly how deep', () => {
  fc.assert(
    fc.property(arrow, arrow, fc.array(fc.tuple(unit, unit), { minLength: 40, maxLength: 60 }), (a, b, points) => {
      const [parts, others] = [fewConvexParts(a), fewConvexParts(b)];
      const exact = NoFit.between(parts, others, 0, { left: 0 });
      const quick = NoFit.between(parts, others, 0, { left: 1 });
      const { minX, minY, maxX, maxY } = exact;
      // It is made after some questions.
      for (let i = 0; i < 50; i++) quick.depth((minX + maxX) / 2, (minY + maxY) / 2);
      // Depth grows by no more than the way: between corners half a diagonal is the most that it can be off.
      const cell = Math.max(maxX - minX, maxY - minY) / 24;
      for (const [u, v] of points) {
        const [x, y] = [minX + u * (maxX - minX), minY + v * (maxY - minY)];
        expect(quick.depth(x, y) > 0).toBe(exact.depth(x, y) > 0);
        expect(Math.abs(quick.depth(x, y) - exact.depth(x, y))).toBeLessThanOrEqual(cell * Math.SQRT1_2);
      }
    }),
    { numRuns: runs(30) },
  );
});

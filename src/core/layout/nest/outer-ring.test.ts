import fc from 'fast-check';
import { difference } from 'polyclip-ts';
import { describe, expect, test } from 'vitest';
import { runs } from '../../../../tests/laws/runs.ts';
import { boxOf, ringArea } from '../../geometry/polygon.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import { outerRing } from './outer-ring.ts';
import type { Ring } from './problem.ts';

/** Part of a ring-shaped strip of paper, as of a round roof, its curves sampled, with teeth along the outer one. */
function toothedArc(inner: number, outer: number, angle: number, samples: number, teeth: boolean): Ring {
  const on = (radius: number, k: number): Vec2 => {
    const turn = (angle * k) / samples;
    return [radius * Math.cos(turn), radius * Math.sin(turn)];
  };
  const out = Array.from({ length: samples + 1 }, (_, k) => on(teeth && k % 4 === 2 ? outer * 0.96 : outer, k));
  const back = Array.from({ length: samples + 1 }, (_, k) => on(inner, samples - k));
  return [...out, ...back];
}

describe('a ring of fewer points', () => {
  test('holds the given one, lies in its box and is hardly larger', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 60, noNaN: true }),
        fc.double({ min: 10, max: 60, noNaN: true }),
        fc.double({ min: 0.5, max: 3, noNaN: true }),
        fc.integer({ min: 60, max: 90 }),
        fc.boolean(),
        (inner, width, angle, samples, teeth) => {
          const ring = toothedArc(inner, inner + width, angle, samples, teeth);
          const outer = outerRing(ring);
          expect(outer.length).toBeLessThan(ring.length);
          expect(boxOf(outer)).toEqual(boxOf(ring));
          const [area, grown] = [ringArea(ring), ringArea(outer)];
          expect(grown).toBeGreaterThanOrEqual(area * (1 - 1e-12));
          expect(grown).toBeLessThan(area * 1.15);
          const closed = (points: Ring): [[number, number][]] => [points.map(([x, y]) => [x, y])];
          const lost = difference(closed(ring), closed(outer)).flat();
          expect(lost.reduce((sum, one) => sum + Math.abs(ringArea(one)), 0)).toBeLessThan(area * 1e-9);
        },
      ),
      { numRuns: runs(8) },
    );
  });

  test('outlines of few points stay as they are', () => {
    const ring: Ring = [
      [0, 0],
      [40, 0],
      [21, 1],
      [20, 60],
    ];
    expect(outerRing(ring)).toBe(ring);
  });
});

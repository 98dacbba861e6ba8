import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../core/geometry/vector.ts';
import { dot3, sub3 } from '../../core/geometry/vector.ts';
import { aimAtFold, ease, fitShot, mixShots, NEAREST, type Shot, shotPosition, viewBasis } from './shot.ts';

/** Where a point appears: -1 to 1 across and up the picture. */
const project = (shot: Shot, aspect: number, p: Vec3): readonly [number, number] => {
  const { right, up, forward } = viewBasis(shot);
  const away = sub3(p, shotPosition(shot));
  const half = Math.tan(shot.fov / 2);
  const depth = dot3(away, forward);
  return [dot3(away, right) / (depth * half * aspect), dot3(away, up) / (depth * half)];
};

const points = fc.array(
  fc.tuple(fc.integer({ min: -300, max: 300 }), fc.integer({ min: -300, max: 300 }), fc.integer({ min: 0, max: 250 })),
  { minLength: 3, maxLength: 24 },
);
const share = fc.double({ min: 0, max: 0.3, noNaN: true });
const margins = fc.record({ left: share, right: share, top: share, bottom: share });
const aim = fc.record({
  azimuth: fc.double({ min: -3, max: 3, noNaN: true }),
  polar: fc.double({ min: 0.0004, max: 1.4, noNaN: true }),
  fov: fc.double({ min: 0.12, max: 0.9, noNaN: true }),
});
const aspect = fc.double({ min: 0.4, max: 2.4, noNaN: true });

describe('fitShot', () => {
  it('holds every point within the margins, and one of them on an edge', () => {
    fc.assert(
      fc.property(points, aim, aspect, margins, (all, from, wide, free) => {
        const distinct = new Set(all.map(String)).size > 1;
        const shot = fitShot(all, from, wide, free);
        const seen = all.map((p) => project(shot, wide, p));
        for (const [x, y] of seen) {
          expect(x).toBeGreaterThanOrEqual(-1 + 2 * free.left - 1e-6);
          expect(x).toBeLessThanOrEqual(1 - 2 * free.right + 1e-6);
          expect(y).toBeGreaterThanOrEqual(-1 + 2 * free.bottom - 1e-6);
          expect(y).toBeLessThanOrEqual(1 - 2 * free.top + 1e-6);
        }
        const { forward } = viewBasis(from);
        const camera = dot3(forward, shotPosition(shot));
        const isHeldOff = all.some((p) => dot3(forward, p) - camera < NEAREST + 1e-6);
        if (!distinct || shot.distance === 1 || isHeldOff) return;
        const slack = seen.flatMap(([x, y]) => [
          1 - 2 * free.right - x,
          x + 1 - 2 * free.left,
          1 - 2 * free.top - y,
          y + 1 - 2 * free.bottom,
        ]);
        expect(Math.min(...slack)).toBeLessThan(1e-6);
      }),
    );
  });

  it('sees a square plan with north up', () => {
    const square: Vec3[] = [
      [-50, -50, 0],
      [50, -50, 0],
      [50, 50, 0],
      [-50, 50, 0],
    ];
    const none = { left: 0, right: 0, top: 0, bottom: 0 };
    const shot = fitShot(square, { azimuth: 0, polar: 0.0004, fov: 0.14 }, 1, none);
    const [x, y] = project(shot, 1, [50, 50, 0]);
    expect(x).toBeCloseTo(1, 2);
    expect(y).toBeCloseTo(1, 2);
    expect(shot.distance * Math.tan(0.07)).toBeCloseTo(50, 0);
  });

  it('answers with a shot of the origin when there is nothing to see', () => {
    expect(fitShot([], aimAtFold(0), 1.6, { left: 0, right: 0, top: 0, bottom: 0 }).target).toEqual([0, 0, 0]);
  });
});

describe('mixShots', () => {
  const a: Shot = { target: [0, 0, 0], azimuth: 3, polar: 0.1, distance: 900, fov: 0.14 };
  const b: Shot = { target: [10, 20, 30], azimuth: -3, polar: 1.1, distance: 300, fov: 0.5 };

  it('starts and ends at its shots', () => {
    expect(mixShots(a, b, 0).distance).toBeCloseTo(900, 9);
    const end = mixShots(a, b, 1);
    expect(end.distance).toBeCloseTo(300, 9);
    expect(end.target).toEqual([10, 20, 30]);
  });

  it('turns the short way round', () => {
    expect(mixShots(a, b, 0.5).azimuth).toBeCloseTo(Math.PI, 9);
  });
});

describe('aimAtFold', () => {
  it('looks straight down at first and never rises from the side again', () => {
    expect(aimAtFold(0).polar).toBeLessThan(0.001);
    let last = -1;
    for (let t = 0; t <= 1; t += 0.02) {
      const { polar } = aimAtFold(t);
      expect(polar).toBeGreaterThanOrEqual(last);
      last = polar;
    }
    expect(ease(0.2, 0.4, 0.3)).toBeCloseTo(0.5, 9);
  });
});

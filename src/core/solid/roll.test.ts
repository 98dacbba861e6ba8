import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runs } from '../../../tests/laws/runs.ts';
import { move3 } from '../geometry/motion.ts';
import { add3, distance2, distance3, dot3, scale3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import {
  bendMotion,
  bendPoint,
  lengthBetween,
  type RolledSurface,
  rulingAt,
  rulingUnder,
  touchUnder,
  unbendPoint,
} from './roll.ts';

const number = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

const surface: fc.Arbitrary<RolledSurface> = fc.oneof(
  fc.record({ form: fc.constant('cone' as const), apex: number(20, 400), sine: number(0.15, 0.99) }),
  fc.record({
    form: fc.constant('cylinder' as const),
    radius: number(5, 500),
    rulings: fc.constantFrom('x' as const, 'y' as const),
  }),
);

/** A surface and a flat point on it, less than half way round to either side. */
const onSurface = surface.chain((rolled) =>
  fc.record({
    rolled: fc.constant(rolled),
    p:
      rolled.form === 'cone'
        ? fc.tuple(number(0.05, 1), number(-3, 3)).map(([part, azimuth]): Vec2 => {
            const [slant, angle] = [part * rolled.apex, azimuth * rolled.sine];
            return [slant * Math.sin(angle), rolled.apex - slant * Math.cos(angle)];
          })
        : fc.tuple(number(-3, 3), number(-200, 200)).map(([turn, along]): Vec2 => {
            const across = turn * rolled.radius;
            return rolled.rulings === 'y' ? [across, along] : [along, across];
          }),
    share: number(0, 1),
  }),
);

const counts = { numRuns: runs(500) };

describe('rolled paper', () => {
  test('lies flat at no share of its bend, and unbends from all of it to where it was', () => {
    fc.assert(
      fc.property(onSurface, ({ rolled, p }) => {
        expect(distance3(bendPoint(rolled, p, 0), [...p, 0])).toBeLessThan(1e-9);
        expect(distance2(unbendPoint(rolled, bendPoint(rolled, p, 1)), p)).toBeLessThan(1e-7);
      }),
      counts,
    );
  });

  test('stretches nowhere: a small square stays one, with its printed side outwards', () => {
    fc.assert(
      fc.property(onSurface, ({ rolled, p: [x, y], share }) => {
        const step = 1e-4;
        const here = bendPoint(rolled, [x, y], share);
        const slope = (to: Vec2): Vec3 => {
          const [a, b, c] = sub3(bendPoint(rolled, to, share), here);
          return [a / step, b / step, c / step];
        };
        const [u, v] = [slope([x + step, y]), slope([x, y + step])];
        expect(dot3(u, u)).toBeCloseTo(1, 3);
        expect(dot3(v, v)).toBeCloseTo(1, 3);
        expect(dot3(u, v)).toBeCloseTo(0, 3);
        const { rotation } = bendMotion(rolled, [x, y], share);
        for (const [i, side] of [u, v].entries()) {
          const axis = [0, 1, 2].map((row) => rotation[row as 0]?.[i as 0] ?? 0) as unknown as Vec3;
          expect(distance3(axis, side)).toBeLessThan(1e-3);
        }
      }),
      counts,
    );
  });

  test('carries each point of the sheet where the whole sheet takes it', () => {
    fc.assert(
      fc.property(onSurface, ({ rolled, p, share }) => {
        expect(distance3(move3(bendMotion(rolled, p, share), [...p, 0]), bendPoint(rolled, p, share))).toBeLessThan(
          1e-9,
        );
      }),
      counts,
    );
  });

  test('is a right circular cone: as far from the peak as flat, at radius over slant from the axis', () => {
    fc.assert(
      fc.property(onSurface, ({ rolled, p }) => {
        if (rolled.form !== 'cone') return;
        const slant = distance2(p, [0, rolled.apex]);
        const away = sub3(bendPoint(rolled, p, 1), [0, rolled.apex, 0]);
        expect(Math.hypot(...away)).toBeCloseTo(slant, 9);
        const axis: Vec3 = [0, -Math.sqrt(1 - rolled.sine ** 2), -rolled.sine];
        expect(Math.sqrt(Math.max(0, slant ** 2 - dot3(away, axis) ** 2))).toBeCloseTo(slant * rolled.sine, 6);
      }),
      counts,
    );
  });

  test('has a ruling through each of its points, with the normal there, and lies on it', () => {
    fc.assert(
      fc.property(onSurface, ({ rolled, p }) => {
        const point = bendPoint(rolled, p, 1);
        const ruling = rulingAt(rolled, rulingUnder(rolled, point));
        expect(distance3(ruling.point, point)).toBeLessThan(1e-9);
        expect(distance3(ruling.normal, touchUnder(rolled, point).normal)).toBeLessThan(1e-9);
        const on = rulingUnder(rolled, point);
        const ahead = rulingAt(rolled, { ...on, reach: on.reach + 7 }).point;
        expect(distance3(ahead, add3(ruling.point, scale3(ruling.along, 7)))).toBeLessThan(1e-9);
      }),
      counts,
    );
  });

  test('measures a curve along the paper', () => {
    fc.assert(
      fc.property(onSurface, number(0.001, 0.3), ({ rolled, p }, turn) => {
        if (rolled.form !== 'cone') return;
        const slant = distance2(p, [0, rolled.apex]);
        const azimuth = Math.atan2(p[0], rolled.apex - p[1]) / rolled.sine;
        const on = { azimuth, reach: slant };
        const ahead = { ...on, azimuth: azimuth + turn / rolled.sine };
        expect(lengthBetween(rolled, on, ahead)).toBeCloseTo(slant * turn, 9);
        expect(lengthBetween(rolled, on, { ...on, reach: slant / 2 })).toBeCloseTo(slant / 2, 9);
      }),
      counts,
    );
  });
});

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { distance2, type Vec2 } from '../../core/geometry/vector.ts';
import { drawOnce } from './draw-once.ts';
import { line, ring, type Stroke } from './drawing.ts';

const box = (x: number, y: number, width: number, height: number): Stroke =>
  ring('cut', [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ]);

const lengthOf = (strokes: readonly Stroke[]): number =>
  strokes.reduce(
    (sum, { points, closed }) =>
      sum +
      points.reduce((all, point, i) => {
        const next = points[i + 1] ?? (closed ? points[0] : undefined);
        return next === undefined ? all : all + distance2(point, next);
      }, 0),
    0,
  );

it('leaves strokes that share nothing as they are', () => {
  const strokes = [box(0, 0, 10, 10), box(20, 0, 10, 10), line('rule', [0, 0], [10, 0])];
  expect(drawOnce(strokes)).toEqual(strokes);
});

it('cuts the shared part of two neighbours once', () => {
  fc.assert(
    fc.property(fc.integer({ min: -9, max: 9 }), fc.integer({ min: 1, max: 20 }), (shift, height) => {
      const strokes = [box(0, 0, 10, 10), box(10, shift, 10, height)];
      const shared = Math.max(0, Math.min(10, shift + height) - Math.max(0, shift));
      expect(lengthOf(drawOnce(strokes))).toBeCloseTo(lengthOf(strokes) - shared, 9);
    }),
  );
});

it('draws a piece that lies on another only once', () => {
  expect(lengthOf(drawOnce([box(0, 0, 10, 10), box(0, 0, 10, 10)]))).toBeCloseTo(40, 9);
});

it('leaves no gap where a run is kept', () => {
  const strokes = drawOnce([box(0, 0, 10, 10), box(10, 0, 10, 10)]);
  const [, rest] = strokes as readonly [Stroke, Stroke];
  expect(rest.points).toEqual([
    [10, 0],
    [20, 0],
    [20, 10],
    [10, 10],
  ] satisfies Vec2[]);
  expect(rest.closed).toBe(false);
});

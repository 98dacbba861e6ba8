import { describe, expect, it } from 'vitest';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { fitPlan, placeLabels, squareSize } from './plan-view.ts';

const room = { width: 400, height: 300, margin: [80, 50] as Vec2 };

describe('a plan on its sheet', () => {
  it('lies between the margins with its front at the bottom, and is found again under a hand', () => {
    const view = fitPlan(
      [
        [10, 20],
        [50, 20],
        [50, 40],
      ],
      room,
    );
    expect(view.toPage([10, 20])).toEqual([80, 210]);
    expect(view.toPage([50, 40])).toEqual([320, 90]);
    const [x, y] = view.toPlan(view.toPage([33, 27]));
    expect(x).toBeCloseTo(33, 9);
    expect(y).toBeCloseTo(27, 9);
  });

  it('keeps labels apart and inside', () => {
    const label = (x: number, y: number, out: Vec2) => ({ at: [x, y] as Vec2, out, size: [60, 24] as Vec2 });
    const labels = [label(200, 150, [0, 1]), label(210, 152, [0, 1]), label(395, 150, [1, 0]), label(205, 149, [0, 1])];
    const spots = placeLabels(labels, [], room).map(({ middle }) => middle);
    spots.forEach((a, i) => {
      expect(a[0]).toBeLessThanOrEqual(370);
      for (const b of spots.slice(i + 1)) {
        expect(Math.abs(a[0] - b[0]) >= 60 || Math.abs(a[1] - b[1]) >= 24).toBe(true);
      }
    });
    expect(spots[0]).toEqual([200, 170]);
  });

  it('draws labels in where there is no room for them', () => {
    const crowd = Array.from({ length: 40 }, () => ({ at: [200, 150], out: [0, 1], size: [90, 30] }) as const);
    const placed = placeLabels(crowd, [], room);
    expect(placed[0]?.isTight).toBe(false);
    expect(placed.at(-1)?.isTight).toBe(true);
  });

  it('draws squares that can be told apart', () => {
    expect(squareSize(6, 10)).toBe(10);
    expect(squareSize(0.6, 10)).toBe(40);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Solid } from '../../core/solid/solid.ts';
import { flowPieces } from './flow-pieces.ts';
import { drawRoof } from './roof-picture.ts';
import { nearestStop, ruleTicks } from './rule-ticks.ts';

const pyramid: Solid = {
  vertices: [
    [-20, -30, 0],
    [20, -30, 0],
    [20, 30, 0],
    [-20, 30, 0],
    [0, 0, 50],
  ],
  faces: [
    [0, 1, 4],
    [1, 2, 4],
    [2, 3, 4],
    [3, 0, 4],
  ].map((loop, i) => ({
    id: `side-${i}`,
    title: `Side ${i}`,
    loop,
    part: 'slope',
    side: `side-${i}`,
  })),
  edges: [],
};

describe('the picture of a roof', () => {
  it('shows every panel once, the two that face the eye last', () => {
    const { patches } = drawRoof(pyramid, null, 0);
    expect(patches).toHaveLength(4);
    const near = patches.slice(2).map((patch) => patch.points.map((p) => p[0]));
    // The eye is front right: the front panel (x from -20 to 20 at y = -30) and the right one.
    expect(near.some((xs) => Math.abs(Math.min(...xs) - -50 * (Math.sqrt(3) / 2)) < 1e-9)).toBe(true);
    for (const patch of patches) expect(patch.light).toBeGreaterThan(0);
  });

  it('keeps everything inside its box', () => {
    const { patches, box } = drawRoof(pyramid, null, 0);
    for (const [x, y] of patches.flatMap((patch) => patch.points)) {
      expect(x).toBeGreaterThanOrEqual(box[0] - 1e-9);
      expect(x).toBeLessThanOrEqual(box[0] + box[2] + 1e-9);
      expect(y).toBeLessThanOrEqual(box[1] + box[3] + 1e-9);
    }
  });
});

describe('pieces in rows', () => {
  const size = fc.record({
    width: fc.double({ min: 1, max: 300, noNaN: true }),
    height: fc.double({ min: 1, max: 300, noNaN: true }),
  });
  const room = { left: 24, right: 26, top: 18, bottom: 40 };

  it('never overlaps two pieces nor leaves the width', () => {
    fc.assert(
      fc.property(
        fc.array(size, { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 240, max: 1400 }),
        (sizes, width) => {
          const flow = flowPieces(sizes, { width, height: 500, room, least: 1, most: 8 });
          const boxes = sizes.map((s, i) => {
            const [x, y] = flow.spots[i] as readonly [number, number];
            return { x0: x, y0: y, x1: x + s.width * flow.scale, y1: y + s.height * flow.scale };
          });
          for (const [i, a] of boxes.entries()) {
            expect(a.x0).toBeGreaterThanOrEqual(-1e-6);
            expect(a.x1).toBeLessThanOrEqual(width + 1e-6);
            expect(a.y1).toBeLessThanOrEqual(flow.height + 1e-6);
            for (const b of boxes.slice(i + 1)) {
              expect(a.x1 <= b.x0 || b.x1 <= a.x0 || a.y1 <= b.y0 || b.y1 <= a.y0).toBe(true);
            }
          }
        },
      ),
    );
  });

  it('grows to fill the height it is given', () => {
    const sizes = [
      { width: 50, height: 80 },
      { width: 40, height: 60 },
    ];
    const flow = flowPieces(sizes, { width: 900, height: 500, room, least: 1, most: 20 });
    expect(flow.height).toBeLessThanOrEqual(500);
    expect(flow.height).toBeGreaterThan(495);
  });
});

describe('the steel rule', () => {
  it('has one long mark a unit and a half mark between', () => {
    const ticks = ruleTicks(4, 16);
    expect(ticks.filter((tick) => tick.size === 'long')).toHaveLength(5);
    expect(ticks.filter((tick) => tick.size === 'half').map((tick) => tick.at)).toEqual([1 / 8, 3 / 8, 5 / 8, 7 / 8]);
    expect(ticks.filter((tick) => tick.size === 'quarter')).toHaveLength(8);
  });

  it('knows the nearest stop', () => {
    const stops = [{ t: 0 }, { t: 0.15 }, { t: 0.6 }, { t: 1 }];
    expect(nearestStop(0.2, stops)).toEqual({ index: 1, isOn: false });
    expect(nearestStop(0.6, stops)).toEqual({ index: 2, isOn: true });
    expect(nearestStop(0.81, stops)).toEqual({ index: 3, isOn: false });
  });
});

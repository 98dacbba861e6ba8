import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrangePages, type Size, turnSize } from './arrange-pages.ts';

const GAP = 4;
const size = fc.record({
  width: fc.double({ min: 1, max: 260, noNaN: true }),
  height: fc.double({ min: 1, max: 260, noNaN: true }),
});
const area: Size = { width: 198, height: 240 };

describe('boxes on pages', () => {
  it('lie inside the area, keep the gap, and all that fit are there', () => {
    fc.assert(
      fc.property(fc.array(size, { maxLength: 25 }), (boxes) => {
        const spots = arrangePages(boxes, area, GAP);
        const laid = spots.flatMap((spot, i) => {
          const box = boxes[i] as Size;
          const couldFit = [box, turnSize(box)].some(
            ({ width, height }) => width <= area.width && height <= area.height,
          );
          expect(spot !== null).toBe(couldFit);
          return spot === null ? [] : [{ ...spot, ...(spot.turned ? turnSize(box) : box) }];
        });
        laid.forEach((a, i) => {
          expect(a.x).toBeGreaterThanOrEqual(0);
          expect(a.y).toBeGreaterThanOrEqual(-1e-9);
          expect(a.x + a.width).toBeLessThanOrEqual(area.width + 1e-9);
          expect(a.y + a.height).toBeLessThanOrEqual(area.height + 1e-9);
          for (const b of laid.slice(0, i)) {
            const apart =
              a.page !== b.page ||
              a.x + a.width + GAP <= b.x + 1e-9 ||
              b.x + b.width + GAP <= a.x + 1e-9 ||
              a.y + a.height + GAP <= b.y + 1e-9 ||
              b.y + b.height + GAP <= a.y + 1e-9;
            expect(apart).toBe(true);
          }
        });
        const used = new Set(laid.map(({ page }) => page));
        expect([...used].sort((a, b) => a - b)).toEqual([...used.keys()].map((_, i) => i));
      }),
    );
  });

  it('are turned only where that saves a page', () => {
    expect(arrangePages([{ width: 50, height: 90 }], area, GAP)).toEqual([{ page: 0, x: 0, y: 150, turned: false }]);
    const long = { width: 230, height: 60 };
    expect(arrangePages([long], area, GAP)[0]?.turned).toBe(true);
    const three = [1, 2, 3].map(() => ({ width: 100, height: 120 }));
    expect(arrangePages(three, area, GAP).some((spot) => spot?.turned)).toBe(
      Math.max(...arrangePages(three, area, GAP).map((spot) => spot?.page ?? 0)) === 0,
    );
  });
});

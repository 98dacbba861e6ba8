import fc from 'fast-check';
import { expect, test } from 'vitest';
import { boxGrid, gridOf } from './box-grid.ts';
import { areApart, type Box } from './polygon.ts';

const place = fc.double({ min: -300, max: 300, noNaN: true });
const size = fc.oneof(fc.double({ min: 0, max: 9, noNaN: true }), fc.double({ min: 0, max: 700, noNaN: true }));
const box = fc
  .tuple(place, place, size, size)
  .map(([minX, minY, width, height]): Box => ({ minX, minY, maxX: minX + width, maxY: minY + height }));

test('finds the boxes that come near, in their order', () => {
  fc.assert(
    fc.property(
      fc.array(box, { maxLength: 60 }),
      box,
      fc.double({ min: 0, max: 20, noNaN: true }),
      (boxes, asked, gap) => {
        const near = boxes.flatMap((one, i) => (areApart(one, asked, gap) ? [] : [i]));
        expect(gridOf(boxes).near(asked, gap)).toEqual(near);
      },
    ),
  );
});

test('a box that is added later is found too', () => {
  const at = (x: number): Box => ({ minX: x, minY: 0, maxX: x + 1, maxY: 1 });
  const grid = boxGrid();
  for (let x = 0; x < 40; x++) grid.add(at(10 * x));
  expect(grid.near(at(100))).toEqual([10]);
  grid.add(at(100.5));
  expect(grid.near(at(100))).toEqual([10, 40]);
});

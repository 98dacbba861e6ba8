import { expect, test } from 'vitest';
import { emptyDrawing } from '../drawing/drawing.ts';
import { airBox, type Box, tableBoxes } from './boxes.ts';
import { paginate } from './paginate.ts';

test('a long table leaves no one or two of its rows alone at the foot or the head of a page', () => {
  const [width, height] = [160, 120];
  const rows = Array.from({ length: 20 }, (_, i) => [`row ${i}`, 'hip']);
  // However far down the page it begins.
  for (let above = 1; above < height; above++) {
    const boxes = [{ height: above, drawing: emptyDrawing }, ...tableBoxes(['Seam', 'Edge'], rows, width)];
    const counts = paginate(boxes, { width, height }).map(
      (page) => page.flatMap(({ box }) => box.drawing.labels).filter(({ text }) => text.startsWith('row')).length,
    );
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(rows.length);
    for (const count of counts) expect(count === 0 || count >= 3, `${counts} from ${above} mm`).toBe(true);
  }
});

test('a heading goes over with the columns that it stands above', () => {
  const [width, height] = [160, 120];
  const words = Array.from({ length: 12 }, () => ({ height: 10, drawing: emptyDrawing, isOfColumn: true }));
  for (let above = 1; above < height; above++) {
    const heading = { height: 8, drawing: emptyDrawing, staysWithNext: true };
    const boxes = [{ height: above, drawing: emptyDrawing }, heading, ...words];
    for (const page of paginate(boxes, { width, height }))
      expect(page.at(-1)?.box, `from ${above} mm`).not.toBe(heading);
  }
});

/** Boxes of a column that stand on one page. */
const group = (count: number, height: number): readonly Box[] =>
  Array.from({ length: count }, (_, i) => ({
    height,
    drawing: emptyDrawing,
    isOfColumn: true,
    keepsPage: i < count - 1,
  }));

test('what keeps its page is parted by no page, and fills both columns where it is alone', () => {
  const [width, height] = [160, 120];
  for (let above = 1; above < height; above++) {
    const groups = [group(8, 10), group(4, 12), group(14, 9)];
    const boxes = [{ height: above, drawing: emptyDrawing }, ...groups.flat()];
    const pages = paginate(boxes, { width, height });
    expect(pages.flat().map(({ box }) => box)).toEqual(boxes);
    for (const own of groups) {
      const on = pages.filter((page) => page.some(({ box }) => own.includes(box)));
      expect(on.length, `from ${above} mm`).toBe(1);
    }
    for (const { box, y } of pages.flat()) expect(y + box.height).toBeLessThanOrEqual(height);
  }
  // Eight boxes of 10 mm are 40 mm high in two columns.
  const [first] = paginate([{ height: 75, drawing: emptyDrawing }, ...group(8, 10)], { width, height });
  expect(first?.length).toBe(9);
});

test('two short groups take a column each', () => {
  const [page] = paginate([...group(4, 10), ...group(2, 10)], { width: 160, height: 120 });
  expect(page?.map(({ x }) => Number(x > 0))).toEqual([0, 0, 0, 0, 1, 1]);
});

test('air turns no page, and none stands at the head of one', () => {
  const block: Box = { height: 58, drawing: emptyDrawing };
  const pages = paginate([block, airBox(2), block, airBox(4), block], { width: 160, height: 120 });
  expect(pages.map((page) => page.map(({ y }) => y))).toEqual([[0, 60], [0]]);
});

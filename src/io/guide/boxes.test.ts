import { expect, test } from 'vitest';
import { emptyDrawing } from '../drawing/drawing.ts';
import { tableBoxes } from './boxes.ts';
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

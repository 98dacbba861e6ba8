import { rest2 } from '../../core/geometry/rigid2.ts';
import type { LinePicture } from '../../core/guide/line-picture.ts';
import { clearNumbers } from '../drawing/clear-numbers.ts';
import { type Drawing, emptyDrawing, joinDrawings, labelAt, line, moveDrawing, ring } from '../drawing/drawing.ts';
import { textWidth, wrapText } from '../drawing/text-width.ts';

/** Something of fixed size on a page; its drawing hangs down from the origin, its upper left corner. mm. */
export interface Box {
  readonly height: number;
  readonly drawing: Drawing;
  /** It stands on the same page as the box after it. */
  readonly staysWithNext?: boolean;
  /** Of a column: it stands on the same page as the box after it, which may go over to the next column. */
  readonly keepsPage?: boolean;
  /** A new page begins with it. */
  readonly startsPage?: boolean;
  /** Nothing but room to what follows: at the head of a page there is none. */
  readonly isAir?: boolean;
  /** It is as wide as one of two columns, and runs on in them. */
  readonly isOfColumn?: boolean;
}

export const TEXT = 3.5;
const LEADING = 4.9;
/** From the top of a line to its baseline. */
const RISE = 3.5;
const AIR = 2.2;

export const shiftBox = (box: Box, x: number, y: number): Drawing =>
  moveDrawing(box.drawing, { ...rest2, move: [x, y] });

/** Room to what follows, mm. */
export const airBox = (height: number): Box => ({ height, drawing: emptyDrawing, isAir: true });

/** Boxes one below the other as one. */
export function stackBoxes(boxes: readonly Box[]): Box {
  let y = 0;
  const parts = boxes.map((box) => {
    const part = shiftBox(box, 0, -y);
    y += box.height;
    return part;
  });
  return { height: y, drawing: joinDrawings(...parts) };
}

/** Boxes beside each other in columns of one width, as high as the highest. */
export const besideBoxes = (boxes: readonly Box[], step: number): Box => ({
  height: Math.max(0, ...boxes.map(({ height }) => height)),
  drawing: joinDrawings(...boxes.map((box, i) => shiftBox(box, i * step, 0))),
});

export function textBox(text: string, width: number, { size = TEXT, after = AIR } = {}): Box {
  const scale = size / TEXT;
  const rows = wrapText(text, size, width);
  return {
    height: rows.length * LEADING * scale + after,
    drawing: { strokes: [], labels: rows.map((row, i) => labelAt(row, [0, -(RISE + i * LEADING) * scale], size)) },
  };
}

/** A section's title with a rule under it. */
export const titleBox = (text: string, width: number): Box => {
  const title = textBox(text, width, { size: 6.4, after: 0 });
  return {
    height: title.height + 5,
    drawing: joinDrawings(title.drawing, {
      strokes: [line('rule', [0, -title.height - 0.6], [width, -title.height - 0.6])],
      labels: [],
    }),
    staysWithNext: true,
  };
};

export const headingBox = (text: string, width: number): Box => ({
  ...stackBoxes([airBox(1.6), textBox(text, width, { size: 4.4, after: 1.6 })]),
  staysWithNext: true,
});

/** A list with a mark before each of its items. */
export const itemsBox = (items: readonly string[], width: number): Box =>
  stackBoxes(
    items.map((item) => {
      const text = textBox(item, width - 5, { after: 0.6 });
      return {
        height: text.height,
        drawing: joinDrawings(shiftBox(text, 5, 0), { strokes: [], labels: [labelAt('•', [1, -RISE], TEXT)] }),
      };
    }),
  );

/** A word in the margin and what it is about beside it. */
export const termBox = (term: string, meaning: string, width: number, room: number): Box => {
  const text = textBox(meaning, width - room, { after: 1 });
  return {
    height: text.height,
    drawing: joinDrawings(shiftBox(text, room, 0), { strokes: [], labels: [labelAt(term, [0, -RISE], TEXT)] }),
  };
};

/** Tables of so many rows are not parted; of longer ones no fewer than `FEW` stand by themselves on a page. */
const SHORT = 8;
const FEW = 3;

/** Rows of cells, each column as wide as it needs; the widest gives way where the page is too narrow. */
export function tableBoxes(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  width: number,
): readonly Box[] {
  const gap = 5;
  const size = 3.2;
  const natural = head.map(
    (cell, c) => Math.max(...[cell, ...rows.map((row) => row[c] ?? '')].map((text) => textWidth(text, size))) + 0.5,
  );
  const room = width - gap * (head.length - 1);
  const over = natural.reduce((sum, w) => sum + w, 0) - room;
  const widest = natural.indexOf(Math.max(...natural));
  const widths = natural.map((w, c) => (over > 0 && c === widest ? Math.max(24, w - over) : w));
  const lefts = widths.map((_, c) => widths.slice(0, c).reduce((sum, w) => sum + w + gap, 0));
  const rowBox = (cells: readonly string[]): Box => {
    const boxes = cells.map((cell, c) => textBox(cell, widths[c] ?? 20, { size, after: 0.8 }));
    const height = Math.max(...boxes.map((box) => box.height));
    return { height, drawing: joinDrawings(...boxes.map((box, c) => shiftBox(box, lefts[c] ?? 0, 0))) };
  };
  const heading = rowBox(head);
  const across = Math.min(width, (lefts.at(-1) ?? 0) + (widths.at(-1) ?? 0));
  return [
    {
      height: heading.height + 1,
      drawing: joinDrawings(heading.drawing, {
        strokes: [line('rule', [0, -heading.height], [across, -heading.height])],
        labels: [],
      }),
      staysWithNext: true,
    },
    ...rows.map(
      (row, i): Box => ({
        ...rowBox(row),
        staysWithNext: rows.length <= SHORT || i < FEW - 1 || i > rows.length - FEW - 1,
      }),
    ),
    airBox(3),
  ];
}

/** Height of the numbers in a picture, mm. */
const NUMBER = 2.8;

/** A picture in a frame of this size at most, with texts at places of the picture. */
export function pictureBox(
  { lines, box }: LinePicture,
  room: { readonly width: number; readonly height: number },
  texts: readonly { readonly text: string; readonly at: readonly [number, number] }[] = [],
): Box {
  const [w, h] = [Math.max(box.maxX - box.minX, 1e-6), Math.max(box.maxY - box.minY, 1e-6)];
  const scale = Math.min(room.width / w, room.height / h);
  const left = (room.width - w * scale) / 2;
  const place = ([x, y]: readonly [number, number]): readonly [number, number] => [
    left + (x - box.minX) * scale,
    (y - box.maxY) * scale,
  ];
  return {
    height: h * scale,
    drawing: {
      strokes: lines.map(([a, b]) => line('rule', place(a), place(b))),
      labels: clearNumbers(
        texts.map(({ text, at }) => ({ text, at: place(at) })),
        NUMBER,
      ),
    },
  };
}

/** A small square to tick. */
export const tickSquare = (x: number, y: number): Drawing => {
  const side = 3;
  return {
    strokes: [
      ring('rule', [
        [x, y],
        [x + side, y],
        [x + side, y - side],
        [x, y - side],
      ]),
    ],
    labels: [],
  };
};

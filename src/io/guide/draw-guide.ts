import { makeGuide } from '../../core/guide/guide.ts';
import type { Guide, GuideBlock, GuideSection, GuideStep } from '../../core/guide/guide-data.ts';
import { drawMoment } from '../../core/guide/moments.ts';
import { sheetPicture } from '../../core/guide/sheet-picture.ts';
import type { LaidSheet } from '../../core/layout/layout.ts';
import type { Production } from '../../core/pipeline.ts';
import { findPaperSize } from '../../core/project/paper-sizes.ts';
import type { PageSpec } from '../../core/project/project.ts';
import { makeSetOut } from '../../core/setout/make-set-out.ts';
import { type Drawing, emptyDrawing, joinDrawings, labelAt, line, type SheetDrawing } from '../drawing/drawing.ts';
import { shortenText } from '../drawing/text-width.ts';
import {
  airBox,
  type Box,
  besideBoxes,
  headingBox,
  itemsBox,
  pictureBox,
  shiftBox,
  stackBoxes,
  TEXT,
  tableBoxes,
  termBox,
  textBox,
  tickSquare,
  titleBox,
} from './boxes.ts';
import { columnWidth, paginate } from './paginate.ts';
import { setOutBoxes } from './set-out-boxes.ts';
import { templateBoxes } from './template-boxes.ts';

/** Between the paper's edge and the text, mm; pages are bound or clipped. */
const MARGIN = 15;
const FOOT = 8;
const GAP = 7;

/** The guide of a project as the pages of a booklet: on the project's page where that is large enough, else on A4 or Letter. */
export function drawGuide(production: Production): readonly SheetDrawing[] {
  const guide = makeGuide(production);
  const page = guidePage(production);
  const width = page.width - 2 * MARGIN;
  const room = page.height - 2 * MARGIN - FOOT;
  const setOuts = production.sheets.map((sheet) => makeSetOut(production, sheet));
  const boxes = [
    textBox(guide.title, width, { size: 8, after: 1 }),
    textBox('The order of work. Lengths in both units; tick each step as it is done.', width, { after: 5 }),
    ...guide.sections.flatMap((section) => [
      ...sectionBoxes(production, section, width),
      // Marks are set out before anything is cut.
      ...(section.id === 'sheets' ? setOutBoxes(production, setOuts, width) : []),
    ]),
    ...templateBoxes(production, setOuts, { width, height: room }),
  ];
  const pages = paginate(boxes, { width, height: room });
  return pages.map((work, i) => ({
    width: page.width,
    height: page.height,
    work: joinDrawings(...work.map(({ box, x, y }) => shiftBox(box, MARGIN + x, page.height - MARGIN - y))),
    frame: footer(page, guide, i + 1, pages.length),
  }));
}

/** Under this a page holds no step beside its picture, mm. */
const LEAST = { width: 140, height: 180 };

const guidePage = ({ project: { page, units } }: Production): Pick<PageSpec, 'width' | 'height'> =>
  page.width >= LEAST.width && page.height >= LEAST.height
    ? page
    : (findPaperSize(units === 'in' ? 'Letter' : 'A4') ?? page);

const footer = ({ width }: Pick<PageSpec, 'width'>, { title }: Guide, number: number, count: number): Drawing => {
  const y = MARGIN - 3;
  const left = shortenText(`${title}. Guide. For model making only.`, 2.6, width - 2 * MARGIN - 26);
  return {
    strokes: [line('rule', [MARGIN, y + 4], [width - MARGIN, y + 4])],
    labels: [
      labelAt(left, [MARGIN, y], 2.6),
      labelAt(`Page ${number} of ${count}`, [width - MARGIN, y], 2.6, { align: 'end' }),
    ],
  };
};

function sectionBoxes(production: Production, { title, blocks }: GuideSection, width: number): readonly Box[] {
  const boxes: Box[] = [titleBox(title, width)];
  let steps = 0;
  for (let i = 0; i < blocks.length; ) {
    const block = blocks[i] as GuideBlock;
    const alike = blocks.slice(i).findIndex(({ kind }) => kind !== block.kind);
    const count = alike < 0 ? blocks.length - i : alike;
    if (block.kind === 'picture' || block.kind === 'sheet') {
      boxes.push(...figureRows(production, blocks.slice(i, i + count), width));
      i += count;
      continue;
    }
    if (block.kind === 'step') steps++;
    const own = blockBoxes(production, block, width, steps);
    // Words before figures are about them.
    const isAbout = block.kind === 'words' && ['picture', 'sheet', 'heading'].includes(blocks[i + 1]?.kind ?? '');
    boxes.push(...(isAbout ? own.map((box): Box => ({ ...box, staysWithNext: true })) : own));
    i++;
  }
  return [...boxes, airBox(5)];
}

function blockBoxes(production: Production, block: GuideBlock, width: number, steps: number): readonly Box[] {
  if (block.kind === 'words') return [textBox(block.text, width)];
  if (block.kind === 'heading') return [headingBox(block.text, width)];
  if (block.kind === 'items') return [itemsBox(block.items, width)];
  if (block.kind === 'caution') return [termBox(block.about, block.text, width, 24)];
  if (block.kind === 'terms')
    return block.terms.map(([term, meaning]) => ({
      ...termBox(term, meaning, columnWidth(width), 28),
      isOfColumn: true,
    }));
  if (block.kind === 'table') return tableBoxes(block.head, block.rows, width);
  return block.kind === 'step' ? [stepBox(production, block.step, width, steps)] : [];
}

/** A square to tick, the sentences, and at the right the picture. */
function stepBox(production: Production, { sentences, check, picture }: GuideStep, width: number, number: number): Box {
  const room = picture ? Math.min(62, width * 0.36) : 0;
  const indent = 12;
  const column = width - indent - (picture ? room + GAP : 0);
  const text = stackBoxes([
    ...sentences.map((sentence) => textBox(sentence, column, { after: 0.8 })),
    ...(check ? [textBox(`Check: ${check}`, column, { after: 0.8 })] : []),
  ]);
  const drawn = picture
    ? pictureBox(drawMoment(production, picture.moment), { width: room, height: room * 0.8 })
    : null;
  return {
    height: Math.max(text.height, drawn?.height ?? 0) + 4.5,
    drawing: joinDrawings(
      tickSquare(0, -0.9),
      { strokes: [], labels: [labelAt(String(number), [5, -TEXT], TEXT)] },
      shiftBox(text, indent, 0),
      drawn ? shiftBox(drawn, width - room, 0) : emptyDrawing,
    ),
  };
}

/** Three in a row, each with its words below. */
function figureRows(production: Production, blocks: readonly GuideBlock[], width: number): readonly Box[] {
  const columns = 3;
  const room = (width - GAP * (columns - 1)) / columns;
  const figures = blocks.flatMap((block) => figureBox(production, block, room));
  return Array.from({ length: Math.ceil(figures.length / columns) }, (_, row) => {
    const own = figures.slice(row * columns, (row + 1) * columns);
    // Pictures of a row stand on one line, their words below it.
    const high = Math.max(...own.map(({ picture }) => picture.height));
    const boxes = own.map(({ picture, caption }) =>
      stackBoxes([{ height: high - picture.height, drawing: emptyDrawing }, picture, airBox(1.5), caption]),
    );
    return besideBoxes(boxes, room + GAP);
  });
}

function figureBox(
  production: Production,
  block: GuideBlock,
  room: number,
): readonly { readonly picture: Box; readonly caption: Box }[] {
  if (block.kind === 'picture')
    return [
      {
        picture: pictureBox(drawMoment(production, block.picture.moment), { width: room, height: room * 1.15 }),
        caption: textBox(block.caption, room, { size: 3, after: 5 }),
      },
    ];
  if (block.kind !== 'sheet') return [];
  const picture = sheetPicture(production, production.sheets[block.sheet] as LaidSheet);
  const texts = picture.spots.map((at, i) => ({ text: block.keys[i] ?? '', at }));
  return [
    {
      picture: pictureBox(picture, { width: room, height: room }, texts),
      caption: textBox(block.caption, room, { size: 3, after: 5 }),
    },
  ];
}

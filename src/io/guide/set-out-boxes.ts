import type { Production } from '../../core/pipeline.ts';
import type { SetOut, SetOutPart, SetOutStrip } from '../../core/setout/set-out.ts';
import { rulerUnits } from '../../core/units/units.ts';
import { joinDrawings, labelAt } from '../drawing/drawing.ts';
import { drawPart } from '../drawing/set-out/draw-part.ts';
import { drawStrip, stripSide, stripSpan } from '../drawing/set-out/draw-strip.ts';
import { airBox, type Box, headingBox, itemsBox, shiftBox, TEXT, textBox, titleBox } from './boxes.ts';
import { columnWidth } from './paginate.ts';

/** A strip's picture takes at most so much of the page, mm. */
const PICTURE = 120;
const LETTER = 2.3;
/** What is told of a picture. */
const SMALL = 2.9;
const INDENT = 8;

/** Every sheet set out by ruler: the trimmer's list, then each strip's picture and its steps. */
export function setOutBoxes(production: Production, setOuts: readonly SetOut[], width: number): readonly Box[] {
  if (production.sheets.length === 0) return [];
  const ruler = production.project.ruler.replace(/(in|mm)$/, ' $1');
  return [
    titleBox('Set out by ruler', width),
    {
      ...textBox(
        `For paper that goes through no printer. All marks are on a ruler with marks of ${ruler}; lengths are in ${ruler.endsWith('in') ? 'inches' : 'millimetres'}. Numbers in the pictures are those of the marks.`,
        width,
      ),
      staysWithNext: true,
    },
    ...production.sheets.flatMap((sheet, s) => {
      const name = production.project.stock[sheet.stock]?.name ?? '';
      return sheetBoxes(`${name}, sheet ${sheet.index + 1}`, setOuts[s] as SetOut, width);
    }),
  ];
}

const sheetBoxes = (name: string, setOut: SetOut, width: number): readonly Box[] => [
  headingBox(name, width),
  { ...textBox(setOut.upSentence, width), staysWithNext: true },
  ...setOut.issues.map(({ message, remedy }) => textBox([message, remedy].join(' '), width)),
  ...setOut.trims.map(({ text }, i) => numbered(i + 1, text, width)),
  ...setOut.templates.flatMap(({ strip, times, hold }) =>
    hold === null
      ? []
      : narrowStrip(strip, width, [
          `Make it once from thin card by these steps, or cut it out of the last pages. It is traced ${times} times.`,
        ]),
  ),
  ...setOut.strips.flatMap((strip) => wideStrip(strip, setOut, width)),
  ...(setOut.seamSentences.length > 0
    ? [headingBox('Seams, once rounded', width), itemsBox(setOut.seamSentences, width)]
    : []),
  ...setOut.templates.flatMap(({ strip, times, hold }) =>
    hold
      ? []
      : narrowStrip(strip, width, [
          `Less work: make this once from scrap card, trace it ${times} times, then add each flap beside its line. The last pages have it at full size, to be cut out of the print.`,
        ]),
  ),
  airBox(4),
];

const inColumns = (boxes: readonly Box[]): readonly Box[] => boxes.map((box): Box => ({ ...box, isOfColumn: true }));

const titleOf = ({ title, times }: SetOutStrip): string => (times > 1 ? `${title}: ${times} alike` : title);

function stripPicture(
  strip: SetOutStrip,
  { ruler }: SetOut,
  width: number,
  height: number,
): { readonly picture: Box; readonly leftOut: readonly string[]; readonly isBare: boolean } {
  const scale = Math.min(1, (width - stripSide(LETTER)) / strip.width, height / stripSpan(strip));
  const drawn = drawStrip(strip, { scale, text: LETTER, units: rulerUnits(ruler) });
  return {
    picture: { height: drawn.height + 2, drawing: joinDrawings(drawn.base, ...drawn.steps) },
    leftOut: drawn.leftOut,
    isBare: drawn.isBare,
  };
}

/** A piece that takes no more than so much of a column with its steps stands on one page, mm. */
const WHOLE = 130;

/** A piece by itself, in a column. */
function narrowStrip(strip: SetOutStrip, width: number, told: readonly string[]): readonly Box[] {
  const own = columnWidth(width);
  const above = [
    headingBox(titleOf(strip), own),
    ...[...told, ...strip.notes].map((note): Box => ({ ...textBox(note, own), staysWithNext: true })),
    ...partBoxes(strip, { title: '', from: 0, to: strip.steps.length, pieces: [], isTraced: false }, own).picture,
  ];
  const boxes = inColumns([...above, ...strip.steps.map(({ text }, i) => numbered(i + 1, text, own)), airBox(4)]);
  if (boxes.reduce((sum, { height }) => sum + height, 0) > WHOLE) return boxes;
  return boxes.map((box, i): Box => {
    const keepsPage = i < boxes.length - 1;
    // The steps may stand beside the picture.
    return i === above.length - 1 ? { ...box, staysWithNext: false, keepsPage } : { ...box, keepsPage };
  });
}

/** A strip over the whole width, its steps in columns below it; of a crowded one each part has its own picture there. */
function wideStrip(strip: SetOutStrip, setOut: SetOut, width: number): readonly Box[] {
  const own = columnWidth(width);
  const steps = (from: number, to: number): readonly Box[] =>
    strip.steps.slice(from, to).map(({ text }, i) => numbered(from + i + 1, text, own));
  const last = strip.parts.at(-1)?.to ?? 0;
  const { picture, leftOut, isBare } = stripPicture(strip, setOut, width, PICTURE);
  const notes = [...strip.notes, ...leftOut];
  return [
    headingBox(titleOf(strip), width),
    { ...picture, staysWithNext: !isBare || notes.length > 0 },
    ...notes.map((note) => textBox(note, width)),
    ...inColumns(
      isBare
        ? [
            ...strip.parts.flatMap((part) => {
              const { picture, leftOut } = partBoxes(strip, part, own);
              return [...picture, ...steps(part.from, part.to), ...leftOut];
            }),
            ...steps(last, strip.steps.length),
          ]
        : steps(0, strip.steps.length),
    ),
    airBox(4),
  ];
}

/** The picture of one part is so high, mm, and by so much higher for each mark in it, but no higher than the most. */
const PART = { least: 42, more: 1.2, most: 110 };

const TRACED = 95;

function partBoxes(
  strip: SetOutStrip,
  part: SetOutPart,
  width: number,
): { readonly picture: readonly Box[]; readonly leftOut: readonly Box[] } {
  const marks = strip.steps.slice(part.from, part.to).flatMap((step) => step.marks);
  // Traced pieces lie all over the sheet.
  const height = part.isTraced ? TRACED : Math.min(PART.most, PART.least + PART.more * marks.length);
  const drawn = drawPart(strip, part, { width, height, text: LETTER });
  const drawing = joinDrawings(drawn.base, ...drawn.steps);
  const leftOut = drawn.leftOut.map((words): Box => textBox(words, width, { size: SMALL, after: 1 }));
  if (drawing.strokes.length === 0) return { picture: [], leftOut };
  const picture: readonly Box[] = [
    { ...airBox(2.5), staysWithNext: true },
    ...(part.title === '' ? [] : [{ ...textBox(part.title, width, { after: 0 }), staysWithNext: true }]),
    { height: drawn.height, drawing, staysWithNext: true },
  ];
  return { picture, leftOut };
}

const numbered = (number: number, text: string, width: number): Box => {
  const words = textBox(text, width - INDENT, { after: 0.8 });
  return {
    height: words.height,
    drawing: joinDrawings(shiftBox(words, INDENT, 0), {
      strokes: [],
      labels: [labelAt(`${number}.`, [INDENT - 2, -TEXT], TEXT, { align: 'end' })],
    }),
  };
};

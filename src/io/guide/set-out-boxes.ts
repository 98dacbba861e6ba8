import type { Production } from '../../core/pipeline.ts';
import type { SetOut, SetOutPart, SetOutStrip } from '../../core/setout/set-out.ts';
import { rulerUnits } from '../../core/units/units.ts';
import { emptyDrawing, joinDrawings, labelAt } from '../drawing/drawing.ts';
import { drawPart } from '../drawing/set-out/draw-part.ts';
import { drawStrip, isCrowded } from '../drawing/set-out/draw-strip.ts';
import { type Box, headingBox, itemsBox, shiftBox, TEXT, textBox, titleBox } from './boxes.ts';

/** A strip's picture takes at most so much of the page, mm. */
const PICTURE = 120;
const LETTER = 2.3;
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
  ...setOut.strips.flatMap((strip) => stripBoxes(strip, setOut, width)),
  ...(setOut.seamSentences.length > 0
    ? [headingBox('Seams, once rounded', width), itemsBox(setOut.seamSentences, width)]
    : []),
  ...setOut.templates.flatMap(({ strip, times }) => [
    ...stripBoxes(strip, setOut, width),
    textBox(
      `Less work: make this once from scrap card, trace it ${times} times, then add each flap beside its line. The last pages have it at full size, to be cut out of the print.`,
      width,
    ),
  ]),
];

function stripBoxes(strip: SetOutStrip, { ruler }: SetOut, width: number): readonly Box[] {
  const units = rulerUnits(ruler);
  const side = 2 * 2.6 * LETTER;
  const scale = Math.min(1, (width - side) / strip.width, PICTURE / strip.height);
  const drawn = drawStrip(strip, { scale, text: LETTER, units });
  const picture: Box = {
    height: drawn.height + 2,
    drawing: joinDrawings(drawn.base, ...drawn.steps),
    staysWithNext: true,
  };
  const steps = (from: number, to: number): readonly Box[] =>
    strip.steps.slice(from, to).map(({ text }, i) => numbered(from + i + 1, text, width));
  const last = strip.parts.at(-1)?.to ?? 0;
  return [
    headingBox(strip.times > 1 ? `${strip.title}: ${strip.times} alike` : strip.title, width),
    picture,
    ...strip.notes.map((note) => textBox(note, width)),
    ...(isCrowded(strip)
      ? [
          ...strip.parts.flatMap((part) => [...partBoxes(strip, part, width), ...steps(part.from, part.to)]),
          ...steps(last, strip.steps.length),
        ]
      : steps(0, strip.steps.length)),
    { height: 4, drawing: emptyDrawing },
  ];
}

/** The picture of one part of a crowded strip is so high at most, mm. */
const PART = 75;

function partBoxes(strip: SetOutStrip, part: SetOutPart, width: number): readonly Box[] {
  const drawn = drawPart(strip, part, { width, height: PART, text: LETTER });
  const drawing = joinDrawings(drawn.base, ...drawn.steps);
  if (drawing.strokes.length === 0) return [];
  return [
    { height: 2.5, drawing: emptyDrawing, staysWithNext: true },
    { ...textBox(part.title, width, { after: 0 }), staysWithNext: true },
    { height: drawn.height, drawing, staysWithNext: true },
  ];
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

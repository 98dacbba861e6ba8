import { boxOf } from '../../../core/geometry/polygon.ts';
import { rest2 } from '../../../core/geometry/rigid2.ts';
import { add2, scale2, type Vec2 } from '../../../core/geometry/vector.ts';
import type { LineUse, SetOutLine, SetOutMark, SetOutStep, SetOutStrip } from '../../../core/setout/set-out.ts';
import {
  type Drawing,
  joinDrawings,
  type Label,
  labelCorners,
  line,
  moveDrawing,
  ring,
  type Stroke,
} from '../drawing.ts';
import type { LineRole } from '../lines.ts';
import { drawRuler, RULER_HEIGHT } from './draw-ruler.ts';
import { type MarkNumber, markNumbers } from './mark-numbers.ts';
import { shownIn } from './shown-in.ts';
import { figureSpots, letterLabels, names, noFigures } from './strip-texts.ts';
import { Texts } from './texts.ts';

/**
 * A strip at reduced scale with rulers along its edges, and what each step adds to it: for pages and screens alike. mm of the
 * drawing, origin at its upper left corner, y up.
 */
export interface StripDrawing {
  readonly width: number;
  readonly height: number;
  /** Paper, rulers, names of pieces. */
  readonly base: Drawing;
  /** One for each step. */
  readonly steps: readonly Drawing[];
  /** Letters that found no room, piece by piece, in words. */
  readonly leftOut: readonly string[];
  /** It has so many marks that it shows no numbers: each part of the strip is to be drawn by itself. */
  readonly isBare: boolean;
}

export interface StripLook {
  /** mm of the drawing for one of the strip. */
  readonly scale: number;
  /** Height of its letters, mm. */
  readonly text: number;
  readonly units: 'in' | 'mm';
}

const roles: Readonly<Record<LineUse, LineRole>> = {
  cut: 'cut',
  mountain: 'fold-mountain',
  valley: 'fold-valley',
  glue: 'glue',
  pencil: 'rule',
};

/** With more marks than this, in several parts, a picture of the whole strip has no numbers: each part has its own picture. */
const MOST_MARKS = 60;
/** Of a whole sheet, which is drawn smaller. */
const MOST_ON_SHEET = 40;
/** Strips that are higher than this share of their width are drawn smaller. */
const HIGH = 0.6;

const hasManyMarks = ({ marks, parts, width, height }: SetOutStrip): boolean =>
  parts.length > 1 && marks.length > (height > HIGH * width ? MOST_ON_SHEET : MOST_MARKS);

/** With more numbers than this share that stand on lines or far off, and than so many, the parts have their own pictures too. */
const ASTRAY = { share: 0.08, count: 2 };
/** Parts no wider than this share of their strip are larger in a picture of their own. */
const NARROW = 0.55;

function isAstray(strip: SetOutStrip, numbers: ReadonlyMap<number, MarkNumber>): boolean {
  const astray = [...numbers.values()].filter(({ isClear }) => !isClear).length;
  return (
    astray > Math.max(ASTRAY.count, ASTRAY.share * numbers.size) &&
    strip.parts.every((part) => {
      const { minX, maxX } = shownIn(strip, part).box;
      return maxX - minX <= NARROW * strip.width;
    })
  );
}

const lineStroke = ({ use, points }: SetOutLine, place: (p: Vec2) => Vec2): Stroke =>
  line(roles[use], ...points.map(place));

/** How high a strip is with the points of a compass above and below it, mm. */
export const stripSpan = ({ marks, height }: SetOutStrip): number =>
  Math.max(height, ...marks.map(({ at }) => at[1])) - Math.min(0, ...marks.map(({ at }) => at[1]));

/** Room left and right of a strip together, for letters of a height. */
export const stripSide = (text: number): number => 5.2 * text;

export function drawStrip(strip: SetOutStrip, look: StripLook): StripDrawing {
  const { scale, text } = look;
  const side = stripSide(text) / 2;
  const place = ([x, y]: Vec2): Vec2 => [side + x * scale, y * scale];
  const texts = new Texts();
  const isFromRight =
    strip.marks.some(({ edge, text: own }) => edge === 'bottom' && own !== '') && measuredFromRight(strip);
  const corners = (
    [
      [0, 0],
      [strip.width, 0],
      [strip.width, strip.height],
      [0, strip.height],
    ] as const
  ).map(place);
  const own = strip.pieces.slice(0, Math.round(strip.pieces.length / strip.times));
  const steps = strip.steps.map((step) => stepStrokes(strip, step, { place, text }));
  const isMany = hasManyMarks(strip);
  const figures = isMany ? noFigures : figureSpots(strip.marks, place, look, texts);
  const letters = letterLabels(own, place, look, texts);
  const picture = {
    place,
    size: text,
    strokes: steps.flat(),
    room: boxOf([...corners, ...strip.marks.map(({ at }) => place(at))]),
  };
  const numbers = isMany ? new Map<number, MarkNumber>() : markNumbers(strip.marks, picture, texts);
  const isBare = isMany || isAstray(strip, numbers);
  const titles = names(own, place, { text, strokes: picture.strokes }, isBare ? lettersOnly(letters.labels) : texts);
  const ruler = { ...look, length: strip.width, isFromRight };
  const base = joinDrawings(
    { strokes: [ring('rule', corners)], labels: [...titles, ...letters.labels] },
    drawRuler(corners[0] as Vec2, -1, ruler),
    drawRuler(corners[3] as Vec2, 1, ruler),
  );
  const drawn = strip.steps.map(({ marks }, i) =>
    joinDrawings(
      { strokes: steps[i] ?? [], labels: [] },
      ...(isBare ? [] : marks.map((m) => markTexts(figures.spots.get(m), numbers.get(m)))),
    ),
  );
  // Of a crowded strip each part has a picture of its own.
  return {
    width: strip.width * scale + 2 * side,
    ...hung(base, drawn, text),
    leftOut: isBare ? [] : letters.leftOut,
    isBare,
  };
}

/** The same hanging down from its upper edge, with a little air above and below. */
function hung(base: Drawing, steps: readonly Drawing[], text: number): Pick<StripDrawing, 'height' | 'base' | 'steps'> {
  const all = joinDrawings(base, ...steps);
  const { minY, maxY } = boxOf([
    ...all.strokes.flatMap(({ points }) => points),
    ...all.labels.flatMap((label) => labelCorners(label)),
  ]);
  const air = text * 0.4;
  const down = (drawing: Drawing): Drawing => moveDrawing(drawing, { ...rest2, move: [0, -maxY - air] });
  return { height: maxY - minY + 2 * air, base: down(base), steps: steps.map(down) };
}

/** What a step draws: ticks and points of its marks, and its lines. */
export const stepStrokes = (
  { marks, lines }: SetOutStrip,
  step: SetOutStep,
  { place, text }: { readonly place: (p: Vec2) => Vec2; readonly text: number },
): readonly Stroke[] => [
  ...step.marks.flatMap((m) => markStrokes(marks[m] as SetOutMark, place, text)),
  ...step.lines.map((l) => lineStroke(lines[l] as SetOutLine, place)),
];

/** The figure of a mark, and its number with the line that leads to it. */
export const markTexts = (figure: readonly Label[] = [], number?: MarkNumber): Drawing => ({
  strokes: number?.leader ? [number.leader] : [],
  labels: number ? [...figure, number.label] : figure,
});

function lettersOnly(letters: readonly Label[]): Texts {
  const texts = new Texts();
  for (const label of letters) texts.take(label);
  return texts;
}

/** Whether the first tick along the bottom is told from the right end. */
export const measuredFromRight = ({ steps }: SetOutStrip): boolean =>
  /from the (left|right)/.exec(steps.map(({ text }) => text).join(' '))?.[1] === 'right';

const outwards = ({ edge }: SetOutMark): Vec2 => {
  if (edge === 'bottom') return [0, -1];
  if (edge === 'top') return [0, 1];
  if (edge === 'left') return [-1, 0];
  return edge === 'right' ? [1, 0] : [0, 0];
};

/** A tick out over the ruler, half as long where it is short; a point inside a small cross. */
function markStrokes(mark: SetOutMark, place: (p: Vec2) => Vec2, text: number): readonly Stroke[] {
  const band = RULER_HEIGHT * text;
  const at = place(mark.at);
  const out = outwards(mark);
  if (mark.edge && mark.text !== '') {
    const reach = mark.edge === 'left' || mark.edge === 'right' ? text : band * (mark.isShort ? 0.55 : 1);
    return [line('cut', at, add2(at, scale2(out, reach)))];
  }
  const arm = text * (mark.isShort ? 0.2 : 0.35);
  const cross = (dx: number, dy: number): Stroke => line('rule', add2(at, [-dx, -dy]), add2(at, [dx, dy]));
  return [cross(arm, arm), cross(arm, -arm)];
}

import { areApart, type Box, boxOf } from '../../../core/geometry/polygon.ts';
import { add2, scale2, type Vec2 } from '../../../core/geometry/vector.ts';
import type {
  LineUse,
  SetOutLine,
  SetOutMark,
  SetOutPiece,
  SetOutStrip,
  StripEdge,
} from '../../../core/setout/set-out.ts';
import { type Drawing, type Label, labelAt, labelCorners, line, ring, type Stroke } from '../drawing.ts';
import type { LineRole } from '../lines.ts';
import { CAP_HEIGHT, textWidth } from '../text-width.ts';
import { drawRuler, RULER_HEIGHT } from './draw-ruler.ts';

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

/** Room for rows of figures outside an edge, in letters. */
export const ROWS = 3;
export const ROW = 1.35;

/** With more marks than this, in several parts, a picture of the whole strip has no numbers: each part has its own picture. */
const MOST_MARKS = 60;
/** Of a whole sheet, which is drawn smaller. */
const MOST_ON_SHEET = 40;
/** Strips that are higher than this share of their width are drawn smaller. */
const HIGH = 0.6;

export const isCrowded = ({ marks, parts, width, height }: SetOutStrip): boolean =>
  parts.length > 1 && marks.length > (height > HIGH * width ? MOST_ON_SHEET : MOST_MARKS);

export const lineStroke = ({ use, points }: SetOutLine, place: (p: Vec2) => Vec2): Stroke =>
  line(roles[use], ...points.map(place));

export function drawStrip(strip: SetOutStrip, look: StripLook): StripDrawing {
  const { scale, text } = look;
  const side = text * 2.6;
  const band = RULER_HEIGHT * text;
  const isBare = isCrowded(strip);
  const hasFigures = (at: StripEdge): boolean =>
    !isBare && strip.marks.some(({ edge, text: own }) => edge === at && own !== '');
  const room = (edge: StripEdge): number => band + text * (hasFigures(edge) ? ROWS * ROW + 1.2 : 1.2);
  const [above, below] = [room('top'), room('bottom')];
  const [width, height] = [strip.width * scale + 2 * side, strip.height * scale + above + below];
  const place = ([x, y]: Vec2): Vec2 => [side + x * scale, y * scale + below - height];
  const texts = new Texts();
  const spots = isBare ? new Map<number, readonly Label[]>() : figureSpots(strip.marks, place, look, texts);
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
  const titles = names(own, place, look, texts);
  const letters = letterLabels(own, place, look, texts);
  const ruler = { ...look, length: strip.width, isFromRight };
  return {
    width,
    height,
    base: {
      strokes: [
        ring('rule', corners),
        ...drawRuler(corners[0] as Vec2, -1, ruler).strokes,
        ...drawRuler(corners[3] as Vec2, 1, ruler).strokes,
      ],
      labels: [
        ...drawRuler(corners[0] as Vec2, -1, ruler).labels,
        ...drawRuler(corners[3] as Vec2, 1, ruler).labels,
        ...titles,
        ...letters.labels,
      ],
    },
    steps: strip.steps.map(({ marks, lines }) => ({
      strokes: [
        ...marks.flatMap((m) => markStrokes(strip.marks[m] as SetOutMark, place, look, band)),
        ...lines.map((l) => lineStroke(strip.lines[l] as SetOutLine, place)),
      ],
      labels: marks.flatMap((m) => spots.get(m) ?? []),
    })),
    // Of a crowded strip each part has a picture of its own.
    leftOut: isBare ? [] : letters.leftOut,
  };
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
export function markStrokes(
  mark: SetOutMark,
  place: (p: Vec2) => Vec2,
  { text }: StripLook,
  band: number,
): readonly Stroke[] {
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

/** Left free before and after a text, in letters: figures side by side would be read as one number. */
const AIR = 0.25;

/** Texts that keep clear of each other: each goes to the first of its places that is free, or is left out. */
export class Texts {
  readonly #taken: Box[] = [];

  place(labels: readonly Label[]): readonly Label[] {
    for (const label of labels) {
      const { minX, maxX, ...rows } = boxOf(labelCorners(label));
      const box: Box = { ...rows, minX: minX - AIR * label.size, maxX: maxX + AIR * label.size };
      if (this.#taken.some((one) => areApart(one, box) === false)) continue;
      this.#taken.push(box);
      return [label];
    }
    return [];
  }
}

/** Figures outside the edges in rows, and numbers beside their marks, by mark. */
export function figureSpots(
  marks: readonly SetOutMark[],
  place: (p: Vec2) => Vec2,
  { text }: StripLook,
  texts: Texts,
): ReadonlyMap<number, readonly Label[]> {
  const band = RULER_HEIGHT * text;
  const order = marks.map((mark, m) => ({ mark, m })).sort((a, b) => a.mark.at[0] - b.mark.at[0]);
  const figures = order.map(({ mark, m }) => {
    const isUpright = mark.edge === 'bottom' || mark.edge === 'top';
    if (!isUpright || mark.text === '') return [m, []] as const;
    const [x, y] = place(mark.at);
    const rows = Array.from({ length: ROWS }, (_, row) => {
      const step = band + text * (0.4 + row * ROW);
      return labelAt(mark.text, [x, mark.edge === 'bottom' ? y - step - text * CAP_HEIGHT : y + step], text, {
        align: 'middle',
      });
    });
    return [m, texts.place(rows)] as const;
  });
  const found = new Map<number, readonly Label[]>(figures);
  for (const { mark, m } of order) {
    found.set(m, [...(found.get(m) ?? []), ...texts.place(numberPlaces(mark, place, text))]);
  }
  return found;
}

/** Places round a mark for its number: inside the strip, nearest first. */
function numberPlaces(mark: SetOutMark, place: (p: Vec2) => Vec2, text: number): readonly Label[] {
  const size = text * (mark.isShort && !mark.edge ? 0.72 : 0.9);
  const [x, y] = place(mark.at);
  const [w, h] = [textWidth(String(mark.number), size), size * CAP_HEIGHT];
  const gap = text * 0.35;
  const [outX, outY] = outwards(mark);
  const ways = (
    [
      [1, 1],
      [-1, 1],
      [-1, -1],
      [1, -1],
    ] as const
  ).filter(([u, v]) => u * outX <= 0 && v * outY <= 0);
  return [1, 1.9, 2.8, 3.8, 5].flatMap((far) =>
    ways.map(([u, v]) =>
      labelAt(String(mark.number), [x + u * (gap + w / 2) * far, y + v * (gap + h / 2) * far - h / 2], size, {
        align: 'middle',
      }),
    ),
  );
}

/** A piece's name in its middle where it is wide enough for it. */
function names(
  pieces: readonly SetOutPiece[],
  place: (p: Vec2) => Vec2,
  { text }: StripLook,
  texts: Texts,
): readonly Label[] {
  return pieces.flatMap(({ title, outline }) => {
    const box = boxOf(outline.map(place));
    const middle: Vec2 = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
    const short = title.replace(/^.*: /, '');
    const isFitting = textWidth(short, text) < (box.maxX - box.minX) * 0.45 && box.maxY - box.minY > text * 4;
    return isFitting ? texts.place([labelAt(short, middle, text, { align: 'middle' })]) : [];
  });
}

/**
 * Letters of seams, each beside its line; of those that find no room, in words, which lines they belong to. Pieces that are traced
 * lie far apart and small in their picture: all their letters are told.
 */
export function letterLabels(
  pieces: readonly SetOutPiece[],
  place: (p: Vec2) => Vec2,
  { text }: Pick<StripLook, 'text'>,
  texts: Texts,
): { readonly labels: readonly Label[]; readonly leftOut: readonly string[] } {
  const size = text * 0.9;
  const labels: Label[] = [];
  const leftOut: string[] = [];
  for (const { title, letters, laid } of pieces) {
    const missing = letters.filter((letter) => {
      if (laid) return true;
      const places = letter.places.map((p) => {
        const [x, y] = place(p);
        return labelAt(letter.text, [x, y - (size * CAP_HEIGHT) / 2], size, { align: 'middle' });
      });
      const placed = texts.place(places);
      labels.push(...placed);
      return placed.length === 0;
    });
    if (missing.length === 0) continue;
    const told = missing.map((letter) => (letter.line ? `${letter.text} at ${letter.line.join('–')}` : letter.text));
    const about = laid
      ? `${title}, laid on ${laid.join(' and ')}. Letters, by the marks of the template`
      : `Letters of ${title} that have no room in the picture`;
    leftOut.push(`${about}: ${told.join(', ')}.`);
  }
  return { labels, leftOut };
}

import { boxOf } from '../../../core/geometry/polygon.ts';
import type { Vec2 } from '../../../core/geometry/vector.ts';
import type { SetOutMark, SetOutPiece } from '../../../core/setout/set-out.ts';
import { type Label, labelAt, type Stroke } from '../drawing.ts';
import { CAP_HEIGHT, textWidth } from '../text-width.ts';
import { RULER_HEIGHT } from './draw-ruler.ts';
import type { StripLook } from './draw-strip.ts';
import { meets, segmentsOf, type Texts, textBox } from './texts.ts';

/** Room for rows of figures outside an edge, in letters. */
export const ROWS = 3;
export const ROW = 1.35;

interface Figures {
  /** By mark. */
  readonly spots: ReadonlyMap<number, readonly Label[]>;
  /** Every figure has a place. */
  readonly isWhole: boolean;
}

export const noFigures: Figures = { spots: new Map(), isWhole: true };

/** Figures outside the upper and lower edges, in so many rows at most. */
export function figureSpots(
  marks: readonly SetOutMark[],
  place: (p: Vec2) => Vec2,
  { text }: Pick<StripLook, 'text'>,
  texts: Texts,
  most = ROWS,
): Figures {
  const band = RULER_HEIGHT * text;
  const order = marks.map((mark, m) => ({ mark, m })).sort((a, b) => a.mark.at[0] - b.mark.at[0]);
  const told = order.filter(({ mark: { edge, text: own } }) => (edge === 'bottom' || edge === 'top') && own !== '');
  const spots = told.map(({ mark, m }) => {
    const [x, y] = place(mark.at);
    const rows = Array.from({ length: most }, (_, row) => {
      const step = band + text * (0.4 + row * ROW);
      return labelAt(mark.text, [x, mark.edge === 'bottom' ? y - step - text * CAP_HEIGHT : y + step], text, {
        align: 'middle',
      });
    });
    return [m, texts.place(rows)] as const;
  });
  return { spots: new Map(spots), isWhole: spots.every(([, labels]) => labels.length > 0) };
}

/** Shares of its piece's height that a name may stand off the middle of it. */
const ASIDE = [0, 0.14, -0.14, 0.28, -0.28];

/** A piece's name in its middle, or above or below that, where it is wide enough for it and no line runs through. */
export function names(
  pieces: readonly SetOutPiece[],
  place: (p: Vec2) => Vec2,
  { text, strokes }: Pick<StripLook, 'text'> & { readonly strokes: readonly Stroke[] },
  texts: Texts,
): readonly Label[] {
  const drawn = segmentsOf(strokes);
  return pieces.flatMap(({ title, outline }) => {
    const box = boxOf(outline.map(place));
    const middle: Vec2 = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
    const short = title.replace(/^.*: /, '');
    const isFitting = textWidth(short, text) < (box.maxX - box.minX) * 0.45 && box.maxY - box.minY > text * 4;
    if (!isFitting) return [];
    const places = ASIDE.map((share) =>
      labelAt(short, [middle[0], middle[1] + share * (box.maxY - box.minY)], text, { align: 'middle' }),
    );
    return texts.place(places.filter((label) => !drawn.some((one) => meets(one, textBox(label)))));
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

import type { Box } from '../../../core/geometry/polygon.ts';
import type { Vec2 } from '../../../core/geometry/vector.ts';
import type { SetOutMark, SetOutPart, SetOutPiece, SetOutStrip } from '../../../core/setout/set-out.ts';
import { isAtMost, isSameLength } from '../../../core/tolerance.ts';
import { joinDrawings, line } from '../drawing.ts';
import { RULER_HEIGHT } from './draw-ruler.ts';
import { markTexts, type StripDrawing, stepStrokes } from './draw-strip.ts';
import { markNumbers } from './mark-numbers.ts';
import { shownIn } from './shown-in.ts';
import { figureSpots, letterLabels, ROW, ROWS } from './strip-texts.ts';
import { Texts } from './texts.ts';

/** Room at an edge without figures, in letters. */
const SIDE = 2.2;

interface Room {
  readonly width: number;
  readonly height: number;
  /** Height of its letters, mm. */
  readonly text: number;
}

/** One part of a crowded strip, enlarged: what its steps draw, and the marks of others that they begin at. */
export function drawPart(strip: SetOutStrip, part: SetOutPart, room: Room): StripDrawing {
  const { from, to, pieces } = part;
  const { width, text } = room;
  const steps = strip.steps.slice(from, to);
  const { own, shown, box } = shownIn(strip, part);
  const marks = shown.map(({ mark }) => mark);
  const { place, total, texts, figures } = layPart(marks, box, room);
  const strokes = steps.map((step) => stepStrokes(strip, step, { place, text }));
  const letters = letterLabels(
    pieces.map((p) => strip.pieces[p] as SetOutPiece),
    place,
    { text },
    texts,
  );
  const edges = [0, strip.height]
    .filter((y, i) => (i === 0 ? isAtMost(box.minY, y) : isAtMost(y, box.maxY)))
    .map((y) => line('rule', place([box.minX, y]), place([box.maxX, y])));
  const [left, low, right, high] = [0, place([0, box.minY])[1], width, place([0, box.maxY])[1]];
  const numbers = markNumbers(
    marks,
    {
      place,
      size: text,
      strokes: [...edges, ...strokes.flat()],
      // At an edge of the strip they stand inside it.
      room: {
        minX: left,
        maxX: right,
        minY: isSameLength(box.minY, 0) ? low : -total,
        maxY: isSameLength(box.maxY, strip.height) ? high : 0,
      },
    },
    texts,
  );
  const textsOf = new Map(shown.map(({ m }, i) => [m, markTexts(figures.get(i), numbers.get(i))]));
  const others = shown.flatMap(({ m }) => (own.has(m) ? [] : (textsOf.get(m) ?? [])));
  return {
    width,
    height: total,
    base: joinDrawings({ strokes: edges, labels: letters.labels }, ...others),
    leftOut: letters.leftOut,
    isBare: false,
    steps: steps.map((step, i) =>
      joinDrawings({ strokes: strokes[i] ?? [], labels: [] }, ...step.marks.flatMap((m) => textsOf.get(m) ?? [])),
    ),
  };
}

/** Where a part lies in its picture: as large as the fewest rows of figures that hold all of them leave room for. */
function layPart(
  marks: readonly SetOutMark[],
  box: Box,
  { width, height, text }: Room,
): {
  readonly place: (p: Vec2) => Vec2;
  readonly total: number;
  readonly texts: Texts;
  readonly figures: ReturnType<typeof figureSpots>['spots'];
} {
  const [w, h] = [Math.max(box.maxX - box.minX, 1), Math.max(box.maxY - box.minY, 1)];
  for (let rows = 1; ; rows++) {
    const [below, above] = (['bottom', 'top'] as const).map((edge) => {
      const hasFigures = marks.some((mark) => mark.edge === edge && mark.text !== '');
      return text * (hasFigures ? RULER_HEIGHT + rows * ROW + 0.4 : SIDE);
    }) as [number, number];
    const scale = Math.min((width - 2 * SIDE * text) / w, (height - below - above) / h);
    const left = (width - w * scale) / 2;
    const total = h * scale + below + above;
    const place = ([x, y]: Vec2): Vec2 => [left + (x - box.minX) * scale, below + (y - box.minY) * scale - total];
    const texts = new Texts();
    const { spots, isWhole } = figureSpots(marks, place, { text }, texts, rows);
    if (isWhole || !isAtMost(rows + 1, ROWS)) return { place, total, texts, figures: spots };
  }
}

import { boxOf } from '../../../core/geometry/polygon.ts';
import { distance2, type Vec2 } from '../../../core/geometry/vector.ts';
import type { SetOutLine, SetOutMark, SetOutPart, SetOutPiece, SetOutStrip } from '../../../core/setout/set-out.ts';
import { isAtMost, SNAP_MM } from '../../../core/tolerance.ts';
import { line } from '../drawing.ts';
import { RULER_HEIGHT } from './draw-ruler.ts';
import {
  figureSpots,
  letterLabels,
  lineStroke,
  markStrokes,
  ROW,
  ROWS,
  type StripDrawing,
  type StripLook,
  Texts,
} from './draw-strip.ts';

/** One part of a crowded strip, enlarged: what its steps draw, and the marks of others that they begin at. */
export function drawPart(
  strip: SetOutStrip,
  { from, to, pieces }: SetOutPart,
  { width, height, text }: { readonly width: number; readonly height: number; readonly text: number },
): StripDrawing {
  const steps = strip.steps.slice(from, to);
  const lines = steps.flatMap((step) => step.lines.map((l) => strip.lines[l] as SetOutLine));
  const own = new Set(steps.flatMap((step) => step.marks));
  const corners = lines.flatMap(({ points }) => points);
  const shown = strip.marks
    .map((mark, m) => ({ mark, m }))
    .filter(({ mark, m }) => own.has(m) || corners.some((p) => distance2(p, mark.at) <= SNAP_MM));
  const box = boxOf([...corners, ...shown.map(({ mark }) => mark.at)]);
  const hasFigures = shown.some(({ mark }) => mark.edge !== null && mark.text !== '');
  const side = text * (hasFigures ? RULER_HEIGHT + ROWS * ROW : 2.2);
  const [w, h] = [Math.max(box.maxX - box.minX, 1), Math.max(box.maxY - box.minY, 1)];
  const scale = Math.min((width - 2 * side) / w, (height - 2 * side) / h);
  const left = (width - w * scale) / 2;
  const total = h * scale + 2 * side;
  const place = ([x, y]: Vec2): Vec2 => [left + (x - box.minX) * scale, side + (y - box.minY) * scale - total];
  const look: StripLook = { scale, text, units: 'mm' };
  const texts = new Texts();
  const spots = figureSpots(
    shown.map(({ mark }) => mark),
    place,
    look,
    texts,
  );
  const letters = letterLabels(
    pieces.map((p) => strip.pieces[p] as SetOutPiece),
    place,
    look,
    texts,
  );
  const labelsOf = new Map(shown.map(({ m }, i) => [m, spots.get(i) ?? []] as const));
  const band = RULER_HEIGHT * text;
  const edges = [
    line('rule', place([box.minX, 0]), place([box.maxX, 0])),
    line('rule', place([box.minX, strip.height]), place([box.maxX, strip.height])),
  ].filter((_, i) => isAtMost(Math.abs((i === 0 ? 0 : strip.height) - (i === 0 ? box.minY : box.maxY)), 0));
  return {
    width,
    height: total,
    base: {
      strokes: edges,
      labels: [...shown.flatMap(({ m }) => (own.has(m) ? [] : (labelsOf.get(m) ?? []))), ...letters.labels],
    },
    leftOut: letters.leftOut,
    steps: steps.map((step) => ({
      strokes: [
        ...step.marks.flatMap((m) => markStrokes(strip.marks[m] as SetOutMark, place, look, band)),
        ...step.lines.map((l) => lineStroke(strip.lines[l] as SetOutLine, place)),
      ],
      labels: step.marks.flatMap((m) => labelsOf.get(m) ?? []),
    })),
  };
}

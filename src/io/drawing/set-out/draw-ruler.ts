import type { Vec2 } from '../../../core/geometry/vector.ts';
import { unitLength } from '../../../core/units/units.ts';
import { type Drawing, type Label, line, type Stroke } from '../drawing.ts';
import type { StripLook } from './draw-strip.ts';

/** How high a ruler is drawn, in letters. */
export const RULER_HEIGHT = 1.1;

/** Ticks that lie nearer than this run into each other, mm. */
const NEAR = 1.1;

/** A ruler along an edge, from its left end or its right one; `way` is 1 above the edge and -1 below it. */
export function drawRuler(
  [x, y]: Vec2,
  way: 1 | -1,
  { scale, text, units, length, isFromRight }: StripLook & { readonly length: number; readonly isFromRight: boolean },
): Drawing {
  const whole = unitLength(units) * (units === 'in' ? 1 : 10);
  const parts = [8, 4, 2, 1].find((count) => (whole / count) * scale >= NEAR) ?? 1;
  const step = whole / (units === 'in' ? parts : parts === 8 || parts === 4 ? 5 : parts);
  const perWhole = Math.round(whole / step);
  const strokes: Stroke[] = [];
  const labels: Label[] = [];
  for (let i = 0; i * step <= length; i++) {
    const mm = i * step * scale;
    const at = isFromRight ? x + length * scale - mm : x + mm;
    const isWhole = i % perWhole === 0;
    const reach = RULER_HEIGHT * text * (isWhole ? 0.62 : (2 * i) % perWhole === 0 ? 0.42 : 0.25);
    strokes.push(line('rule', [at, y], [at, y + way * reach]));
  }
  strokes.push(line('rule', [x, y + way * RULER_HEIGHT * text], [x + length * scale, y + way * RULER_HEIGHT * text]));
  return { strokes, labels };
}

import { type ReactElement, useMemo } from 'react';
import type { SetOutPart, SetOutStrip } from '../../core/setout/set-out.ts';
import type { Units } from '../../core/units/units.ts';
import type { Drawing } from '../../io/drawing/drawing.ts';
import type { LineRole } from '../../io/drawing/lines.ts';
import { drawPart } from '../../io/drawing/set-out/draw-part.ts';
import { drawStrip, isCrowded, type StripDrawing } from '../../io/drawing/set-out/draw-strip.ts';

const classes: Readonly<Record<LineRole, string>> = {
  cut: 'line-cut',
  'fold-mountain': 'line-mountain',
  'fold-valley': 'line-valley',
  ruling: 'line-ruling',
  glue: 'line-glue',
  trim: 'line-measure',
  rule: 'line-measure',
};

/** Width of the drawing in its own units; letters are so many of them high. */
const WIDTH = 250;
const TEXT = 4.6;
/** A piece that is enlarged is so high at most. */
const HEIGHT = 150;

interface SetOutDrawingProps {
  readonly strip: SetOutStrip;
  readonly units: Units;
  /** The step that is shown in its place; null: all of them. */
  readonly step: number | null;
}

/** A strip of one part that is higher than this share of its width is drawn into its room like a part. */
const HIGH = 0.6;

/** The part of a strip that is shown by itself at a step: of a crowded one its piece, of a small and high one all of it. */
export const shownPart = (strip: SetOutStrip, step: number | null): SetOutPart | undefined => {
  if (strip.parts.length === 1 && strip.height > HIGH * strip.width) {
    return { ...(strip.parts[0] as SetOutPart), from: 0, to: strip.steps.length };
  }
  return step !== null && isCrowded(strip) ? strip.parts.find(({ from, to }) => from <= step && step < to) : undefined;
};

const draw = (strip: SetOutStrip, part: SetOutPart | undefined, units: Units): StripDrawing =>
  part
    ? drawPart(strip, part, { width: WIDTH, height: HEIGHT, text: TEXT })
    : drawStrip(strip, { scale: WIDTH / strip.width, text: TEXT, units });

/** Letters that the picture at a step has no room for, in words; of pieces that are traced, those of the piece at hand. */
export function lettersLeftOut(strip: SetOutStrip, step: number | null, units: Units): readonly string[] {
  const part = shownPart(strip, step);
  const { leftOut } = draw(strip, part, units);
  if (!part?.isTraced) return leftOut;
  const numbers = (strip.steps[step ?? -1]?.text.match(/\d+/g) ?? []).map(Number);
  const atHand = part.pieces
    .flatMap((p) => strip.pieces[p] ?? [])
    .filter(({ laid }) => laid?.some((n) => numbers.includes(n)));
  return leftOut.filter((words) => atHand.some(({ title }) => words.startsWith(`${title}, laid on`)));
}

/**
 * The strip as it lies before the maker, drawn up to a step; the same picture as on the printed pages. Of a crowded strip a step
 * shows its own piece, enlarged.
 */
export const SetOutDrawing = ({ strip, units, step }: SetOutDrawingProps): ReactElement => {
  const part = shownPart(strip, step);
  const key = part?.from;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a part is known by where it begins.
  const drawn = useMemo(() => draw(strip, part, units), [strip, units, key]);
  const now = step === null ? null : step - (part?.from ?? 0);
  const state = (i: number): string => (now === null || i < now ? 'is-done' : i === now ? 'is-now' : 'is-later');
  return (
    <svg
      className={`set-out-art ${part ? 'is-part' : ''}`}
      viewBox={`0 0 ${drawn.width} ${drawn.height}`}
      role="img"
      aria-label={`${part ? `${part.title}, enlarged, of ` : ''}${strip.title}: ${strip.marks.length} marks and ${strip.lines.length} lines, told in the steps beside it.`}
    >
      <Art drawing={drawn.base} className="is-base" />
      {drawn.steps.map((drawing, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a step is its place in the order.
        <Art key={i} drawing={drawing} className={state(i)} />
      ))}
    </svg>
  );
};

const Art = ({ drawing, className }: { readonly drawing: Drawing; readonly className: string }): ReactElement => (
  <g className={className}>
    {drawing.strokes.map(({ role, points, closed }, i) => (
      <path
        // biome-ignore lint/suspicious/noArrayIndexKey: lines of a drawing never change places.
        key={i}
        className={classes[role]}
        vectorEffect="non-scaling-stroke"
        d={`M${points.map(([x, y]) => `${x.toFixed(2)} ${(-y).toFixed(2)}`).join('L')}${closed ? 'Z' : ''}`}
      />
    ))}
    {drawing.labels.map(({ text, at: [x, y], size, align }, i) => (
      <text
        // biome-ignore lint/suspicious/noArrayIndexKey: texts of a drawing never change places.
        key={i}
        x={x}
        y={-y}
        fontSize={size}
        textAnchor={align}
      >
        {text}
      </text>
    ))}
  </g>
);

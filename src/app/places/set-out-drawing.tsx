import { type ReactElement, useMemo } from 'react';
import type { SetOutPart, SetOutStrip } from '../../core/setout/set-out.ts';
import type { Units } from '../../core/units/units.ts';
import type { Drawing } from '../../io/drawing/drawing.ts';
import type { LineRole } from '../../io/drawing/lines.ts';
import { drawPart } from '../../io/drawing/set-out/draw-part.ts';
import { drawStrip, type StripDrawing, stripSide } from '../../io/drawing/set-out/draw-strip.ts';

const classes: Readonly<Record<LineRole, string>> = {
  cut: 'line-cut',
  'fold-mountain': 'line-mountain',
  'fold-valley': 'line-valley',
  ruling: 'line-ruling',
  glue: 'line-glue',
  trim: 'line-measure',
  rule: 'line-measure',
};

/** Height of figures and numbers, in pixels of the page. */
const TEXT = 12;
/** A whole strip is at least so wide, and scrolls where its room is narrower. */
const LEAST_WIDTH = 620;
/** A piece that is enlarged gets at least so much height. */
const LEAST_HEIGHT = 240;
/** A strip of one part that is higher than this share of its width is drawn into its room like a part. */
const HIGH = 0.6;

/** Room of the picture, in pixels of the page. */
export interface PictureRoom {
  readonly width: number;
  readonly height: number;
}

/** What the picture of a strip shows. */
export interface ShownStrip {
  readonly drawn: StripDrawing;
  /** Of a crowded strip the piece of the step at hand, enlarged; of a small and high one all of it. */
  readonly part: SetOutPart | null;
  /** So many marks that the whole strip shows none of their numbers. */
  readonly isCrowded: boolean;
  /** Letters that the picture has no room for, in words; of pieces that are traced, those of the piece at hand. */
  readonly leftOut: readonly string[];
}

/** The picture of a strip at a step, or of all of it, for a room; null as long as there is none. */
export function useShownStrip(
  strip: SetOutStrip | undefined,
  step: number | null,
  units: Units,
  { width, height }: PictureRoom,
): ShownStrip | null {
  const whole = useMemo(
    () => (strip && width > 0 ? drawStrip(strip, { ...lookFor(strip, Math.max(LEAST_WIDTH, width)), units }) : null),
    [strip, units, width],
  );
  const isCrowded = whole?.isBare ?? false;
  const part = useMemo(() => (strip ? partAt(strip, step, isCrowded) : null), [strip, step, isCrowded]);
  const key = part?.from;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a part is known by where it begins.
  const enlarged = useMemo(
    () =>
      strip && part && width > 0
        ? drawPart(strip, part, { width, height: Math.max(LEAST_HEIGHT, height), text: TEXT })
        : null,
    [strip, key, width, height],
  );
  const drawn = enlarged ?? whole;
  return strip && drawn ? { drawn, part, isCrowded, leftOut: leftOutAt(strip, step, part, drawn) } : null;
}

const lookFor = (strip: SetOutStrip, width: number): { readonly scale: number; readonly text: number } => ({
  scale: (width - stripSide(TEXT)) / strip.width,
  text: TEXT,
});

function partAt(strip: SetOutStrip, step: number | null, isCrowded: boolean): SetOutPart | null {
  const [only] = strip.parts;
  if (only && strip.parts.length === 1 && strip.height > HIGH * strip.width) {
    return { ...only, from: 0, to: strip.steps.length };
  }
  return (isCrowded && step !== null && strip.parts.find(({ from, to }) => from <= step && step < to)) || null;
}

function leftOutAt(
  strip: SetOutStrip,
  step: number | null,
  part: SetOutPart | null,
  { leftOut }: StripDrawing,
): readonly string[] {
  if (!part?.isTraced) return leftOut;
  const numbers = (strip.steps[step ?? -1]?.text.match(/\d+/g) ?? []).map(Number);
  const atHand = part.pieces
    .flatMap((p) => strip.pieces[p] ?? [])
    .filter(({ laid }) => laid?.some((n) => numbers.includes(n)));
  return leftOut.filter((words) => atHand.some(({ title }) => words.startsWith(`${title}, laid on`)));
}

/**
 * The strip as it lies before the maker, drawn up to a step, which is null for all of it; the same picture as on the printed
 * pages.
 */
export const SetOutDrawing = ({
  strip,
  shown: { drawn, part },
  step,
}: {
  readonly strip: SetOutStrip;
  readonly shown: ShownStrip;
  readonly step: number | null;
}): ReactElement => {
  const now = step === null ? null : step - (part?.from ?? 0);
  const state = (i: number): string => (now === null || i < now ? 'is-done' : i === now ? 'is-now' : 'is-later');
  return (
    <svg
      className={`set-out-art ${part ? 'is-part' : ''}`}
      viewBox={`0 0 ${drawn.width} ${drawn.height}`}
      width={drawn.width}
      height={drawn.height}
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
    {drawing.strokes.map(({ role, points, closed, isLeader }, i) => (
      <path
        // biome-ignore lint/suspicious/noArrayIndexKey: lines of a drawing never change places.
        key={i}
        className={isLeader ? 'line-leader' : classes[role]}
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

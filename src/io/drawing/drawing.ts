import { apply2, type Rigid2 } from '../../core/geometry/rigid2.ts';
import { add2, scale2, type Vec2 } from '../../core/geometry/vector.ts';
import type { LineRole } from './lines.ts';
import { CAP_HEIGHT, DESCENT, textWidth } from './text-width.ts';

/** A run of straight lines, mm, y up. */
export interface Stroke {
  readonly role: LineRole;
  readonly points: readonly Vec2[];
  /** The last point is joined to the first. */
  readonly closed: boolean;
  /** It stands inside a panel, where it would be seen on the finished roof, and is no line of work. */
  readonly isInPanel?: true;
  /** It leads from a point to the text about it. */
  readonly isLeader?: true;
}

/** One line of text. */
export interface Label {
  readonly text: string;
  /** On the baseline: where the text starts, has its middle or ends, as `align` says; mm, y up. */
  readonly at: Vec2;
  /** Height of the em, mm. */
  readonly size: number;
  /** Counter-clockwise from the x axis, radians. */
  readonly turn: number;
  readonly align: 'start' | 'middle' | 'end';
  /** Extra space after each letter, mm. */
  readonly tracking: number;
  /** It stands inside a panel, where it would be seen on the finished roof. */
  readonly isInPanel?: true;
}

/** Plain data that every writer turns into its own format. */
export interface Drawing {
  readonly strokes: readonly Stroke[];
  readonly labels: readonly Label[];
}

/** One printed page or sheet of stock: mm, origin at its lower left corner, y up. */
export interface SheetDrawing {
  readonly width: number;
  readonly height: number;
  /** The pieces: what is cut, scored and marked. */
  readonly work: Drawing;
  /** Title, legend, check bars: what a cutting machine leaves out. */
  readonly frame: Drawing;
  /** It goes on the back of the page before it. */
  readonly isWrongSide?: true;
}

export const emptyDrawing: Drawing = { strokes: [], labels: [] };

export const joinDrawings = (...drawings: readonly Drawing[]): Drawing => ({
  strokes: drawings.flatMap((drawing) => drawing.strokes),
  labels: drawings.flatMap((drawing) => drawing.labels),
});

export const moveDrawing = (drawing: Drawing, motion: Rigid2): Drawing => {
  const angle = Math.atan2(motion.sin, motion.cos);
  return {
    strokes: drawing.strokes.map((stroke) => ({ ...stroke, points: stroke.points.map((p) => apply2(motion, p)) })),
    labels: drawing.labels.map((label) => ({ ...label, at: apply2(motion, label.at), turn: label.turn + angle })),
  };
};

/** The same as seen from the other side of a page so wide: mountain and valley swapped, texts reading on. */
export const turnOver = (drawing: Drawing, width: number): Drawing => {
  const over = ([x, y]: Vec2): Vec2 => [width - x, y];
  return {
    strokes: drawing.strokes.map((stroke) => ({
      ...stroke,
      role: seenFromBehind[stroke.role] ?? stroke.role,
      points: stroke.points.map(over),
    })),
    labels: drawing.labels.map((label) => ({
      ...label,
      at: over(label.at),
      turn: -label.turn,
      align: otherEnd[label.align],
    })),
  };
};

const seenFromBehind: Readonly<Partial<Record<LineRole, LineRole>>> = {
  'fold-mountain': 'fold-valley',
  'fold-valley': 'fold-mountain',
};

const otherEnd = { start: 'end', middle: 'middle', end: 'start' } as const;

export const line = (role: LineRole, ...points: readonly Vec2[]): Stroke => ({ role, points, closed: false });
export const ring = (role: LineRole, points: readonly Vec2[]): Stroke => ({ role, points, closed: true });

export const labelAt = (
  text: string,
  at: Vec2,
  size: number,
  { align = 'start', turn = 0, tracking = 0 }: Partial<Pick<Label, 'align' | 'turn' | 'tracking'>> = {},
): Label => ({ text, at, size, turn, align, tracking });

/** Length of a label along its baseline, mm. */
export const labelWidth = ({ text, size, tracking }: Label): number => textWidth(text, size, tracking);

/** Where the first letter of a label starts on the baseline. */
export const labelStart = (label: Label): Vec2 => {
  const share = label.align === 'start' ? 0 : label.align === 'middle' ? 0.5 : 1;
  const along: Vec2 = [Math.cos(label.turn), Math.sin(label.turn)];
  return add2(label.at, scale2(along, -share * labelWidth(label)));
};

/** The four corners round a label's ink, counter-clockwise from its lower left. */
export const labelCorners = (label: Label): readonly [Vec2, Vec2, Vec2, Vec2] => {
  const start = labelStart(label);
  const along: Vec2 = [Math.cos(label.turn), Math.sin(label.turn)];
  const up: Vec2 = [-along[1], along[0]];
  const corner = (x: number, y: number): Vec2 => add2(start, add2(scale2(along, x), scale2(up, y)));
  const width = labelWidth(label);
  const low = /^[A-Z0-9]*$/.test(label.text) ? 0 : -DESCENT * label.size;
  const high = CAP_HEIGHT * label.size;
  return [corner(0, low), corner(width, low), corner(width, high), corner(0, high)];
};

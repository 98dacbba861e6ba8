import { type KeyboardEvent, memo, type PointerEvent, type ReactElement, useEffect, useRef } from 'react';
import { boxOf } from '../../core/geometry/polygon.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { keyOf } from '../../core/layout/layout.ts';
import { formatLength, type Ruler, type Units } from '../../core/units/units.ts';
import { bench } from '../bench.ts';
import { placeWords } from './laying-words.ts';
import { type Lying, middleOf, ringAt, type Spot } from './lying.ts';

/** What can be done with a piece. Ways in pixels, y down; angles counter-clockwise. */
export interface PieceHands {
  readonly onTakeUp: () => void;
  /** Carried so far from where it was taken up; free: drawn to nothing. */
  readonly onCarry: (by: Vec2, from: Spot, isFree: boolean) => void;
  readonly onTurn: (by: number, from: Spot, isFree: boolean) => void;
  readonly onLetGo: (gesture?: string) => void;
  /** The hand meant something else: the piece goes back to where it was taken up. */
  readonly onDrop: (from: Spot, wasStuck: boolean) => void;
  /** By marks of the ruler. */
  readonly onStep: (right: number, up: number, isStride: boolean) => void;
  readonly onTurnStep: (sign: 1 | -1) => void;
  readonly onLock: () => void;
  readonly onSheet: (by: 1 | -1) => void;
  readonly onPutBack: () => void;
}

interface LaidPieceProps extends Lying {
  /** Lower left of its sheet on the page, and pixels per mm. */
  readonly x: number;
  readonly y: number;
  readonly scale: number;
  readonly title: string;
  readonly sheet: string;
  readonly style: Style;
  readonly isInHand: boolean;
  /** The one that Tab comes to while none is taken up. */
  readonly isFirst: boolean;
  readonly isStuck: boolean;
  /** Its paper has no up. */
  readonly canTurn: boolean;
  readonly hatch: string;
  readonly handsOf: (lying: Lying) => PieceHands;
}

interface Style {
  readonly units: Units;
  readonly ruler: Ruler;
}

/** Pixels that a hand trembles while it only presses. */
const TREMBLE = 3;
/** Pixels from a piece to the knob it is turned by, and the knob's size. */
const ARM = 26;
const KNOB = 9;

const arrows: Readonly<Record<string, Vec2>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

interface Drag {
  readonly start: Vec2;
  readonly from: Spot;
  readonly middle: Vec2;
  isMoved: boolean;
}

let drags = 0;
let dropped: (() => void) | null = null;

/** Ends what a hand does with a piece, as if it had not begun. */
export const dropDrag = (): void => dropped?.();

interface Held {
  readonly spot: Spot;
  readonly isStuck: boolean;
  /** On the page. */
  readonly ring: readonly Vec2[];
  readonly hands: () => PieceHands;
}

/** Follows a pointer that is held down on a part of a piece. */
const useDrag = ({ spot, isStuck, ring, hands }: Held, onMove: (drag: Drag, to: Vec2, isFree: boolean) => void) => {
  const drag = useRef<Drag | null>(null);
  const end = (): void => {
    const was = drag.current;
    drag.current = null;
    dropped = null;
    if (was?.isMoved !== true) return;
    drags += 1;
    hands().onLetGo(`lay ${drags}`);
    bench.endGesture();
  };
  return {
    onPointerDown: (event: PointerEvent<SVGElement>) => {
      if (event.button !== 0) return;
      event.stopPropagation();
      event.currentTarget.setPointerCapture(event.pointerId);
      hands().onTakeUp();
      drag.current = { start: [event.clientX, event.clientY], from: spot, middle: middleOf(ring), isMoved: false };
      dropped = () => {
        if (drag.current?.isMoved === true) hands().onDrop(spot, isStuck);
        drag.current = null;
        dropped = null;
      };
    },
    onPointerMove: (event: PointerEvent<SVGElement>) => {
      const now = drag.current;
      if (now === null) return;
      const to: Vec2 = [event.clientX, event.clientY];
      now.isMoved ||= Math.hypot(to[0] - now.start[0], to[1] - now.start[1]) > TREMBLE;
      if (now.isMoved) onMove(now, to, event.altKey);
    },
    onPointerUp: end,
    onPointerCancel: end,
  };
};

/** One piece: carried by a hand, turned by its knob, moved by the arrow keys once it is taken up. */
export const LaidPiece = memo((props: LaidPieceProps): ReactElement => {
  const { piece, placement, stock, index, x, y, scale, style, isInHand, isFirst, isStuck, hatch } = props;
  const path = useRef<SVGPathElement>(null);
  const isLocked = placement.locked === true;
  const spot: Spot = { stock, index, x: placement.x, y: placement.y, rotation: placement.rotation };
  const ring = ringAt(piece.outline, spot).map((p): Vec2 => [x + p[0] * scale, y - p[1] * scale]);
  const words = placeWords(piece, spot, (mm) => formatLength(mm, style));
  const label = `${props.title}, on ${props.sheet}, ${words}${isLocked ? ', locked' : ''}${isStuck ? ', cannot lie here' : ''}`;
  const hands = (): PieceHands => props.handsOf({ piece, placement, stock, index });
  const held: Held = { spot, isStuck, ring, hands };
  const carried = useDrag(held, ({ start, from }, to, isFree) =>
    hands().onCarry([to[0] - start[0], to[1] - start[1]], from, isFree),
  );

  // Taken up from the list in the panel or by a hand: the keys go on with it.
  useEffect(() => {
    const isTyping = document.activeElement?.matches('input, select, textarea, .piece-list *') ?? false;
    if (isInHand && !isTyping) path.current?.focus({ preventScroll: true });
  }, [isInHand]);

  const onKeyDown = (event: KeyboardEvent<SVGPathElement>): void => {
    if (event.ctrlKey || event.metaKey) return;
    if (!isInHand) {
      if (event.key === 'Enter' || event.key === ' ') hands().onTakeUp();
      else if (event.key in arrows)
        walk(event.currentTarget, event.key === 'ArrowRight' || event.key === 'ArrowDown' ? 1 : -1);
      else return;
      event.preventDefault();
      return;
    }
    const arrow = arrows[event.key];
    if (arrow) hands().onStep(arrow[0], arrow[1], event.shiftKey);
    else if (event.key === 'r' || event.key === 'R') hands().onTurnStep(event.shiftKey ? 1 : -1);
    else if (event.key === 'l' || event.key === 'L') hands().onLock();
    else if (event.key === 'PageDown' || event.key === 'PageUp') hands().onSheet(event.key === 'PageDown' ? 1 : -1);
    else if (event.key === 'Escape') hands().onPutBack();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <g className={`laid ${isInHand ? 'is-in-hand' : ''} ${isStuck ? 'is-stuck' : ''} ${isLocked ? 'is-locked' : ''}`}>
      {/* biome-ignore lint/a11y/useSemanticElements: a button cannot have the outline of a piece. */}
      <path
        ref={path}
        className="laid-piece"
        d={`M${ring.map((p) => p.join(' ')).join('L')}Z`}
        style={isStuck ? { fill: `url(#${hatch})` } : undefined}
        role="button"
        tabIndex={isInHand || isFirst ? 0 : -1}
        aria-label={label}
        aria-pressed={isInHand}
        onKeyDown={onKeyDown}
        onKeyUp={(event) => {
          if (isInHand && event.key in arrows) hands().onLetGo(`lay walk ${keyOf(piece)}`);
        }}
        {...carried}
      />
      {isLocked && <Pin at={middleOf(ring)} />}
      {isInHand && props.canTurn && <Knob held={held} />}
    </g>
  );
});

/** To the next or the last piece, as the arrow keys go through a list. */
const walk = (from: SVGElement, by: 1 | -1): void => {
  const all = [...(from.ownerSVGElement?.querySelectorAll<SVGElement>('.laid-piece') ?? [])];
  const next = all[(all.indexOf(from) + by + all.length) % all.length];
  if (next === undefined) return;
  from.tabIndex = -1;
  next.tabIndex = 0;
  next.focus();
};

const Pin = ({ at: [x, y] }: { readonly at: Vec2 }): ReactElement => (
  <g className="pin" transform={`translate(${x} ${y})`}>
    <circle r="8" />
    <path d="M0-4v5m0 0v3M-3 1h6" />
  </g>
);

/** Over the piece on an arm; a hand leads it round the middle of the piece. Keys have R. */
const Knob = ({ held }: { readonly held: Held }): ReactElement => {
  const { ring, spot } = held;
  const origin = useRef<Vec2>([0, 0]);
  const turned = useDrag(held, ({ middle, from, start }, to, isFree) => {
    const [left, top] = origin.current;
    const angle = ([px, py]: Vec2): number => Math.atan2(middle[1] - (py - top), px - left - middle[0]);
    held.hands().onTurn(angle(to) - angle(start), from, isFree);
  });
  const { minX, maxX, minY } = boxOf(ring);
  const x = (minX + maxX) / 2;
  const y = minY - ARM < KNOB ? boxOf(ring).maxY + ARM : minY - ARM;
  return (
    <g
      className="knob"
      data-turn={spot.rotation}
      {...turned}
      onPointerDown={(event) => {
        const box = event.currentTarget.ownerSVGElement?.getBoundingClientRect();
        origin.current = [box?.left ?? 0, box?.top ?? 0];
        turned.onPointerDown(event);
      }}
    >
      <path d={`M${x} ${y}V${y < minY ? minY : boxOf(ring).maxY}`} />
      <circle cx={x} cy={y} r={KNOB} />
      <circle className="knob-reach" cx={x} cy={y} r={KNOB * 2.2} />
    </g>
  );
};

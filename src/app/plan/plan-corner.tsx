import { type KeyboardEvent, type PointerEvent, type ReactElement, useEffect, useId, useRef } from 'react';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { bench } from '../bench.ts';

interface PlanCornerProps {
  readonly at: Vec2;
  readonly label: string;
  readonly describedBy: string;
  /** A square on a corner; a small diamond in the middle of a side, where a corner can be added. */
  readonly sort: 'corner' | 'middle';
  /** Takes the focus as soon as it is drawn, and says so. */
  readonly isWanted?: boolean;
  readonly onReached?: () => void;
  /** By so many marks of the ruler to the right and to the back. */
  readonly onStep?: (right: number, back: number, gesture: string) => void;
  /** To a point of the page. */
  readonly onDrag: (page: Vec2, gesture: string) => void;
  readonly onDragStart: () => void;
  readonly onDragEnd: () => void;
  readonly onRemove?: () => void;
  readonly onAdd: () => void;
  readonly onFocus?: () => void;
}

const steps: Readonly<Record<string, Vec2>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Marks that an arrow key goes with Shift held. */
const STRIDE = 10;

/** Pixels that a hand trembles while it only presses. */
const TREMBLE = 3;

let drags = 0;

/** A corner under a hand or under the arrow keys. One drag, and one walk with the keys, is one step to undo. */
export const PlanCorner = (props: PlanCornerProps): ReactElement => {
  const { at, label, sort, onStep, onDrag, onDragStart, onDragEnd, onRemove, onAdd } = props;
  const drag = useRef<{ gesture: string; grip: Vec2; from: Vec2; isMoved: boolean } | null>(null);
  const wasDragged = useRef(false);
  const id = useId();

  const pageOf = (event: PointerEvent): Vec2 => {
    const sheet = event.currentTarget.parentElement?.getBoundingClientRect();
    return [event.clientX - (sheet?.left ?? 0), event.clientY - (sheet?.top ?? 0)];
  };
  const onPointerDown = (event: PointerEvent<HTMLButtonElement>): void => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    const [x, y] = pageOf(event);
    bench.endGesture();
    drag.current = { gesture: `plan drag ${++drags}`, grip: [at[0] - x, at[1] - y], from: at, isMoved: false };
    wasDragged.current = false;
    onDragStart();
  };
  const onPointerMove = (event: PointerEvent): void => {
    const now = drag.current;
    if (now === null) return;
    const [x, y] = pageOf(event);
    const to: Vec2 = [x + now.grip[0], y + now.grip[1]];
    now.isMoved ||= Math.hypot(to[0] - now.from[0], to[1] - now.from[1]) > TREMBLE;
    wasDragged.current = now.isMoved;
    if (now.isMoved) onDrag(to, now.gesture);
  };
  const onPointerUp = (): void => {
    if (drag.current === null) return;
    drag.current = null;
    bench.endGesture();
    onDragEnd();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const step = onStep && steps[event.key];
    const stride = event.shiftKey ? STRIDE : 1;
    if (step) onStep(step[0] * stride, step[1] * stride, `plan walk ${id}`);
    else if ((event.key === 'Delete' || event.key === 'Backspace') && onRemove) onRemove();
    else if (event.key === 'Insert' || event.key === '+') onAdd();
    else return;
    event.preventDefault();
  };

  const button = useRef<HTMLButtonElement>(null);
  const { isWanted = false, onReached } = props;
  useEffect(() => {
    if (!isWanted) return;
    button.current?.focus();
    onReached?.();
  }, [isWanted, onReached]);

  return (
    <button
      ref={button}
      type="button"
      className={`plan-${sort}`}
      style={{ left: at[0], top: at[1] }}
      aria-label={label}
      aria-describedby={props.describedBy}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={onPointerUp}
      onPointerCancel={onPointerUp}
      onKeyDown={onKeyDown}
      onBlur={bench.endGesture}
      onFocus={props.onFocus}
      onClick={() => {
        // The press that ends a drag is no press.
        if (sort === 'middle' && !wasDragged.current) onAdd();
      }}
    />
  );
};

import { type KeyboardEvent, type ReactElement, useId, useState } from 'react';
import { bench, useStyle } from '../bench.ts';
import { shownText, steppedValue, typedValue } from '../fields/typed-text.ts';
import type { Json } from '../state/file-path.ts';

interface PlanBoxProps {
  /** What a reader hears. */
  readonly label: string;
  readonly value: Json | undefined;
  readonly quantity: 'length' | 'pitch';
  /** What counts while nothing is typed. */
  readonly placeholder?: string;
  /** True when taken. `undefined`: the box was emptied. */
  readonly onTake: (value: Json | undefined, gesture?: string) => boolean;
  readonly describedBy: string;
}

/** One length or pitch, written on its side. Enter or leaving the box takes it; refused text stays until it is mended. */
export const PlanBox = ({ label, value, quantity, placeholder, onTake, describedBy }: PlanBoxProps): ReactElement => {
  const { units, ruler } = useStyle();
  const [typing, setTyping] = useState<string | null>(null);
  const [isWrong, setIsWrong] = useState(false);
  const id = useId();
  const shown = shownText(value, quantity);
  const text = typing ?? shown;

  const giveUp = (): void => {
    setTyping(null);
    setIsWrong(false);
  };
  const settle = (): void => {
    bench.endGesture();
    if (typing === null) return;
    if (typing.trim() === shown || onTake(typedValue(typing, quantity, units))) giveUp();
    else setIsWrong(true);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') settle();
    else if (event.key === 'Escape') giveUp();
    else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      const next = steppedValue(text || (placeholder ?? ''), quantity, event.key === 'ArrowUp' ? 1 : -1, ruler);
      if (next !== null && onTake(next, `plan step ${id}`)) giveUp();
    }
  };

  return (
    <input
      className="plan-box"
      type="text"
      autoComplete="off"
      spellCheck={false}
      aria-label={label}
      aria-invalid={isWrong}
      aria-describedby={describedBy}
      placeholder={placeholder}
      style={{ width: `${Math.max((text || (placeholder ?? '')).length, 3) + 3}ch` }}
      value={text}
      onChange={(event) => setTyping(event.target.value)}
      onKeyDown={onKeyDown}
      onBlur={settle}
    />
  );
};

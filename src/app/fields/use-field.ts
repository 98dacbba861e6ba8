import { useCallback, useState } from 'react';
import type { Issue } from '../../core/issue.ts';
import { bench, useBench, useReading, useStyle } from '../bench.ts';
import { formatPath, getAt, type Json } from '../state/file-path.ts';
import type { FieldSpec } from './field-spec.ts';
import { shownText, steppedValue, typedValue } from './typed-text.ts';

export interface FieldState {
  /** As it stands in the box. */
  readonly text: string;
  readonly issues: readonly Issue[];
  readonly type: (text: string) => void;
  /** Takes what was typed; text the file refuses stays with its reason. */
  readonly settle: () => void;
  readonly giveUp: () => void;
  readonly step: (by: 1 | -1) => void;
  /** Empties the box and takes the key out of the file. */
  readonly leaveOut: () => void;
  readonly set: (value: Json | undefined) => void;
  readonly value: Json | undefined;
}

/** One field over the store: the file is the only truth, text not yet taken lives here. */
export const useField = (spec: FieldSpec): FieldState => {
  const key = formatPath(spec.path);
  const value = useBench((state) => (spec.read ? spec.read(state.file) : getAt(state.file, spec.path)));
  const draft = useBench((state) => state.drafts[key]);
  const { issues } = useReading();
  const { units, ruler } = useStyle();
  const [typing, setTyping] = useState<string | null>(null);

  const set = useCallback(
    (next: Json | undefined, gesture?: string) => {
      if (spec.write) spec.write(next, gesture);
      else bench.setField(spec.path, next, gesture);
    },
    [spec],
  );
  const asShown = shownText(value, spec.quantity);
  const text = typing ?? draft?.text ?? asShown;
  const here = issues.filter((issue) => issue.path === key && issue.level !== 'note');

  return {
    text,
    value,
    issues: draft?.issues ?? here,
    type: setTyping,
    settle: () => {
      bench.endGesture();
      if (typing === null) return;
      setTyping(null);
      if (typing.trim() === asShown) bench.dropDraft(spec.path);
      else set(typedValue(typing, spec.quantity, units));
    },
    giveUp: () => {
      setTyping(null);
      bench.dropDraft(spec.path);
    },
    step: (by) => {
      const next = steppedValue(text || shownText(spec.fallback, spec.quantity), spec.quantity, by, ruler);
      if (next === null) return;
      setTyping(null);
      set(next, `step ${key}`);
    },
    leaveOut: () => {
      setTyping(null);
      bench.dropDraft(spec.path);
      if (value !== undefined) set(undefined);
    },
    set: (next) => set(next),
  };
};

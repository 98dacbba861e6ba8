import { type ReactElement, useId, useState } from 'react';
import type { Issue } from '../../core/issue.ts';
import { bench, useReading, useStyle } from '../bench.ts';
import { IssueSentence } from '../issue-sentence.tsx';
import { type FilePath, formatPath, type Json } from '../state/file-path.ts';
import { outlineText, readOutline } from './outline-text.ts';

interface CornersBoxProps {
  /** Where the corners stand in the file. */
  readonly at: FilePath;
  readonly corners: Json | undefined;
  readonly label: string;
}

/** An outline by its corners, typed one after the other going round. */
export const CornersBox = ({ at, corners, label }: CornersBoxProps): ReactElement => {
  const { units } = useStyle();
  const { issues } = useReading();
  const id = useId();
  const path = formatPath(at);
  const shown = outlineText(corners);
  const [typing, setTyping] = useState<{ readonly text: string; readonly wrong: Issue | null } | null>(null);
  const settle = (): void => {
    if (typing === null || typing.text.trim() === shown) {
      setTyping(null);
      return;
    }
    const read = readOutline(typing.text, units);
    if (!read.ok) {
      setTyping({ text: typing.text, wrong: unread(path, read.part, units) });
      return;
    }
    const taken = bench.setField(at, read.outline);
    const refused = bench.store.getState().drafts[path]?.issues[0];
    setTyping(taken ? null : { text: typing.text, wrong: refused ?? null });
  };
  const wrong = typing === null ? issues.filter((issue) => issue.path === path) : typing.wrong ? [typing.wrong] : [];
  return (
    <div className="corners">
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        className="plain-field"
        rows={3}
        spellCheck={false}
        value={typing?.text ?? shown}
        aria-invalid={wrong.length > 0}
        aria-describedby={`${id}-wrong`}
        onChange={(event) => setTyping({ text: event.target.value, wrong: null })}
        onBlur={settle}
        onKeyDown={(event) => {
          if (event.key === 'Escape') setTyping(null);
          if (event.key !== 'Enter' || event.shiftKey) return;
          event.preventDefault();
          settle();
        }}
      />
      <div id={`${id}-wrong`} className="field-error" aria-live="polite">
        {wrong.slice(0, 1).map((issue) => (
          <IssueSentence key={issue.code} issue={issue} />
        ))}
      </div>
    </div>
  );
};

const unread = (path: string, part: string, units: 'in' | 'mm'): Issue => ({
  level: 'error',
  code: 'corners-text',
  path,
  message: `“${part}” is not a corner.`,
  remedy: `Write each corner as two lengths with a comma between them and a semicolon after: ${
    units === 'in' ? '0, 0; 6in, 0; 6in, 2 1/2in' : '0, 0; 150, 0; 150, 60'
  }.`,
});

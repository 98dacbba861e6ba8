import { type ReactElement, useId, useState } from 'react';
import type { Issue } from '../../core/issue.ts';
import { bench, useReading, useStyle } from '../bench.ts';
import { exactText } from '../fields/typed-text.ts';
import { IssueSentence } from '../issue-sentence.tsx';
import { laying } from '../laying/laying-store.ts';
import { type FilePath, formatPath, type JsonObject, setAt } from '../state/file-path.ts';
import { outlineText, readOutline } from './outline-text.ts';

interface OffcutFieldsProps {
  readonly paper: JsonObject;
  readonly index: number;
}

/** Size of an offcut to begin with, mm: a sheet with a corner gone. */
const FIRST = [160, 110, 60, 40] as const;

/** An offcut by its corners, typed one after the other going round. */
export const OffcutFields = ({ paper, index }: OffcutFieldsProps): ReactElement => {
  const { units } = useStyle();
  const { issues } = useReading();
  const id = useId();
  const at: FilePath = ['stock', index, 'outline'];
  const path = formatPath(at);
  const shown = outlineText(paper['outline']);
  const [typing, setTyping] = useState<{ readonly text: string; readonly wrong: Issue | null } | null>(null);
  if (paper['outline'] === undefined) {
    return (
      <button type="button" className="link" onClick={() => bench.edit((file) => makeOffcut(file, index, units))}>
        It is an offcut
      </button>
    );
  }

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
    <div className="typed offcut">
      <label htmlFor={id}>Corners, going round: across, up; …</label>
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
      <div className="layer-keys">
        <button
          type="button"
          className="link"
          onClick={() => {
            laying.setState({ offcut: index });
            bench.store.setState({ paperView: 'sheets' });
          }}
        >
          Draw it on the table
        </button>
        <button type="button" className="link" onClick={() => bench.edit((file) => makeSheet(file, index))}>
          It is a whole sheet
        </button>
      </div>
    </div>
  );
};

const unread = (path: string, part: string, units: 'in' | 'mm'): Issue => ({
  level: 'error',
  code: 'corners-text',
  path,
  message: `“${part}” is not a corner.`,
  remedy: `Write each corner as two lengths, across and up, with a comma between them and a semicolon after: ${
    units === 'in' ? '0, 0; 6in, 0; 6in, 2 1/2in' : '0, 0; 150, 0; 150, 60'
  }.`,
});

/** A sheet with its upper right corner gone, to be typed over. */
const makeOffcut = (file: JsonObject, index: number, units: 'in' | 'mm'): JsonObject => {
  const [width, height, right, up] = FIRST.map((mm) =>
    exactText(units === 'in' ? (mm / 20) * 25.4 * 0.75 : mm, units),
  ) as [string, string, string, string];
  const outline = [
    [0, 0],
    [width, 0],
    [width, up],
    [right, height],
    [0, height],
  ];
  const paper = setAt(setAt(file, ['stock', index, 'outline'], outline), ['stock', index, 'width'], undefined);
  return setAt(paper, ['stock', index, 'height'], undefined) as JsonObject;
};

/** A rectangle as large as the offcut's box was, or A4 where nothing better is known. */
const makeSheet = (file: JsonObject, index: number): JsonObject => {
  const sized = setAt(setAt(file, ['stock', index, 'width'], '210mm'), ['stock', index, 'height'], '297mm');
  return setAt(sized, ['stock', index, 'outline'], undefined) as JsonObject;
};

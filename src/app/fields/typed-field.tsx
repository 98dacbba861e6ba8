import { type KeyboardEvent, type ReactElement, useEffect, useId, useRef } from 'react';
import type { Issue } from '../../core/issue.ts';
import { formatLength } from '../../core/units/units.ts';
import { useStyle } from '../bench.ts';
import { IssueSentence } from '../issue-sentence.tsx';
import type { FieldSpec } from './field-spec.ts';
import { otherUnits, shownText } from './typed-text.ts';
import { useField } from './use-field.ts';

/** The box of one typed value and, under it, what is wrong with the text. Enter or leaving the box takes the text. */
export const TypedBox = ({ spec, id }: { readonly spec: FieldSpec; readonly id: string }): ReactElement => {
  const field = useField(spec);
  const style = useStyle();
  const errorId = useId();
  const isWrong = field.issues.some((issue) => issue.level === 'error');
  const converted = spec.quantity === 'length' ? otherUnits(field.text, style) : null;

  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') field.settle();
    else if (event.key === 'Escape') field.giveUp();
    else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      if (spec.quantity === 'text') return;
      event.preventDefault();
      field.step(event.key === 'ArrowUp' ? 1 : -1);
    }
  };

  return (
    <div className="typed">
      <div className="typed-line">
        <input
          id={id}
          className="plain-field"
          type="text"
          autoComplete="off"
          spellCheck={false}
          value={field.text}
          title={spec.help}
          placeholder={shownText(spec.fallback, spec.quantity)}
          aria-invalid={isWrong}
          aria-describedby={errorId}
          onChange={(event) => field.type(event.target.value)}
          onKeyDown={onKeyDown}
          onBlur={field.settle}
        />
        {spec.canLeaveOut && field.text !== '' && (
          <button
            type="button"
            className="leave-out"
            aria-label={`Leave out: ${spec.label}`}
            title="Leave out"
            onClick={(event) => {
              event.currentTarget.parentElement?.querySelector('input')?.focus();
              field.leaveOut();
            }}
          >
            <svg viewBox="0 0 12 12" aria-hidden="true">
              <path d="m2.500 2.500 7 7m0-7-7 7" />
            </svg>
          </button>
        )}
        {converted !== null && !isWrong && <span className="as-shown">= {formatLength(converted, style)}</span>}
      </div>
      <FieldErrors id={errorId} issues={field.issues} />
    </div>
  );
};

const FieldErrors = ({ id, issues }: { readonly id: string; readonly issues: readonly Issue[] }): ReactElement => {
  const place = useRef<HTMLDivElement>(null);
  const what = issues.map((issue) => issue.code).join();

  // What is wrong with the text just typed is not left below the edge of a low drawer.
  useEffect(() => {
    const isAtHand = place.current?.closest('.typed')?.contains(document.activeElement);
    if (what !== '' && isAtHand) place.current?.scrollIntoView({ block: 'nearest' });
  }, [what]);

  return (
    <div ref={place} id={id} className="field-error" aria-live="polite">
      {issues.slice(0, 2).map((issue) => (
        <IssueSentence key={issue.code + issue.path} issue={issue} />
      ))}
    </div>
  );
};

export const ChoiceBox = ({ spec, id }: { readonly spec: FieldSpec; readonly id: string }): ReactElement => {
  const field = useField(spec);
  const errorId = useId();
  const value = String(field.value ?? spec.fallback ?? '');
  const isKnown = (spec.choices ?? []).some((choice) => choice.value === value);
  return (
    <div className="typed">
      <select
        id={id}
        className="plain-field"
        value={value}
        aria-describedby={errorId}
        onChange={(event) => field.set(event.target.value)}
      >
        {!isKnown && <option value={value}>{value === '' ? 'Choose…' : value}</option>}
        {(spec.choices ?? []).map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
      <FieldErrors id={errorId} issues={field.issues} />
    </div>
  );
};

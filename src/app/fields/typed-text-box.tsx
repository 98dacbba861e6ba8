import type { ReactElement } from 'react';
import type { FieldSpec } from './field-spec.ts';
import { useField } from './use-field.ts';

/** A name written straight onto bar or card: a text box whose label is not seen. An empty name is not taken. */
export const TypedText = ({
  spec,
  className,
}: {
  readonly spec: FieldSpec;
  readonly className: string;
}): ReactElement => {
  const field = useField(spec);
  return (
    <input
      className={className}
      type="text"
      aria-label={spec.label}
      autoComplete="off"
      spellCheck={false}
      value={field.text}
      onChange={(event) => field.type(event.target.value)}
      onBlur={() => (field.text.trim() === '' ? field.giveUp() : field.settle())}
      onKeyDown={(event) => {
        if (event.key === 'Enter') event.currentTarget.blur();
        else if (event.key === 'Escape') field.giveUp();
      }}
    />
  );
};

import type { ReactElement } from 'react';
import { type Issue, spell } from '../core/issue.ts';
import { formatLength } from '../core/units/units.ts';
import { useStyle } from './bench.ts';

/** What is wrong and what would be right, as one line of text in the maker's units. */
export const IssueSentence = ({ issue }: { readonly issue: Issue }): ReactElement => {
  const style = useStyle();
  const { message, remedy } = spell(issue, (mm) => formatLength(mm, style));
  return <p>{unbroken(remedy === undefined ? message : `${message} ${remedy}`)}</p>;
};

/** A measure with a fraction: `3 7/16in`, `3-7/16 in`, `1\' 2 1/2"`. */
const measure = /((?:\d+' ?)?\d+[ -]\d+\/\d+(?: ?(?:in|mm|cm|["']))?|\d+(?:\.\d+|\/\d+)? ?(?:in|mm|cm|["'])(?![a-z]))/;

/** The text with its measures kept on one line each. */
const unbroken = (text: string): (string | ReactElement)[] =>
  text.split(measure).map((part, i) =>
    i % 2 === 0 ? (
      part
    ) : (
      // biome-ignore lint/suspicious/noArrayIndexKey: parts of one text, which never move within it.
      <span key={i} className="measure">
        {part}
      </span>
    ),
  );

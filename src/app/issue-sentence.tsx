import type { ReactElement } from 'react';
import { type Issue, spell } from '../core/issue.ts';
import { formatLength } from '../core/units/units.ts';
import { useStyle } from './bench.ts';

/** What is wrong and what would be right, as one line of text in the maker's units. */
export const IssueSentence = ({ issue }: { readonly issue: Issue }): ReactElement => {
  const style = useStyle();
  const { message, remedy } = spell(issue, (mm) => formatLength(mm, style));
  return (
    <p>
      {message}
      {remedy !== undefined && ` ${remedy}`}
    </p>
  );
};

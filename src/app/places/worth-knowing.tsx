import type { ReactElement } from 'react';
import { useBench, useReading } from '../bench.ts';
import { IssueSentence } from '../issue-sentence.tsx';
import { ShowPlace } from '../lit-line.tsx';
import { describePath } from '../state/describe-path.ts';

/** Warnings and notes of the whole project; errors lie on the table as slips. */
export const WorthKnowing = (): ReactElement | null => {
  const file = useBench((state) => state.file);
  const issues = useReading().issues.filter((issue) => issue.level !== 'error');
  if (issues.length === 0) return null;
  const warnings = issues.filter((issue) => issue.level === 'warning').length;
  return (
    <section className="group worth-knowing">
      <details open={warnings > 0}>
        <summary>Worth knowing ({issues.length})</summary>
        <ul>
          {issues.slice(0, 40).map((issue, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: two notes may say the same of the same place.
            <li key={i}>
              <span className="where">{describePath(issue.path, file)}</span>
              <IssueSentence issue={issue} />
              <ShowPlace by={`issue ${issue.code} ${issue.path} ${i}`} path={issue.path} place={issue.place} />
            </li>
          ))}
        </ul>
      </details>
    </section>
  );
};

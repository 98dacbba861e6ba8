import type { ReactElement } from 'react';
import { bench, useBench, useReading } from './bench.ts';
import { IssueSentence } from './issue-sentence.tsx';
import { ShowPlace } from './lit-line.tsx';
import { describePath } from './state/describe-path.ts';
import { getAt } from './state/file-path.ts';

/** Slips of paper on the table: a file that was not opened, and what keeps a roof from being made. */
export const Slips = ({ isOverSheet }: { readonly isOverSheet: boolean }): ReactElement => {
  const notice = useBench((state) => state.notice);
  const file = useBench((state) => state.file);
  const reading = useReading();
  const errors = reading.issues.filter((issue) => issue.level === 'error');
  const title = reading.isCurrent ? 'This does not fit yet.' : 'The table shows the last roof that worked.';
  return (
    <div className="slips" aria-live="polite">
      {notice !== null && (
        <div className="slip">
          <div className="slip-head">
            <h2>{notice.title}</h2>
            <button type="button" className="link" onClick={() => bench.store.setState({ notice: null })}>
              Put away
            </button>
          </div>
          <ul>
            {notice.issues.slice(0, 6).map((issue) => (
              <li key={issue.code + issue.path}>
                {issue.path !== '' && <span className="where">{describePath(issue.path, null)}</span>}
                <IssueSentence issue={issue} />
              </li>
            ))}
          </ul>
          {notice.issues.length > 6 && <p>And {notice.issues.length - 6} more.</p>}
        </div>
      )}
      {/* Over a sheet only its first line lies there until it is opened, so that what it speaks of stays in sight. */}
      {errors.length > 0 && (
        <details className="slip" key={`${isOverSheet}`} open={!isOverSheet}>
          <summary>
            <h2>{title}</h2>
            <span className="slip-count">{errors.length === 1 ? 'One thing' : `${errors.length} things`}</span>
          </summary>
          <ul>
            {errors.slice(0, 4).map((issue) => (
              <li key={issue.code + issue.path}>
                <span className="where">{describePath(issue.path, getAt(file, []) ?? null)}</span>
                <IssueSentence issue={issue} />
                <ShowPlace by={`error ${issue.code} ${issue.path}`} path={issue.path} place={issue.place} />
              </li>
            ))}
          </ul>
          {errors.length > 4 && <p>And {errors.length - 4} more, in Build.</p>}
        </details>
      )}
    </div>
  );
};

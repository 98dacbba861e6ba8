import type { ReactElement } from 'react';
import { bench, useBench, useReading } from './bench.ts';
import { IssueSentence } from './issue-sentence.tsx';
import { ShowPlace } from './lit-line.tsx';
import { describePath } from './state/describe-path.ts';
import { getAt } from './state/file-path.ts';

/** Slips of paper on the table: a file that was not opened, and what keeps a roof from being made. */
export const Slips = (): ReactElement => {
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
      {errors.length > 0 && (
        <div className="slip">
          <h2>{title}</h2>
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
        </div>
      )}
    </div>
  );
};

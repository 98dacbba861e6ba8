import { type ReactElement, useState } from 'react';
import type { Production } from '../../core/pipeline.ts';
import { download, fileName, saveProject } from '../save.ts';

interface Progress {
  readonly busy: string | null;
  readonly said: string;
  readonly drawings: readonly { readonly name: string; readonly text: string }[];
}

/** Everything that leaves the bench as a file. The writers come when they are asked for. */
export const Exports = ({
  production,
  isCurrent,
}: {
  readonly production: Production;
  readonly isCurrent: boolean;
}): ReactElement => {
  const [{ busy, said, drawings }, setProgress] = useState<Progress>({ busy: null, said: '', drawings: [] });
  const { title } = production.project;

  const make = async (what: string, write: () => Promise<Partial<Progress>>): Promise<void> => {
    setProgress((now) => ({ ...now, busy: what, said: `Making the ${what}…` }));
    try {
      const made = await write();
      setProgress((now) => ({ ...now, said: `${what} is made.`, ...made, busy: null }));
    } catch (error) {
      setProgress((now) => ({
        ...now,
        busy: null,
        said: `The ${what} could not be made: ${error instanceof Error ? error.message : 'unknown reason'}`,
      }));
    }
  };

  const makePdf = async (): Promise<Partial<Progress>> => {
    const [{ writePdf }, { fontBytes }] = await Promise.all([
      import('../../io/pdf/write-pdf.ts'),
      import('./font-bytes.ts'),
    ]);
    download(fileName(title, '.pdf'), 'application/pdf', writePdf(production, { font: await fontBytes() }));
    return {};
  };
  const makeGuide = async (): Promise<Partial<Progress>> => {
    const [{ writeGuide }, { fontBytes }] = await Promise.all([
      import('../../io/guide/write-guide.ts'),
      import('./font-bytes.ts'),
    ]);
    download(fileName(title, '.guide.pdf'), 'application/pdf', writeGuide(production, { font: await fontBytes() }));
    return {};
  };
  const makeSvg = async (): Promise<Partial<Progress>> => {
    const { writeSvg } = await import('../../io/svg/write-svg.ts');
    const files = writeSvg(production);
    const [only] = files;
    if (files.length === 1 && only !== undefined) download(fileName(title, '.svg'), 'image/svg+xml', only.text);
    return files.length === 1
      ? { drawings: [] }
      : { drawings: files, said: `${files.length} drawings: take the ones you want.` };
  };
  const makeReport = async (): Promise<Partial<Progress>> => {
    const { writeReport } = await import('../../io/report/write-report.ts');
    download(fileName(title, '.report.json'), 'application/json', writeReport(production));
    return {};
  };

  return (
    <>
      <div className="keys">
        <button type="button" className="key main" disabled={busy !== null} onClick={() => void make('PDF', makePdf)}>
          PDF to print
        </button>
        <button type="button" className="key" disabled={busy !== null} onClick={() => void make('guide', makeGuide)}>
          Guide to print
        </button>
        <button type="button" className="key" disabled={busy !== null} onClick={() => void make('SVG', makeSvg)}>
          SVG drawings
        </button>
        <button type="button" className="key" disabled={busy !== null} onClick={() => void make('report', makeReport)}>
          Report (JSON)
        </button>
        <button type="button" className="key" onClick={saveProject}>
          Project file
        </button>
      </div>
      <p className="note" aria-live="polite">
        {said}
      </p>
      {drawings.length > 0 && (
        <ul className="downloads">
          {drawings.map((file) => (
            <li key={file.name}>
              <button type="button" className="link" onClick={() => download(file.name, 'image/svg+xml', file.text)}>
                {file.name}
              </button>
            </li>
          ))}
        </ul>
      )}
      {!isCurrent && <p className="note">One roof is printed as it last worked; see the slip on the table.</p>}
    </>
  );
};

import { readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { hasError } from '../core/issue.ts';
import type { Production } from '../core/pipeline.ts';
import { writeGuide } from '../io/guide/write-guide.ts';
import { writePdf } from '../io/pdf/write-pdf.ts';
import { writeReport } from '../io/report/write-report.ts';
import { writeSvg } from '../io/svg/write-svg.ts';
import type { Output } from './commands.ts';
import { issueLine, loadProduction } from './load-production.ts';
import type { ProduceOptions } from './read-words.ts';
import { exitCodes, type Terminal } from './terminal.ts';
import { type NamedFile, writeFolder } from './write-folder.ts';

/** Letters and digits of a title, lower case, joined by hyphens: a file name on every system. */
export function titleSlug(title: string): string {
  const plain = title.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();
  return (
    plain
      .replaceAll(/[^a-z0-9]+/g, '-')
      .slice(0, 80)
      .replaceAll(/^-|-$/g, '') || 'roofs'
  );
}

const writers: Readonly<Record<Output, (production: Production, terminal: Terminal) => Promise<readonly NamedFile[]>>> =
  {
    pdf: async (production, terminal) => {
      const font = await sheetFont(terminal);
      return [{ name: `${titleSlug(production.project.title)}.pdf`, data: writePdf(production, { font }) }];
    },
    svg: async (production) => writeSvg(production).map(({ name, text }) => ({ name, data: text })),
    report: async (production) => [{ name: 'report.json', data: writeReport(production) }],
    guide: async (production, terminal) => [
      { name: 'guide.pdf', data: writeGuide(production, { font: await sheetFont(terminal) }) },
    ],
  };

const sheetFont = async ({ assets }: Terminal): Promise<Uint8Array> =>
  new Uint8Array(await readFile(join(assets, 'fonts', 'ibm-plex-sans-regular.ttf')));

/** Makes every output of a project in a folder; says what was written and what does not fit. */
export async function produceCommand(
  { file, out, options }: { readonly file: string; readonly out: string; readonly options: ProduceOptions },
  terminal: Terminal,
): Promise<number> {
  const production = await loadProduction(file, terminal, options);
  const files: NamedFile[] = [];
  for (const output of options.only) files.push(...(await writers[output](production, terminal)));
  await writeFolder(resolve(terminal.cwd, out), out, files);
  for (const issue of production.issues.filter(({ level }) => level !== 'note'))
    terminal.err(`${issue.level}: ${issueLine(file, issue)}\n`);
  if (options.effort !== null)
    terminal.err(
      `--effort: the layout was searched for by the clock, ${options.effort} s; another run may find another.\n`,
    );
  for (const { name } of files) terminal.out(`${join(out, name)}\n`);
  return hasError(production.issues) ? exitCodes.misfits : exitCodes.fits;
}

import { showGap } from '../core/fit/fit.ts';
import { handCut } from '../core/fit/hand-cut.ts';
import { hasError } from '../core/issue.ts';
import type { MadeRoof } from '../core/make-roof.ts';
import { restsOf, trimPlanOf } from '../core/materials.ts';
import type { Production } from '../core/pipeline.ts';
import { formatLength } from '../core/units/units.ts';
import { writeReport } from '../io/report/write-report.ts';
import { tableText } from './columns.ts';
import { loadProduction } from './load-production.ts';
import { exitCodes, type Terminal } from './terminal.ts';

/** Fit and issues of a project, as a table or as the report. */
export async function checkCommand(
  { file, json }: { readonly file: string; readonly json: boolean },
  terminal: Terminal,
): Promise<number> {
  const production = await loadProduction(file, terminal, { seed: null });
  terminal.out(json ? writeReport(production) : checkText(production));
  return hasError(production.issues) ? exitCodes.misfits : exitCodes.fits;
}

function checkText(production: Production): string {
  const { roofs, issues, sheets } = production;
  const table = tableText(
    ['Roof', 'Title', 'Kind', 'Copies', 'Overhang', 'Seams differ', 'Peak gap', 'Cut by hand', 'Fit'],
    roofs.map((roof) => roofRow(production, roof)),
  );
  const found = issues.map(({ level, path, message, remedy }) => [
    level,
    path,
    [message, remedy].filter((part) => part !== undefined).join(' '),
  ]);
  const list = found.length === 0 ? 'No issues.\n' : tableText(['Issue', 'Where', 'What'], found);
  const laid = sheets.length === 1 ? 'All on 1 sheet.' : `All on ${sheets.length} sheets.`;
  const papers = sheets.length === 0 ? '' : `\n${paperTable(production)}`;
  return `${table}\n${list}${papers}${hasError(issues) || sheets.length === 0 ? '' : `\n${laid}\n`}`;
}

/** What is used of every paper, what is left of its last sheet, and what it costs. */
function paperTable({ project, roofs, sheets, materials }: Production): string {
  const exact = (mm: number): string => formatLength(mm, { units: project.units });
  const hasPrice = materials.byStock.some(({ price }) => price);
  const isTrimmed = project.layout.cuts === 'strips';
  const rows = materials.byStock.flatMap(({ stock, sheets: count, used, price }): (readonly string[])[] => {
    const own = sheets.filter((sheet) => sheet.stock === stock);
    const last = own.at(-1);
    if (!last) return [];
    const [rest] = restsOf(project, roofs, last);
    const cuts = own.reduce((sum, sheet) => sum + trimPlanOf(roofs, sheet).cuts.length, 0);
    return [
      [
        project.stock[stock]?.name ?? '',
        String(count),
        `${Math.round(100 * used)} %`,
        rest ? `${exact(rest.maxX - rest.minX)} by ${exact(rest.maxY - rest.minY)}` : 'little',
        ...(isTrimmed ? [String(cuts)] : []),
        ...(hasPrice ? [price ? `${price.amount.toFixed(2)} ${price.currency}` : ''] : []),
      ],
    ];
  });
  return tableText(
    [
      'Paper',
      'Sheets',
      'Used',
      'Left of the last',
      ...(isTrimmed ? ['Straight cuts'] : []),
      ...(hasPrice ? ['Price'] : []),
    ],
    rows,
  );
}

function roofRow({ project }: Production, { spec, made, issues }: MadeRoof): readonly string[] {
  const row = [spec.id, spec.title, spec.kind, String(spec.copies)];
  if (made === null) return [...row, '', '', '', '', 'cannot be made'];
  const exact = (mm: number): string => formatLength(mm, { units: project.units });
  const { overhang, seamMismatch, peakGap, sentence } = made.fit;
  const out = overhang === null ? 'no body' : [...new Set([exact(overhang.min), exact(overhang.max)])].join(' to ');
  const { ninetyFifth } = handCut(made.layers, project.seed);
  return [
    ...row,
    out,
    exact(seamMismatch),
    exact(peakGap),
    showGap(ninetyFifth, project.units),
    hasError(issues) ? 'does not fit' : sentence,
  ];
}

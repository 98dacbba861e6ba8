import { isPositive } from '../tolerance.ts';
import { type Intake, readLength, showLength } from './intake.ts';
import { defaults, lengthLimits } from './limits.ts';
import { findPaperSize } from './paper-sizes.ts';
import { formatPath, isRecord, type PathPart } from './path.ts';
import type { Direction, PageSpec, Stock } from './project.ts';
import { projectIssue } from './sentences.ts';

const textOr = (value: unknown, otherwise: string): string => (typeof value === 'string' ? value : otherwise);

/** The pages that are printed, mm. */
export function resolvePage(intake: Intake, found: unknown): PageSpec {
  const page = isRecord(found) ? found : {};
  const name = textOr(page['size'], defaults.pageSize[intake.units]);
  // An unknown size was reported with the structure of the file.
  const size = findPaperSize(name) ?? { width: Number.NaN, height: Number.NaN };
  const isLandscape = page['orientation'] === 'landscape';
  const length = (key: 'margin' | 'overlap', otherwise: number): number => {
    if (page[key] === undefined) return otherwise;
    const rule = key === 'margin' ? lengthLimits.pageMargin : lengthLimits.pageOverlap;
    return readLength(intake, page[key], ['page', key], { ...rule, label: `The page's ${key}` });
  };
  const margin = length('margin', defaults.pageMargin);
  const overlap = length('overlap', defaults.pageOverlap);
  if (Math.min(size.width, size.height) - 2 * margin <= overlap) {
    intake.report(projectIssue('page-no-room', 'page', { found: showLength(margin, intake.units), other: name }));
  }
  return {
    name,
    width: isLandscape ? size.height : size.width,
    height: isLandscape ? size.width : size.height,
    margin,
    overlap,
  };
}

/** One paper, mm. */
export function resolveStock(intake: Intake, found: unknown, path: readonly PathPart[]): Stock {
  const stock = isRecord(found) ? found : {};
  const id = textOr(stock['id'], '');
  const length = (key: string, limits: keyof typeof lengthLimits, label: string): number =>
    readLength(intake, stock[key], [...path, key], { ...lengthLimits[limits], label });
  const optionalLength = (key: string, limits: keyof typeof lengthLimits, label: string): number =>
    stock[key] === undefined ? 0 : length(key, limits, label);

  const width = length('width', 'stockSize', 'The width of the paper');
  const height = length('height', 'stockSize', 'The height of the paper');
  const margin = optionalLength('margin', 'stockMargin', 'The margin of the paper');
  if (!isPositive(Math.min(width, height) - 2 * margin) && !Number.isNaN(width + height + margin)) {
    const show = (mm: number): string => showLength(mm, intake.units);
    intake.report(
      projectIssue('stock-no-room', formatPath([...path, 'margin']), {
        found: show(margin),
        other: `${show(width)} by ${show(height)}`,
      }),
    );
  }
  return {
    id,
    name: textOr(stock['name'], id),
    width,
    height,
    count: typeof stock['count'] === 'number' ? stock['count'] : null,
    thickness: optionalLength('thickness', 'thickness', 'The thickness of the paper'),
    direction: textOr(stock['direction'], 'one-way') as Direction,
    margin,
    gap: optionalLength('gap', 'gap', 'The gap between pieces'),
  };
}

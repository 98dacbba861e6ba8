import { type Intake, readLength, showLength } from './intake.ts';
import { defaults, lengthLimits } from './limits.ts';
import { findPaperSize } from './paper-sizes.ts';
import { isRecord } from './path.ts';
import type { PageSpec, PrinterCorrection } from './project.ts';
import { projectIssue } from './sentences.ts';

/** Length of the bars that are printed to be measured, mm. */
const BAR_MM = 100;

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
    ...(page['arrange'] === 'as-laid' ? { arrange: 'as-laid' as const } : {}),
    ...(page['marks'] === 'both' ? { marks: 'both' as const } : {}),
    ...(page['correction'] === undefined ? {} : { correction: resolveCorrection(intake, page['correction']) }),
  };
}

/** What the bars of 100 mm measure; as long as they should be where nothing is said. */
function resolveCorrection(intake: Intake, found: unknown): PrinterCorrection {
  const correction = isRecord(found) ? found : {};
  const bar = (key: 'across' | 'up'): number =>
    correction[key] === undefined
      ? BAR_MM
      : readLength(intake, correction[key], ['page', 'correction', key], {
          ...lengthLimits.bar,
          label: `The bar of ${BAR_MM} mm ${key} the page`,
        });
  return { across: bar('across'), up: bar('up') };
}

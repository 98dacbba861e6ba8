import type { PageSpec, PrinterCorrection } from '../../core/project/project.ts';

/** Length of the bars that are measured on a print, mm. */
const BAR_MM = 100;
const asPrinted: PrinterCorrection = { across: BAR_MM, up: BAR_MM };

/** How much longer a printer draws a length than the file says, across the page and up it; 1 where nothing was measured. */
export const printerScale = ({ correction = asPrinted }: Pick<PageSpec, 'correction'>): readonly [number, number] => [
  correction.across / BAR_MM,
  correction.up / BAR_MM,
];

/**
 * The page as large as what the printer covers with it: whatever is drawn on it in true millimetres comes out true when the
 * file has it divided by the printer's scale.
 */
export const pageOnPaper = (page: PageSpec): PageSpec => {
  const [across, up] = printerScale(page);
  return { ...page, width: page.width * across, height: page.height * up };
};

/** What the page says of it; null where nothing is corrected. */
export const correctionNote = ({ correction }: Pick<PageSpec, 'correction'>): string | null => {
  if (!correction) return null;
  const show = (mm: number): string => String(Number(mm.toFixed(2)));
  return `Made for a printer that draws 100 mm as ${show(correction.across)} mm across and ${show(correction.up)} mm up: on its print the bars are true.`;
};

import type { Production } from '../../core/pipeline.ts';
import { printerScale } from '../pages/correct-page.ts';
import { writePages } from '../pdf/write-pdf.ts';
import { drawGuide } from './draw-guide.ts';

/** The guide of a project as a PDF booklet; its templates come out at true scale on the printer of the project. `font` is the file `assets/fonts/ibm-plex-sans-regular.ttf`. */
export const writeGuide = (production: Production, { font }: { readonly font: Uint8Array }): Uint8Array =>
  writePages(drawGuide(production), {
    title: `${production.project.title}: guide`,
    scale: printerScale(production.project.page),
    font,
  });

import { jsPDF } from 'jspdf';
import type { Production } from '../../core/pipeline.ts';
import { MM_PER_INCH } from '../../core/units/units.ts';
import type { Label, SheetDrawing, Stroke } from '../drawing/drawing.ts';
import { labelStart } from '../drawing/drawing.ts';
import { lineRoles, lineStyles } from '../drawing/lines.ts';
import { printerScale } from '../pages/correct-page.ts';
import { drawPages } from '../pages/draw-pages.ts';

const POINTS_PER_MM = 72 / MM_PER_INCH;
const FAMILY = 'Plex';
const FONT_FILE = 'plex.ttf';

/** Dates and ids are fixed: the same project gives the same bytes on any day, in any time zone. */
const FIXED_DATE = "D:20260101000000+00'00'";
const FIXED_ID = '5350495245575249474854204E455453';

const pt = (mm: number): number => mm * POINTS_PER_MM;

/** The printed pages as a PDF that comes out at true scale on the printer of the project. */
export const writePdf = (production: Production, options: { readonly font: Uint8Array }): Uint8Array =>
  writePages(drawPages(production), {
    title: production.project.title,
    scale: printerScale(production.project.page),
    ...options,
  });

/**
 * Pages of one size as a PDF. Coordinates keep six decimals of a point (under a millionth of a mm); viewers are told not to
 * scale. `scale` is how much longer the printer draws a length, across and up; `font` is the file `assets/fonts/ibm-plex-sans-regular.ttf`; the letters used go in.
 */
export const writePages = (
  pages: readonly SheetDrawing[],
  { title, font, scale = [1, 1] }: { readonly title: string; readonly font: Uint8Array; readonly scale?: Scale },
): Uint8Array => {
  const [{ width, height } = { width: 0, height: 0 }] = pages;
  const size: [number, number] = [pt(width / scale[0]), pt(height / scale[1])];
  const orientation = width > height ? 'landscape' : 'portrait';
  const doc = new jsPDF({ unit: 'pt', format: size, orientation, precision: 6, floatPrecision: 6, compress: false });
  doc.setCreationDate(FIXED_DATE);
  doc.setFileId(FIXED_ID);
  doc.setDocumentProperties({ title, creator: 'Spirewright' });
  doc.viewerPreferences({ PrintScaling: 'None' });
  doc.addFileToVFS(FONT_FILE, binaryText(font));
  doc.addFont(FONT_FILE, FAMILY, 'normal');
  pages.forEach((sheet, i) => {
    if (i > 0) doc.addPage(size, orientation);
    writePage(doc, sheet, scale);
  });
  return new Uint8Array(doc.output('arraybuffer'));
};

/** One character a byte, as the library keeps its font files; in steps, since a call takes only so many arguments. */
const binaryText = (bytes: Uint8Array): string => {
  const parts: string[] = [];
  for (let i = 0; i < bytes.length; i += 8192) parts.push(String.fromCharCode(...bytes.subarray(i, i + 8192)));
  return parts.join('');
};

/** Millimetres on paper, for a printer that draws them so much longer across and up. */
type Scale = readonly [across: number, up: number];

const writePage = (doc: jsPDF, sheet: SheetDrawing, scale: Scale): void => {
  // A new page starts without the line ends and font of the last one, so each page sets them all.
  doc.setFont(FAMILY, 'normal');
  doc.setLineCap('butt');
  doc.setLineJoin('round');
  const strokes = [...sheet.frame.strokes, ...sheet.work.strokes];
  for (const role of lineRoles) {
    const ofRole = strokes.filter((stroke) => stroke.role === role);
    if (ofRole.length === 0) continue;
    const { width, dash } = lineStyles[role];
    doc.setLineWidth(pt(width));
    doc.setLineDashPattern(dash.map(pt), 0);
    for (const stroke of ofRole) writeStroke(doc, sheet, stroke, scale);
  }
  for (const label of [...sheet.frame.labels, ...sheet.work.labels]) writeLabel(doc, sheet, label, scale);
};

/** The library's y runs down from the upper edge of the page. */
const writeStroke = (doc: jsPDF, sheet: SheetDrawing, { points, closed }: Stroke, [across, up]: Scale): void => {
  points.forEach(([x, y], i) => {
    if (i === 0) doc.moveTo(pt(x / across), pt((sheet.height - y) / up));
    else doc.lineTo(pt(x / across), pt((sheet.height - y) / up));
  });
  if (closed) doc.close();
  doc.stroke();
};

const writeLabel = (doc: jsPDF, sheet: SheetDrawing, label: Label, [across, up]: Scale): void => {
  const [x, y] = labelStart(label);
  doc.setFontSize(pt(label.size));
  doc.text(label.text, pt(x / across), pt((sheet.height - y) / up), {
    angle: (label.turn * 180) / Math.PI,
    charSpace: pt(label.tracking),
  });
};

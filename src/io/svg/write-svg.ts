import type { Vec2 } from '../../core/geometry/vector.ts';
import type { Production } from '../../core/pipeline.ts';
import {
  type Drawing,
  type Label,
  labelStart,
  labelWidth,
  type SheetDrawing,
  type Stroke,
} from '../drawing/drawing.ts';
import { type LineRole, lineRoles, lineStyles } from '../drawing/lines.ts';
import { drawPages } from '../pages/draw-pages.ts';
import { drawLaidSheet, sheetTitle } from './draw-sheets.ts';

export interface SvgFile {
  /** As `sheet-01-slate.svg`; `page-01.svg` where the project has no laid sheets. */
  readonly name: string;
  readonly text: string;
}

/**
 * One file for every laid sheet of stock, or for every printed page where nothing is laid. One user unit is one mm.
 *
 * Groups by id: `cut`, `fold-valley`, `fold-mountain`, `mark` (glue lines, arrows, letters and names) and `legend`
 * (title, legend, on pages the check bars), which a cutting machine can leave out.
 */
export const writeSvg = (production: Production): readonly SvgFile[] => {
  const { project, sheets } = production;
  if (sheets.length > 0) {
    return sheets.map((sheet, i) => ({
      name: `sheet-${twoDigits(i + 1)}-${project.stock[sheet.stock]?.id ?? 'stock'}.svg`,
      text: sheetText(drawLaidSheet(production, sheet), sheetTitle(production, sheet)),
    }));
  }
  return drawPages(production).map((page, i) => ({
    name: `page-${twoDigits(i + 1)}.svg`,
    text: sheetText(page, `${project.title}, page ${i + 1}`),
  }));
};

const twoDigits = (count: number): string => String(count).padStart(2, '0');

/** Four decimals: a ten-thousandth of a mm. */
const number = (value: number): string => {
  const text = value.toFixed(4).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
};

const escapeText = (text: string): string =>
  // Characters that XML 1.0 has no form for are left out: a title may hold anything that was typed.
  [...text]
    .filter((letter) => letter >= ' ' && letter !== '\uFFFE' && letter !== '\uFFFF' && !isLoneSurrogate(letter))
    .join('')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');

const isLoneSurrogate = (letter: string): boolean => letter.length === 1 && letter >= '\uD800' && letter <= '\uDFFF';

const marks: readonly LineRole[] = ['rule', 'trim', 'glue'];

const sheetText = (sheet: SheetDrawing, title: string): string => {
  const { width, height, work, frame } = sheet;
  const groups = (['fold-valley', 'fold-mountain', 'cut'] as const).map((role) => lineGroup(sheet, work, role));
  const markLines = marks.map((role) => lineGroup(sheet, work, role, 'class'));
  const frameLines = lineRoles.map((role) => lineGroup(sheet, frame, role, 'class'));
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${number(width)}mm" height="${number(height)}mm" viewBox="0 0 ${number(width)} ${number(height)}">`,
    `  <title>${escapeText(title)}</title>`,
    `  <desc>${escapeText(description)}</desc>`,
    '  <g id="legend">',
    ...frameLines.flat(),
    ...texts(sheet, frame),
    '  </g>',
    '  <g id="mark">',
    ...markLines.flat(),
    ...texts(sheet, work),
    '  </g>',
    ...groups.flat(),
    '</svg>',
    '',
  ].join('\n');
};

/** What the legend says, for readers and for sheets without room for one. */
const description = [
  'True size, one unit is one mm, seen from the outside.',
  ...(['cut', 'fold-mountain', 'fold-valley', 'glue'] as const).map(
    (role) =>
      `${role === 'cut' ? 'Continuous' : role === 'glue' ? 'Dots' : role === 'fold-valley' ? 'Dashes' : 'Dash-dot'}: ${lineStyles[role].legend}.`,
  ),
].join(' ');

const lineGroup = (
  sheet: SheetDrawing,
  { strokes }: Drawing,
  role: LineRole,
  naming: 'id' | 'class' = 'id',
): readonly string[] => {
  const { width, dash } = lineStyles[role];
  const ofRole = strokes.filter((stroke) => stroke.role === role);
  if (ofRole.length === 0 && naming === 'class') return [];
  const dashes = dash.length === 0 ? '' : ` stroke-dasharray="${dash.map(number).join(' ')}"`;
  return [
    `  <g ${naming}="${role}" fill="none" stroke="#000" stroke-width="${number(width)}" stroke-linejoin="round"${dashes}>`,
    ...ofRole.map((stroke) => `    <path d="${pathOf(sheet, stroke)}"/>`),
    '  </g>',
  ];
};

/** SVG's y runs down from the upper edge of the sheet. */
const pathOf = ({ height }: SheetDrawing, { points, closed }: Stroke): string =>
  points.map((p, i) => `${i === 0 ? 'M' : 'L'}${place(p, height)}`).join(' ') + (closed ? ' Z' : '');

const place = ([x, y]: Vec2, height: number): string => `${number(x)} ${number(height - y)}`;

const texts = ({ height }: SheetDrawing, { labels }: Drawing): readonly string[] =>
  labels.length === 0
    ? []
    : [
        `  <g class="text" fill="#000" font-family="'IBM Plex Sans', 'Segoe UI', Helvetica, Arial, sans-serif">`,
        ...labels.map((label) => textElement(label, height)),
        '  </g>',
      ];

/** The length is stated, so that a text fits what it labels in whatever typeface the reader has. */
const textElement = (label: Label, height: number): string => {
  const [x, y] = labelStart(label);
  const turn = number((-label.turn * 180) / Math.PI);
  const motion = `translate(${number(x)} ${number(height - y)})${turn === '0' ? '' : ` rotate(${turn})`}`;
  const tracking = label.tracking === 0 ? '' : ` letter-spacing="${number(label.tracking)}"`;
  const length = `textLength="${number(labelWidth(label))}" lengthAdjust="spacingAndGlyphs"`;
  return `    <text transform="${motion}" font-size="${number(label.size)}"${tracking} ${length}>${escapeText(label.text)}</text>`;
};

import { checkRing } from '../footprint/check-ring.ts';
import { boxOf, ringArea } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { spell } from '../issue.ts';
import { isPositive, isSameLength } from '../tolerance.ts';
import { type Intake, readLength, showLength } from './intake.ts';
import { lengthLimits } from './limits.ts';
import { formatPath, isRecord, type PathPart } from './path.ts';
import { type PrintPattern, printPatterns, prints } from './prints.ts';
import type { Direction, Picture, Price, PrintSpec, Stock } from './project.ts';
import { projectIssue } from './sentences.ts';

const textOr = (value: unknown, otherwise: string): string => (typeof value === 'string' ? value : otherwise);

/** The shortest side of an offcut, mm. */
const LEAST_SIDE = 1;

/** One paper, mm. */
export function resolveStock(intake: Intake, found: unknown, path: readonly PathPart[]): Stock {
  const stock = isRecord(found) ? found : {};
  const id = textOr(stock['id'], '');
  const optionalLength = (key: string, limits: keyof typeof lengthLimits, label: string): number =>
    stock[key] === undefined ? 0 : readLength(intake, stock[key], [...path, key], { ...lengthLimits[limits], label });
  const outline = stock['outline'] === undefined ? null : readOutline(intake, stock['outline'], [...path, 'outline']);
  const size = readSize(intake, stock, path, outline);
  const margin = optionalLength('margin', 'stockMargin', 'The margin of the paper');
  checkRoom(intake, path, size, margin);
  if (stock['picture'] !== undefined && stock['print'] !== undefined)
    intake.report(projectIssue('picture-and-print', formatPath([...path, 'print'])));
  const price = readPrice(stock['price']);
  const picture = readPicture(intake, stock['picture'], [...path, 'picture']);
  const print = readPrint(intake, stock['print'], [...path, 'print']);
  return {
    id,
    name: textOr(stock['name'], id),
    ...size,
    // There is one of an offcut.
    count: typeof stock['count'] === 'number' ? stock['count'] : stock['outline'] === undefined ? null : 1,
    thickness: optionalLength('thickness', 'thickness', 'The thickness of the paper'),
    direction: textOr(stock['direction'], 'one-way') as Direction,
    margin,
    gap: optionalLength('gap', 'gap', 'The gap between pieces'),
    ...(outline ? { outline } : {}),
    ...(price ? { price } : {}),
    ...(picture ? { picture } : {}),
    ...(print ? { print } : {}),
  };
}

function checkRoom(
  intake: Intake,
  path: readonly PathPart[],
  { width, height }: { readonly width: number; readonly height: number },
  margin: number,
): void {
  if (isPositive(Math.min(width, height) - 2 * margin) || Number.isNaN(width + height + margin)) return;
  const show = (mm: number): string => showLength(mm, intake.units);
  const facts = { found: show(margin), other: `${show(width)} by ${show(height)}` };
  intake.report(projectIssue('stock-no-room', formatPath([...path, 'margin']), facts));
}

/** Corners counter-clockwise, the lower left of their box at the origin; null, with issues reported, where they are none. */
function readOutline(intake: Intake, found: unknown, path: readonly PathPart[]): readonly Vec2[] | null {
  const typed = Array.isArray(found) ? found : [];
  const rule = { ...lengthLimits.offcutCorner, label: 'The place of the corner' };
  const corners = typed.map((corner, i): Vec2 => {
    const [x, y] = Array.isArray(corner) ? corner : [];
    return [readLength(intake, x, [...path, i, 0], rule), readLength(intake, y, [...path, i, 1], rule)];
  });
  if (corners.length < 3 || corners.flat().some(Number.isNaN)) return null;
  const { minX, minY } = boxOf(corners);
  const moved = corners.map(([x, y]): Vec2 => [x - minX, y - minY]);
  const ring = ringArea(moved) < 0 ? moved.toReversed() : moved;
  const wrong = checkRing(ring, '', LEAST_SIDE).filter(({ code }) => code !== 'straight-corner');
  for (const issue of wrong)
    intake.report({ ...spell(issue, (mm) => showLength(mm, intake.units)), path: formatPath(path) });
  return wrong.length === 0 ? ring : null;
}

/** Width and height: those of the box of an outline, which may be given beside it only if they agree. */
function readSize(
  intake: Intake,
  stock: Readonly<Record<string, unknown>>,
  path: readonly PathPart[],
  outline: readonly Vec2[] | null,
): { readonly width: number; readonly height: number } {
  const read = (key: 'width' | 'height'): number => {
    const rule = { ...lengthLimits.stockSize, label: `The ${key} of the paper` };
    if (stock['outline'] === undefined && stock[key] === undefined) {
      const allowed = 'a length such as 210 (millimetres), "210mm" or "8 1/2in", or the outline of an offcut';
      intake.report(projectIssue('missing-key', formatPath([...path, key]), { label: `"${key}"`, allowed }));
    }
    const typed = stock[key] === undefined ? Number.NaN : readLength(intake, stock[key], [...path, key], rule);
    if (!outline) return typed;
    const box = boxOf(outline);
    const found = key === 'width' ? box.maxX : box.maxY;
    if (!Number.isNaN(typed) && !isSameLength(typed, found)) {
      const facts = {
        label: rule.label,
        found: showLength(typed, intake.units),
        other: showLength(found, intake.units),
      };
      intake.report(projectIssue('outline-box', formatPath([...path, key]), facts));
    }
    return readLength(intake, found, [...path, 'outline'], rule);
  };
  return { width: read('width'), height: read('height') };
}

function readPrice(found: unknown): Price | null {
  if (!isRecord(found)) return null;
  const { amount, currency, sheets } = found;
  return {
    amount: typeof amount === 'number' ? amount : Number.NaN,
    currency: textOr(currency, ''),
    sheets: typeof sheets === 'number' ? sheets : 1,
  };
}

function readPicture(intake: Intake, found: unknown, path: readonly PathPart[]): Picture | null {
  if (!isRecord(found)) return null;
  const file = textOr(found['file'], '');
  if (file !== '' && !isPictureFile(file)) {
    intake.report(projectIssue('picture-file', formatPath([...path, 'file']), { found: `"${file.slice(0, 40)}"` }));
  }
  const rule = { ...lengthLimits.pictureWidth, label: 'The width of the picture' };
  return { file, width: readLength(intake, found['width'], [...path, 'width'], rule) };
}

/** A picture kept in the project, or the name of a file beside or below it: never an address elsewhere. */
const isPictureFile = (file: string): boolean =>
  /^data:image\/(?:png|jpeg|webp);base64,[A-Za-z0-9+/]+={0,2}$/.test(file) ||
  (!/^[a-z][a-z0-9+.-]*:|^[/\\]|\\/i.test(file) && !file.split('/').includes('..'));

function readPrint(intake: Intake, found: unknown, path: readonly PathPart[]): PrintSpec | null {
  if (!isRecord(found)) return null;
  const pattern = found['pattern'] as PrintPattern;
  // Any other word was reported with the structure of the file.
  if (!printPatterns.includes(pattern)) return null;
  const rule = { ...lengthLimits.printRepeat, label: 'The repeat of the print' };
  const repeat =
    found['repeat'] === undefined
      ? prints[pattern].repeat
      : readLength(intake, found['repeat'], [...path, 'repeat'], rule);
  return { pattern, repeat };
}

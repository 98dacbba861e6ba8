import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { type Amount, addAmounts, amountValue, plainText, readAmount, timesAmount } from './amount-text.ts';
import { defaultRuler, marksPerUnit, type Ruler, roundToRuler, rulerUnits, type Units, unitLength } from './ruler.ts';

/** The forms a length may have, for messages and help. */
const LENGTH_FORMS = `3 7/16in, 3 7/16", 3-7/16 in, 3.4375in, 1' 2 1/2", 67mm or 6.7cm`;

export interface LengthReading {
  /** Unit of a text that names none, as in the text fields of a project; without it such a text is refused. */
  readonly bare?: Units;
  /** Lengths under zero, as the offset of a peak to the left. Otherwise they are refused. */
  readonly negative?: 'allow' | 'refuse';
}

interface UnitWord {
  readonly units: Units;
  /** Whole inches or millimetres in it. */
  readonly times: number;
}

const INCH: UnitWord = { units: 'in', times: 1 };
const FOOT: UnitWord = { units: 'in', times: 12 };
const MILLIMETRE: UnitWord = { units: 'mm', times: 1 };
const CENTIMETRE: UnitWord = { units: 'mm', times: 10 };
const METRE: UnitWord = { units: 'mm', times: 1000 };

const unitWords: ReadonlyMap<string, UnitWord> = new Map([
  ...['"', 'in', 'in.', 'inch', 'inches'].map((word) => [word, INCH] as const),
  ...["'", 'ft', 'ft.', 'foot', 'feet'].map((word) => [word, FOOT] as const),
  ...['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'].map((word) => [word, MILLIMETRE] as const),
  ...['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'].map((word) => [word, CENTIMETRE] as const),
  ...['m', 'metre', 'metres', 'meter', 'meters'].map((word) => [word, METRE] as const),
]);

/** Length in mm. A number is mm; a text carries its unit. Bounds are the caller's. The issue's path is empty. */
export function parseLength(input: string | number, reading: LengthReading = {}): Result<number> {
  if (typeof input === 'number') {
    if (!Number.isFinite(input)) return fail(unreadable(String(input)));
    return signed(input, String(input), reading);
  }
  const plain = plainText(input);
  const isNegative = plain.startsWith('-');
  const size = readSize((isNegative ? plain.slice(1) : plain).trim(), input, reading);
  if (!size.ok) return size;
  if (!Number.isFinite(size.value)) return fail(unreadable(input));
  return signed(isNegative ? -size.value : size.value, input, reading);
}

function signed(mm: number, found: string, reading: LengthReading): Result<number> {
  if (mm < 0 && reading.negative !== 'allow') {
    return fail({
      level: 'error',
      code: 'length-negative',
      path: '',
      numbers: { found: mm },
      message: `${quoted(found)} is less than zero; this length must not be.`,
      remedy: 'Leave out the minus sign.',
    });
  }
  return succeed(mm === 0 ? 0 : mm);
}

/** mm of a length without sign. */
function readSize(plain: string, typed: string, reading: LengthReading): Result<number> {
  const feetAndInches = /^(.*\d) ?('|ft\.?|foot|feet)(?: ?- ?| )?(\d.*|\..*)$/.exec(plain);
  if (feetAndInches) {
    const feet = readAmount(feetAndInches[1] ?? '');
    const rest = splitUnit(feetAndInches[3] ?? '', reading.bare === 'in' ? 'in' : undefined);
    if (feet && rest.amount && rest.unit === INCH) {
      return succeed(amountValue(addAmounts(timesAmount(feet, FOOT.times), rest.amount)) * unitLength('in'));
    }
    return fail(unreadable(typed));
  }
  const { amount, unit, word } = splitUnit(plain, reading.bare);
  if (!amount) return fail(unreadable(typed));
  if (!unit) return fail(word === '' ? withoutUnit(typed) : unknownUnit(typed, word));
  return succeed(amountValue(timesAmount(amount, unit.times)) * unitLength(unit.units));
}

function splitUnit(
  plain: string,
  bare: Units | undefined,
): { readonly amount: Amount | null; readonly unit: UnitWord | undefined; readonly word: string } {
  const [, digits = '', word = ''] = /^([\d./ -]*\d)? ?(\D*)$/.exec(plain) ?? [];
  const unit = word === '' && bare ? (bare === 'in' ? INCH : MILLIMETRE) : unitWords.get(word.trim());
  return { amount: readAmount(digits), unit, word: word.trim() };
}

const quoted = (found: string): string => (/["]/.test(found) ? `‘${found}’` : `"${found}"`);

function unreadable(found: string): Issue {
  const message = `${quoted(found)} is not a length.`;
  if (/\d,\d/.test(found)) {
    return issue('length-unreadable', message, 'Write a point where you wrote a comma.');
  }
  if (/\/ ?0+(?!\d)/.test(found))
    return issue('length-unreadable', message, 'A fraction cannot have 0 below its line.');
  if (isOverOne(found)) {
    return issue('length-unreadable', message, 'After a whole number the fraction must be under 1, as in 3 7/16in.');
  }
  return issue('length-unreadable', message, `Write it as ${LENGTH_FORMS}.`);
}

function isOverOne(found: string): boolean {
  const mixed = /\d[ -]+(\d+) ?\/ ?(\d+)/.exec(plainText(found));
  return mixed !== null && Number(mixed[1]) >= Number(mixed[2]);
}

const withoutUnit = (found: string): Issue =>
  issue(
    'length-without-unit',
    `${quoted(found)} has no unit.`,
    `Add one: ${found.trim()}in or ${found.trim()}mm. Only a plain number, without quotes, is taken as millimetres.`,
  );

const unknownUnit = (found: string, word: string): Issue =>
  issue('length-unit', `${quoted(found)} has a unit that is not known here: ${word}.`, `Write it as ${LENGTH_FORMS}.`);

const issue = (code: string, message: string, remedy: string): Issue => ({
  level: 'error',
  code,
  path: '',
  message,
  remedy,
});

export interface LengthStyle {
  readonly units: Units;
  /** Round to its marks, where it has the same units. */
  readonly ruler?: Ruler;
}

/**
 * A length for reading: inches as the nearest mark in lowest terms (`3 7/16 in`; sixteenths unless the ruler says
 * otherwise), millimetres with up to two decimals or as the nearest mark (`67.5 mm`).
 */
export function formatLength(mm: number, style: LengthStyle): string {
  const ruler = style.ruler && rulerUnits(style.ruler) === style.units ? style.ruler : undefined;
  if (ruler) return formatMark(mm, ruler);
  if (style.units === 'in') return formatMark(mm, defaultRuler.in);
  return `${Number(mm.toFixed(2)) + 0} mm`;
}

/** The nearest mark of the ruler as text with its unit (`2 3/8 in`), or without it where a drawing says it once. */
export function formatMark(mm: number, ruler: Ruler, show: { readonly unit: boolean } = { unit: true }): string {
  const { count } = roundToRuler(mm, ruler);
  const perUnit = marksPerUnit(ruler);
  const units = rulerUnits(ruler);
  const number = units === 'in' ? mixedFraction(count, perUnit) : String(count / perUnit);
  return show.unit ? `${number} ${units}` : number;
}

/** Whole number and fraction in lowest terms; `parts` is a power of two. */
function mixedFraction(count: number, parts: number): string {
  const size = Math.abs(count);
  const whole = Math.floor(size / parts);
  let top = size % parts;
  let bottom = parts;
  while (top > 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  const sign = count < 0 ? '-' : '';
  if (top === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${top}/${bottom}` : `${sign}${whole} ${top}/${bottom}`;
}

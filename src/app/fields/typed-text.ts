import { CUT_MM, NOISE_MM } from '../../core/tolerance.ts';
import {
  formatMark,
  MM_PER_INCH,
  parseLength,
  parsePitch,
  type Ruler,
  roundToRuler,
  rulerStep,
  rulerUnits,
  toDegrees,
  type Units,
} from '../../core/units/units.ts';
import type { Json } from '../state/file-path.ts';
import type { FieldSpec } from './field-spec.ts';

type Quantity = FieldSpec['quantity'];

/** A value of the file as its field shows it: as typed; a bare number is millimetres or degrees. */
export const shownText = (value: Json | undefined, quantity: Quantity): string => {
  if (value === undefined || value === null) return '';
  if (typeof value === 'number' && quantity === 'length') return `${value} mm`;
  if (typeof value === 'number' && quantity === 'pitch') return `${value}°`;
  return String(value);
};

/**
 * What goes into the file for text typed into a field: a length without a unit gets the project's, whole numbers of a
 * count become numbers, anything else stays as typed. Empty text: undefined, the key is left out.
 */
export const typedValue = (text: string, quantity: Quantity, units: Units): Json | undefined => {
  const typed = text.trim();
  if (typed === '') return undefined;
  if (quantity === 'count') return /^\d+$/.test(typed) ? Number(typed) : typed;
  if (quantity === 'pitch') return /^\d+(\.\d+)?$/.test(typed) ? Number(typed) : typed;
  if (quantity !== 'length' || parseLength(typed, { negative: 'allow' }).ok) return typed;
  return parseLength(typed, { negative: 'allow', bare: units }).ok ? `${typed}${units}` : typed;
};

/** The next mark of the ruler, whole number or degree up or down; null where the text cannot be read. */
export const steppedValue = (text: string, quantity: Quantity, by: 1 | -1, ruler: Ruler): Json | null => {
  if (quantity === 'count') return /^\d+$/.test(text.trim()) ? Math.max(0, Number(text) + by) : null;
  if (quantity === 'pitch') {
    const pitch = parsePitch(text);
    if (!pitch.ok) return null;
    const degrees = toDegrees(pitch.value);
    return by > 0 ? Math.floor(degrees + 1 + NOISE_MM) : Math.ceil(degrees - 1 - NOISE_MM);
  }
  if (quantity !== 'length') return null;
  const length = parseLength(text, { negative: 'allow', bare: rulerUnits(ruler) });
  if (!length.ok) return null;
  const marks = length.value / rulerStep(ruler);
  const next = by > 0 ? Math.floor(marks + 1 + NOISE_MM) : Math.ceil(marks - 1 - NOISE_MM);
  return formatMark(next * rulerStep(ruler), ruler).replace(/ (in|mm)$/, '$1');
};

/** The same length in the units on show, where it was typed in others; null where that would say nothing new. */
export const otherUnits = (text: string, { units, ruler }: { units: Units; ruler: Ruler }): number | null => {
  const length = parseLength(text, { negative: 'allow' });
  // Thin paper measured in millimetres has no mark on a ruler in inches.
  if (!length.ok || (units === 'in' && roundToRuler(length.value, ruler).count === 0)) return null;
  const isMetric = /(mm|cm|m|met(er|re)s?)\s*$/i.test(text.trim());
  return isMetric === (units === 'mm') ? null : length.value;
};

/**
 * A length as text for the file that loses nothing a hand could set: a mark of a 1/32 in or 0.5 mm ruler where it lies
 * on one (to a fiftieth of what can be cut, so that a size given as a pitch comes back as it was), otherwise decimals (a thousandth of a millimetre).
 */
export const exactText = (mm: number, units: Units): string => {
  const ruler: Ruler = units === 'in' ? '1/32in' : '0.5mm';
  if (Math.abs(roundToRuler(mm, ruler).error) < CUT_MM / 50) return formatMark(mm, ruler).replace(/ (in|mm)$/, '$1');
  return units === 'in' ? `${Number((mm / MM_PER_INCH).toFixed(5))}in` : `${Number(mm.toFixed(3))}mm`;
};

/** A pitch as text for the file. */
export const exactPitch = (radians: number): string => `${Number(toDegrees(radians).toFixed(4))}deg`;

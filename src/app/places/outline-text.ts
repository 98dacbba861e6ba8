import { parseLength, type Units } from '../../core/units/units.ts';
import { typedValue } from '../fields/typed-text.ts';
import type { Json } from '../state/file-path.ts';

/** Corners as they are typed: across and up, a comma between, a semicolon after each: `0, 0; 12in, 0; 12in, 5in`. */
export const outlineText = (outline: Json | undefined): string =>
  Array.isArray(outline)
    ? (outline as readonly Json[])
        .map((corner) => (Array.isArray(corner) ? (corner as readonly Json[]).map(lengthText).join(', ') : ''))
        .join('; ')
    : '';

const lengthText = (value: Json): string => (typeof value === 'number' && value !== 0 ? `${value}mm` : String(value));

/** The corners that a text says, each length as it was typed; or which part of it cannot be read. */
export const readOutline = (
  text: string,
  units: Units,
): { readonly ok: true; readonly outline: readonly Json[] } | { readonly ok: false; readonly part: string } => {
  const corners: Json[] = [];
  for (const part of text.split(/[;\n]/)) {
    if (part.trim() === '') continue;
    const lengths = part.split(',').map((one) => one.trim());
    const isPair =
      lengths.length === 2 && lengths.every((one) => parseLength(one, { negative: 'allow', bare: units }).ok);
    if (!isPair) return { ok: false, part: part.trim() };
    corners.push(lengths.map((one) => (one === '0' ? 0 : (typedValue(one, 'length', units) ?? 0))));
  }
  return corners.length < 3 ? { ok: false, part: text.trim() } : { ok: true, outline: corners };
};

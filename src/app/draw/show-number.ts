import { formatLength, MM_PER_INCH, type Ruler, type Units } from '../../core/units/units.ts';

interface Style {
  readonly units: Units;
  readonly ruler: Ruler;
}

/** The nearest mark first, then the length as it is: decimal inches, or for millimetres the nearest sixteenth. */
export const showLength = (mm: number, style: Style): readonly [string, string] =>
  style.units === 'in'
    ? [formatLength(mm, style), (mm / MM_PER_INCH).toFixed(3)]
    : [formatLength(mm, { units: 'mm' }), formatLength(mm, { units: 'in' })];

export const showArea = (mm2: number, units: Units): string =>
  units === 'in' ? `${(mm2 / MM_PER_INCH ** 2).toFixed(2)} sq in` : `${(mm2 / 100).toFixed(1)} cm²`;

export const showAngles = (degrees: readonly number[]): string =>
  degrees.map((angle) => `${Number(angle.toFixed(1))}°`).join(' · ');

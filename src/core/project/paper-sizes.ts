import sizes from '../../../shared/paper-sizes.json' with { type: 'json' };
import { type Units, unitLength } from '../units/units.ts';

/** A paper size, portrait, mm. */
export interface PaperSize {
  readonly name: string;
  readonly series: string;
  readonly width: number;
  readonly height: number;
}

export const paperSizes: readonly PaperSize[] = sizes.map(({ name, series, width, height, unit }) => ({
  name,
  series,
  width: width * unitLength(unit as Units),
  height: height * unitLength(unit as Units),
}));

export const findPaperSize = (name: string): PaperSize | undefined => paperSizes.find((size) => size.name === name);

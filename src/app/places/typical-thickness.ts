import { parseLength } from '../../core/units/units.ts';

/** How thick a sheet usually is that is sold by its weight or its size; what the maker measures counts more. */
export interface TypicalThickness {
  readonly title: string;
  /** As it is typed into the thickness of a stock. */
  readonly thickness: string;
}

/** Grammage and thickness of uncoated papers: "Paper weight and thickness", a-size.com. */
const byWeight: readonly (readonly [number, string])[] = [
  [80, '0.1mm'],
  [100, '0.125mm'],
  [120, '0.15mm'],
  [160, '0.19mm'],
  [180, '0.215mm'],
  [210, '0.25mm'],
  [250, '0.28mm'],
  [300, '0.35mm'],
  [350, '0.4mm'],
  [400, '0.48mm'],
];

/** Card is called so from this weight on: common practice. */
const CARD = 160;

/** Boards by the size they are sold as. A point is 0.001 in (PrintWiki, "Point"); chipboard as listed by packagingacc.com. */
const boards: readonly TypicalThickness[] = [
  { title: 'Chipboard, 22 pt', thickness: '0.022in' },
  { title: 'Chipboard, 30 pt', thickness: '0.03in' },
  { title: 'Board, 1 mm', thickness: '1mm' },
  { title: 'Mat board, 50 pt', thickness: '0.05in' },
  { title: 'Board, 1.5 mm', thickness: '1.5mm' },
  { title: 'Board, 2 mm', thickness: '2mm' },
  { title: 'Board, 80 pt', thickness: '0.08in' },
  { title: 'Board, 3 mm', thickness: '3mm' },
];

export const typicalThicknesses: readonly TypicalThickness[] = [
  ...byWeight.map(([grams, thickness]) => ({
    title: `${grams < CARD ? 'Paper' : 'Card'}, ${grams} g/m²`,
    thickness,
  })),
  ...boards,
];

/** The entry that is as thick as what was typed; undefined where none is. */
export const soldAs = (typed: unknown): TypicalThickness | undefined => {
  const found = typeof typed === 'string' || typeof typed === 'number' ? parseLength(typed) : null;
  if (!found?.ok) return undefined;
  return typicalThicknesses.find(({ thickness }) => {
    const own = parseLength(thickness);
    return own.ok && own.value === found.value;
  });
};

import type { Units } from '../../core/units/units.ts';
import type { JsonObject } from './file-path.ts';

const sizes = {
  in: {
    ruler: '1/16in',
    side: '1 1/2in',
    height: '3in',
    rise: '2in',
    overhang: '1/8in',
    sheet: ['8 1/2in', '11in'],
    flap: '1/4in',
  },
  mm: {
    ruler: '1mm',
    side: '40mm',
    height: '75mm',
    rise: '50mm',
    overhang: '3mm',
    sheet: ['210mm', '297mm'],
    flap: '6mm',
  },
} as const;

/** A roof to begin with: a pyramid over a square body, sizes a hand knows. */
export const blankRoof = (id: string, title: string, stock: string, units: Units): JsonObject => {
  const size = sizes[units];
  return {
    id,
    title,
    copies: 1,
    kind: 'pyramid',
    shape: { rise: size.rise },
    overhang: size.overhang,
    body: { width: size.side, depth: size.side, height: size.height },
    layers: [{ as: 'cover', stock, pieces: 'per-panel', flaps: { width: size.flap, on: 'alternate' } }],
  };
};

export const blankProject = (units: Units): JsonObject => {
  const size = sizes[units];
  const [width, height] = size.sheet;
  return {
    format: 'spirewright-project',
    version: 1,
    title: 'New project',
    units,
    ruler: size.ruler,
    stock: [{ id: 'paper', name: 'Plain paper', width, height, thickness: '0.1mm', direction: 'any' }],
    roofs: [blankRoof('roof-1', 'First roof', 'paper', units)],
  };
};

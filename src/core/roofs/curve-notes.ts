import type { Issue } from '../issue.ts';
import type { CountParam } from './definition.ts';

/** In how many bands a curved profile is folded. */
export const bandsParam = (
  usual: number,
  help = 'How many flat strips stand for the curve, from the eave to the peak.',
): CountParam & { readonly key: 'bands' } => ({
  key: 'bands',
  label: 'Bands',
  help,
  quantity: 'count',
  min: 2,
  max: 16,
  default: usual,
});

/** How far folds lie off the curve that they stand for, mm. */
export const curveNote = (deviation: number, key: string): Issue => ({
  level: 'note',
  code: 'curve-deviation',
  path: `shape.${key}`,
  numbers: { deviation },
  message: 'The folds lie up to {deviation} off a smooth curve.',
  remedy: 'Take more bands to come nearer to it.',
});

/** How far flat gores with folds lie off the round surface that they stand for, mm; and by the folds alone. */
export const roundNote = (deviation: number, folds: number): Issue => ({
  level: 'note',
  code: 'round-deviation',
  path: 'shape.sides',
  numbers: { deviation, folds },
  message: 'Flat gores lie up to {deviation} off a round surface; of that, the folds alone make up to {folds}.',
  remedy: 'Take more gores to come nearer to round, and more bands to come nearer to the curve.',
});

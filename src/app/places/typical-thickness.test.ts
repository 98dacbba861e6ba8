import { expect, it } from 'vitest';
import { parseLength } from '../../core/units/units.ts';
import { soldAs, typicalThicknesses } from './typical-thickness.ts';

it('knows what a typed thickness is sold as, in any unit, and nothing where it is sold as nothing', () => {
  expect(soldAs('0.28mm')?.title).toBe('Card, 250 g/m²');
  expect(soldAs(0.28)?.title).toBe('Card, 250 g/m²');
  expect(soldAs('0.2cm')?.title).toBe('Board, 2 mm');
  expect(soldAs('0.27mm')).toBeUndefined();
  expect(soldAs('thick')).toBeUndefined();
  expect(soldAs(undefined)).toBeUndefined();
});

it('lists thicker sheets after thinner ones, papers before boards, each once', () => {
  const sizes = typicalThicknesses.map(({ thickness }) => {
    const read = parseLength(thickness);
    return read.ok ? read.value : Number.NaN;
  });
  expect(new Set(sizes).size).toBe(sizes.length);
  expect(sizes).toEqual([...sizes].sort((a, b) => a - b));
});

import { describe, expect, it } from 'vitest';
import { findKind } from '../../core/roofs/catalogue.ts';
import { exampleValues } from '../../core/roofs/example-values.ts';
import { roofNumbers } from './roof-numbers.ts';

const numbersOf = (kind: string): Map<string, unknown> => {
  const definition = findKind(kind);
  if (!definition) throw new Error(`no kind ${kind}`);
  const built = definition.build(exampleValues(definition, definition.examples[0]?.shape ?? {}), null);
  if (!built.ok) throw new Error(`no ${kind}`);
  return new Map(
    roofNumbers(built.value).map((number) => [number.name, 'value' in number ? number.value : number.values]),
  );
};

describe('the numbers of a round roof', () => {
  it('are those of a compass: one sector of the slant, of 360° times radius over slant', () => {
    const numbers = numbersOf('cone');
    const slant = Math.hypot(31, 71);
    expect(numbers.get('Radius of sector')).toBeCloseTo(slant, 9);
    expect(numbers.get('Angle of sector')).toEqual([Number(((360 * 31) / slant).toFixed(2))]);
    expect([...numbers.keys()]).not.toContain('Corners of the front panel');
    expect([...numbers.keys()]).not.toContain('Hip');
  });

  it('are two sectors for a flare and the cone on it', () => {
    expect([...numbersOf('bell-cast-cone').keys()].filter((name) => name.startsWith('Angle'))).toHaveLength(2);
  });
});

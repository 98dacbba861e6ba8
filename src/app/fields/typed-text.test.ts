import { describe, expect, it } from 'vitest';
import { exactPitch, exactText, otherUnits, shownText, steppedValue, typedValue } from './typed-text.ts';

const inches = { units: 'in', ruler: '1/16in' } as const;
const millimetres = { units: 'mm', ruler: '1mm' } as const;

describe('a computed size as text', () => {
  it('is a mark where it lies on one, decimals otherwise', () => {
    expect(exactText(25.4 * 2.40625, 'in')).toBe('2 13/32in');
    expect(exactText(66.1234567, 'in')).toBe('2.60329in');
    expect(exactText(66.5, 'mm')).toBe('66.5mm');
    expect(exactText(66.1234567, 'mm')).toBe('66.123mm');
    expect(exactPitch(Math.PI / 3)).toBe('60deg');
  });
});

describe('text typed into a field', () => {
  it('gets the project’s unit where it names none', () => {
    expect(typedValue('3 1/4', 'length', 'in')).toBe('3 1/4in');
    expect(typedValue(' 67.5 ', 'length', 'mm')).toBe('67.5mm');
    expect(typedValue('3 1/4"', 'length', 'mm')).toBe('3 1/4"');
    expect(typedValue('-2', 'length', 'mm')).toBe('-2mm');
  });

  it('stays as typed where it cannot be read, and leaves the key out where empty', () => {
    expect(typedValue('tall', 'length', 'in')).toBe('tall');
    expect(typedValue('  ', 'length', 'in')).toBeUndefined();
    expect(typedValue('eight', 'count', 'in')).toBe('eight');
    expect(typedValue('12', 'count', 'in')).toBe(12);
    expect(typedValue('8/12', 'pitch', 'in')).toBe('8/12');
  });

  it('is shown with what a bare number means', () => {
    expect(shownText(67, 'length')).toBe('67 mm');
    expect(shownText(35, 'pitch')).toBe('35°');
    expect(shownText('3 7/16in', 'length')).toBe('3 7/16in');
    expect(shownText(undefined, 'length')).toBe('');
  });

  it('steps from mark to mark of the ruler, first onto one', () => {
    expect(steppedValue('3 7/16in', 'length', 1, '1/16in')).toBe('3 1/2in');
    expect(steppedValue('3.45in', 'length', 1, '1/16in')).toBe('3 1/2in');
    expect(steppedValue('3.45in', 'length', -1, '1/16in')).toBe('3 7/16in');
    expect(steppedValue('67mm', 'length', -1, '0.5mm')).toBe('66.5mm');
    expect(steppedValue('7', 'count', 1, '1mm')).toBe(8);
    expect(steppedValue('48°', 'pitch', -1, '1mm')).toBe(47);
    expect(steppedValue('tall', 'length', 1, '1mm')).toBeNull();
  });

  it('is converted only where it was typed in other units', () => {
    expect(otherUnits('2in', millimetres)).toBeCloseTo(50.8, 9);
    expect(otherUnits('2in', inches)).toBeNull();
    expect(otherUnits('4 cm', millimetres)).toBeNull();
    expect(otherUnits('0.2mm', inches)).toBeNull();
    expect(otherUnits('', millimetres)).toBeNull();
  });
});

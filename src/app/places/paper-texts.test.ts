import { describe, expect, it } from 'vitest';
import { outlineText, readOutline } from './outline-text.ts';
import { priceText, readPrice } from './price-text.ts';

describe('a price as it is typed', () => {
  it('is read and shown alike', () => {
    expect(readPrice('3.50 eur for 8')).toEqual({ amount: 3.5, currency: 'EUR', sheets: 8 });
    expect(readPrice('0.45GBP')).toEqual({ amount: 0.45, currency: 'GBP' });
    expect(priceText({ amount: 3.5, currency: 'EUR', sheets: 8 })).toBe('3.5 EUR for 8');
    expect(priceText(readPrice('2 USD') ?? undefined)).toBe('2 USD');
  });

  it.each(['cheap', '3.50', '3,50 EUR', 'EUR 3', '-1 EUR', '3 EUR for none'])('%s says none', (text) => {
    expect(readPrice(text)).toBeNull();
  });
});

describe('an offcut as it is typed', () => {
  it('keeps every length as it was typed, in the units of the project where it names none', () => {
    const read = readOutline('0, 0; 6, 0; 6in, 2 1/2; 0, 4"', 'in');
    expect(read).toEqual({
      ok: true,
      outline: [
        [0, 0],
        ['6in', 0],
        ['6in', '2 1/2in'],
        [0, '4"'],
      ],
    });
    if (read.ok) expect(outlineText(read.outline)).toBe('0, 0; 6in, 0; 6in, 2 1/2in; 0, 4"');
    expect(outlineText([[12.5, 0]])).toBe('12.5mm, 0');
  });

  it('names the corner that cannot be read', () => {
    expect(readOutline('0, 0; 6, x; 6, 3', 'mm')).toEqual({ ok: false, part: '6, x' });
    expect(readOutline('0 0; 6 0; 6 3', 'mm')).toMatchObject({ ok: false, part: '0 0' });
    expect(readOutline('0, 0; 6, 0', 'mm').ok).toBe(false);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Result } from '../issue.ts';
import {
  formatLength,
  formatMark,
  formatPitch,
  fromDegrees,
  MM_PER_INCH,
  parseLength,
  parsePitch,
  parseScale,
  roundToRuler,
  rulerStep,
  rulers,
  toDegrees,
} from './units.ts';

function mustRead<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.issues.map((issue) => issue.message).join(' '));
  return result.value;
}

const codeOf = (result: Result<number>): string | undefined => result.issues[0]?.code;
const inches = (amount: number): number => amount * MM_PER_INCH;

describe('parseLength', () => {
  it.each([
    ['3 7/16in', inches(3.4375)],
    ['3 7/16"', inches(3.4375)],
    ['3-7/16 in', inches(3.4375)],
    ['3.4375in', inches(3.4375)],
    ['3 7⁄16 in', inches(3.4375)],
    ['3 ⁷⁄₁₆″', inches(3.4375)],
    ['5⅝″', inches(5.625)],
    ['⅛ in', inches(0.125)],
    ['2 ⅞"', inches(2.875)],
    ['7½in', inches(7.5)],
    ['1¼”', inches(1.25)],
    ['6¾ inches', inches(6.75)],
    ['⅙ ft', inches(2)],
    ['⅜in.', inches(0.375)],
    ['.5 inch', inches(0.5)],
    ["4''", inches(4)],
    ['11/8 IN', inches(1.375)],
    [`1' 2 1/2"`, inches(14.5)],
    [`2′ 3⅝″`, inches(27.625)],
    [`3'-4"`, inches(40)],
    ['5 ft 6.25 in', inches(66.25)],
    ['1ft3in', inches(15)],
    ["6'", inches(72)],
    ['2 feet', inches(24)],
    ['67 mm', 67],
    ['6.7cm', 67],
    ['1.1 cm', 11],
    ['0.35 m', 350],
    ['8 1/2 mm', 8.5],
    [12.25, 12.25],
    [0, 0],
  ])('reads %s', (typed, mm) => {
    expect(mustRead(parseLength(typed))).toBe(mm);
  });

  it('reads 6.76438 ft as 6 ft 9 3/16 in (printed on the trade test page bhlumley.com)', () => {
    const printed = mustRead(parseLength(`6' 9 3/16"`));
    expect(roundToRuler(mustRead(parseLength('6.76438ft')), '1/16in').mark).toBe(printed);
  });

  it.each([
    ['', 'length-unreadable'],
    ['wide', 'length-unreadable'],
    ['3 7/0in', 'length-unreadable'],
    ['3 17/16in', 'length-unreadable'],
    ['3,5mm', 'length-unreadable'],
    ['1.2.3mm', 'length-unreadable'],
    ['3 4 mm', 'length-unreadable'],
    ['3.5/2in', 'length-unreadable'],
    ['3in 7/16', 'length-unreadable'],
    ['1e3mm', 'length-unreadable'],
    ["1' 2mm", 'length-unreadable'],
    ["1' 2", 'length-unreadable'],
    ['3 7/16', 'length-without-unit'],
    ['67', 'length-without-unit'],
    ['5 yd', 'length-unit'],
    ['-3mm', 'length-negative'],
    ['−¼in', 'length-negative'],
    [-2, 'length-negative'],
    [Number.NaN, 'length-unreadable'],
    [Number.POSITIVE_INFINITY, 'length-unreadable'],
    [`${'9'.repeat(400)}mm`, 'length-unreadable'],
  ])('refuses %s as %s and says what to write', (typed, code) => {
    const result = parseLength(typed);
    expect(result.ok).toBe(false);
    expect(codeOf(result)).toBe(code);
    expect(result.issues[0]?.message).toContain(String(typed));
    expect(result.issues[0]?.remedy).toMatch(/\w/);
  });

  it('takes the unit of the text field for a text without one', () => {
    expect(mustRead(parseLength('3 7/16', { bare: 'in' }))).toBe(inches(3.4375));
    expect(mustRead(parseLength('67.5', { bare: 'mm' }))).toBe(67.5);
    expect(mustRead(parseLength('67mm', { bare: 'in' }))).toBe(67);
    expect(mustRead(parseLength("1' 2", { bare: 'in' }))).toBe(inches(14));
  });

  it('reads lengths under zero only where they are allowed', () => {
    expect(mustRead(parseLength('-3/4in', { negative: 'allow' }))).toBe(inches(-0.75));
    expect(mustRead(parseLength('- 1½"', { negative: 'allow' }))).toBe(inches(-1.5));
    expect(Object.is(mustRead(parseLength('-0mm', { negative: 'allow' })), 0)).toBe(true);
  });

  it('never throws and never gives anything but a finite number', () => {
    const scrap = fc.string({ unit: fc.constantFrom(...'0123456789 ./-\'"inftmc⅝″′½,x') });
    fc.assert(
      fc.property(fc.oneof(fc.string(), scrap), fc.constantFrom('in' as const, 'mm' as const), (text, bare) => {
        const result = parseLength(text, { bare, negative: 'allow' });
        if (result.ok) expect(Number.isFinite(result.value)).toBe(true);
        else expect(result.issues).toHaveLength(1);
      }),
      { numRuns: 3000 },
    );
  });
});

describe('rulers', () => {
  it.each(rulers)('parse after format gives every mark of %s back', (ruler) => {
    fc.assert(
      fc.property(fc.integer({ min: -200_000, max: 200_000 }), (count) => {
        const { mark } = roundToRuler(count * rulerStep(ruler), ruler);
        const units = ruler.endsWith('in') ? 'in' : 'mm';
        expect(mustRead(parseLength(formatMark(mark, ruler), { negative: 'allow' }))).toBe(mark);
        expect(mustRead(parseLength(formatLength(mark, { units, ruler }), { negative: 'allow' }))).toBe(mark);
        const bare = formatMark(mark, ruler, { unit: false });
        expect(mustRead(parseLength(bare, { bare: units, negative: 'allow' }))).toBe(mark);
        expect(roundToRuler(mark, ruler)).toEqual({ mark, error: 0, count });
      }),
    );
  });

  it.each(rulers)('no mark of %s is nearer than the one taken', (ruler) => {
    const step = rulerStep(ruler);
    fc.assert(
      fc.property(fc.double({ min: -3000, max: 3000, noNaN: true }), (mm) => {
        const { mark, error, count } = roundToRuler(mm, ruler);
        expect(mark - mm).toBe(error);
        expect(mark).toBeCloseTo(count * step, 9);
        expect(Math.abs(error)).toBeLessThanOrEqual(step / 2 + 1e-6);
      }),
    );
  });

  // Decimal inches to the nearest mark: NAVEDTRA 14044 fig. 2-17 (111.12) and the tie it decides upwards;
  // the other decimals are printed in the Building Trades Pocketbook's table of 64ths.
  it.each([
    [111.12, '1/16in', '111 1/8 in'],
    [0.03125, '1/16in', '1/16 in'],
    [0.0312, '1/16in', '0 in'],
    [0.0938, '1/16in', '1/8 in'],
    [0.4063, '1/32in', '13/32 in'],
    [0.3594, '1/32in', '3/8 in'],
    [0.8906, '1/16in', '7/8 in'],
    [0.9844, '1/16in', '1 in'],
    [0.9844, '1/32in', '1 in'],
    [0.9843, '1/32in', '31/32 in'],
    [0.6875, '1/8in', '3/4 in'],
    [0.6874, '1/8in', '5/8 in'],
    [0.125, '1/16in', '1/8 in'],
    [2.5, '1/32in', '2 1/2 in'],
    [-0.03125, '1/16in', '-1/16 in'],
    [-0.01, '1/16in', '0 in'],
  ] as const)('%d in on a %s ruler is %s', (amount, ruler, text) => {
    expect(formatMark(inches(amount), ruler)).toBe(text);
  });

  it.each(rulers)('exactly between two marks of %s the larger is taken', (ruler) => {
    const step = rulerStep(ruler);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 50_000 }), (count) => {
        expect(roundToRuler((count + 0.5) * step, ruler).count).toBe(count + 1);
        expect(roundToRuler(-(count + 0.5) * step, ruler).count).toBe(-count - 1);
      }),
    );
  });

  it('takes a computed length a hair under the middle as lying on it', () => {
    expect(roundToRuler(0.25 - 1e-9, '0.5mm').mark).toBe(0.5);
    expect(roundToRuler(2.5 - 1e-4, '1mm').mark).toBe(2);
  });

  it('reports the rounding error', () => {
    expect(roundToRuler(66.8, '0.5mm').error).toBeCloseTo(0.2, 12);
    expect(roundToRuler(inches(2.03), '1/16in').error).toBeCloseTo(inches(-0.03), 12);
  });
});

describe('formatLength', () => {
  it.each([
    [66.675, { units: 'mm' }, '66.67 mm'],
    [12, { units: 'mm' }, '12 mm'],
    [-0.001, { units: 'mm' }, '0 mm'],
    [66.675, { units: 'mm', ruler: '0.5mm' }, '66.5 mm'],
    [66.675, { units: 'mm', ruler: '1/16in' }, '66.67 mm'],
    [66.675, { units: 'in' }, '2 5/8 in'],
    [66.675, { units: 'in', ruler: '1mm' }, '2 5/8 in'],
    [67.4, { units: 'in', ruler: '1/32in' }, '2 21/32 in'],
  ] as const)('%d mm as %o is %s', (mm, style, text) => {
    expect(formatLength(mm, style)).toBe(text);
  });
});

describe('pitch', () => {
  // Angles of rise in twelve as printed in RoofOnline's hip and valley factor table.
  it.each([
    ['1/12', 4.76],
    ['4/12', 18.43],
    ['5/12', 22.62],
    ['12/12', 45],
  ])('%s is %d degrees', (typed, degrees) => {
    expect(toDegrees(mustRead(parsePitch(typed)))).toBeCloseTo(degrees, 2);
  });

  it.each([
    [35, 35],
    ['36deg', 36],
    ['37.5°', 37.5],
    ['38 degrees', 38],
    ['8.5/12', (Math.atan(8.5 / 12) * 180) / Math.PI],
    ['8 1/2 / 12', (Math.atan(8.5 / 12) * 180) / Math.PI],
    ['8½/12', (Math.atan(8.5 / 12) * 180) / Math.PI],
  ])('reads %s', (typed, degrees) => {
    expect(mustRead(parsePitch(typed))).toBeCloseTo(fromDegrees(degrees), 12);
  });

  it('reads a bare text as degrees in a text field only', () => {
    expect(codeOf(parsePitch('42'))).toBe('pitch-without-unit');
    expect(mustRead(parsePitch('42', { bare: 'degrees' }))).toBeCloseTo(fromDegrees(42), 12);
  });

  it.each([
    ['steep', 'pitch-unreadable'],
    ['8/0', 'pitch-unreadable'],
    ['8 in', 'pitch-unreadable'],
    ['-5deg', 'pitch-unreadable'],
    [Number.NaN, 'pitch-unreadable'],
    [90.01, 'pitch-range'],
    ['91°', 'pitch-range'],
    [-1, 'pitch-range'],
  ])('refuses %s as %s', (typed, code) => {
    expect(codeOf(parsePitch(typed))).toBe(code);
  });

  it('format shows what was parsed to a hundredth of a degree', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 8999 }), (hundredths) => {
        const pitch = fromDegrees(hundredths / 100);
        expect(mustRead(parsePitch(formatPitch(pitch)))).toBeCloseTo(pitch, 9);
      }),
    );
  });
});

describe('scale', () => {
  it.each([
    ['1:87', 1 / 87],
    ['1 : 43.5', 1 / 43.5],
    [0.5, 0.5],
    ['2:3', 2 / 3],
  ])('reads %s', (typed, scale) => {
    expect(mustRead(parseScale(typed))).toBe(scale);
  });

  it.each([0, -1, Number.NaN, '87', '1:0', 'half', '1:2:3'])('refuses %s', (typed) => {
    expect(codeOf(parseScale(typed))).toBe('scale-unreadable');
  });
});

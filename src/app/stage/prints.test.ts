import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choosePrint, printTable, seedNoise, splitCourse } from './prints.ts';

describe('choosePrint', () => {
  it('goes by the maker’s own words', () => {
    expect(choosePrint({ id: 'a', name: 'Slate print' })).toBe('slates');
    expect(choosePrint({ id: 'roof-tile', name: 'Number 4' })).toBe('pantiles');
    expect(choosePrint({ id: 'b', name: 'Mount board' })).toBe('greyboard');
    expect(choosePrint(undefined)).toBe('plain');
  });

  it('gives an unknown paper the same look each time', () => {
    fc.assert(
      fc.property(fc.string({ minLength: 1 }), (id) => {
        expect(choosePrint({ id, name: '' })).toBe(choosePrint({ id, name: '' }));
        expect(printTable[choosePrint({ id, name: '' })].repeat).toBeGreaterThan(0);
      }),
    );
  });
});

describe('splitCourse', () => {
  it('fills one repeat exactly, so that the pattern meets itself', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 10, max: 200 }),
        fc.integer({ min: 3, max: 9 }),
        fc.integer(),
        (total, mean, seed) => {
          const widths = splitCourse(total, mean, 0.4, seedNoise(seed));
          expect(widths.reduce((a, b) => a + b, 0)).toBeCloseTo(total, 9);
          expect(Math.min(...widths)).toBeGreaterThan(0);
        },
      ),
    );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printPatterns, prints } from '../../core/project/prints.ts';
import { choosePrint, drawnPrints, followedIn, lookOf, printLook, seedNoise, splitCourse } from './prints.ts';

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
        expect(lookOf({ id, name: '' }).tile).toBeGreaterThan(0);
      }),
    );
  });
});

describe('lookOf', () => {
  const named = { id: 'slate', name: 'Slate print' };

  it('takes the picture of the paper, then the print it is given, then one by its name', () => {
    expect(lookOf(named)).toEqual(printLook('slates'));
    expect(lookOf({ ...named, print: { pattern: 'checks', repeat: 7 } })).toMatchObject({
      pattern: 'checks',
      tile: 42,
    });
    const file = 'data:image/png;base64,AAAA';
    expect(lookOf({ ...named, picture: { file, width: 90 } })).toEqual({ key: file, tile: 90, file });
    // A page cannot read a file that lies beside the project.
    expect(lookOf({ ...named, picture: { file: 'slate.png', width: 90 } })).toEqual(printLook('slates'));
  });

  it('tiles whole courses: a tile ends where the next begins', () => {
    for (const pattern of printPatterns) {
      const { across, course } = drawnPrints[pattern];
      const courses = across / (course ?? across);
      expect(courses, pattern).toBeCloseTo(Math.round(courses), 9);
      // Bricks and scales are staggered by half from course to course.
      if (pattern === 'brick' || pattern === 'scales') expect(Math.round(courses) % 2, pattern).toBe(0);
      expect(prints[pattern].repeat, pattern).toBeGreaterThan(0);
    }
  });

  it('knows what is followed: stripes across, checks both ways, courses by their height', () => {
    expect(followedIn(printLook('stripes', 8))).toMatchObject({ x: { period: 8 }, y: null });
    expect(followedIn(printLook('checks', 8))).toMatchObject({ x: { period: 8 }, y: { period: 8 }, isSquare: true });
    // Bricks of common format: 8 long with the joint, 3 high.
    expect(followedIn(printLook('brick', 8))).toMatchObject({ x: null, y: { period: 3 } });
    for (const pattern of ['plain', 'marbled', 'greyboard'] as const) expect(followedIn(printLook(pattern))).toBeNull();
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

import { describe, expect, it } from 'vitest';
import { nearMiss } from './near-miss.ts';

describe('nearMiss', () => {
  const keys = ['width', 'depth', 'rise', 'pitch', 'slant', 'peakX', 'acrossCorners'];

  it.each([
    ['widht', 'width'],
    ['Width', 'width'],
    ['dpeth', 'depth'],
    ['ris', 'rise'],
    ['pich', 'pitch'],
    ['slants', 'slant'],
    ['peekx', 'peakX'],
    ['acrosCorner', 'acrossCorners'],
  ])('%s is meant to be %s', (typed, meant) => {
    expect(nearMiss(typed, keys)).toBe(meant);
  });

  it.each(['height', 'colour', 'x', '', 'ridge pole'])('%s is not near any', (typed) => {
    expect(nearMiss(typed, keys)).toBeUndefined();
  });

  it('takes the nearest', () => {
    expect(nearMiss('side', ['sides', 'side', 'wide'])).toBe('side');
  });
});

import { describe, expect, it } from 'vitest';
import { buildNet } from '../net/build-net.ts';
import { findKind } from '../roofs/catalogue.ts';
import { HAND_MM, handCut } from './hand-cut.ts';

const flaps = { width: 6, on: 'alternate', clearance: 0.5, least: 2 } as const;
const layerOf = (kind: string, shape: Readonly<Record<string, number>>) => {
  const built = findKind(kind)?.build(shape, null);
  if (!built?.ok) throw new Error('no roof');
  return { solid: built.value, net: buildNet(built.value, { pieces: 'per-panel', flaps }).net };
};

describe('cutting by hand', () => {
  const pyramid = layerOf('pyramid', { width: 60, depth: 60, rise: 45 });

  it('is the same for the same seed, and another for another', () => {
    expect(handCut([pyramid], 7)).toEqual(handCut([pyramid], 7));
    expect(handCut([pyramid], 7)).not.toEqual(handCut([pyramid], 8));
  });

  it('leaves no more than its errors can: both ends of both sides off by one diagonal', () => {
    const { median, ninetyFifth } = handCut([pyramid], 1);
    expect(median).toBeGreaterThan(HAND_MM / 2);
    expect(ninetyFifth).toBeGreaterThan(median);
    expect(ninetyFifth).toBeLessThan(4 * Math.SQRT2 * HAND_MM);
  });

  it('does not depend on the size of the roof', () => {
    const large = layerOf('pyramid', { width: 600, depth: 600, rise: 450 });
    expect(handCut([large], 1).median / handCut([pyramid], 1).median).toBeCloseTo(1, 1);
  });

  it('leaves more where more seams meet', () => {
    const spire = layerOf('spire', { sides: 16, side: 20, rise: 90 });
    expect(handCut([spire], 1).median).toBeGreaterThan(handCut([pyramid], 1).median);
  });
});

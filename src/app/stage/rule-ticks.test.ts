import { describe, expect, it } from 'vitest';
import { MM_PER_INCH } from '../../core/units/units.ts';
import { engraveRule } from './rule-ticks.ts';

describe('engraveRule', () => {
  it('has sixteen parts to the inch, longest at the inch and half as next', () => {
    const { ticks, figures, length } = engraveRule('in', 130, 8);
    expect(length).toBe(6 * MM_PER_INCH);
    expect(ticks).toHaveLength(6 * 16 + 1);
    expect(ticks[16]?.at).toBe(MM_PER_INCH);
    expect(ticks[16]?.length).toBe(1);
    expect(ticks[8]?.length).toBeGreaterThan(ticks[4]?.length ?? 1);
    expect(ticks[4]?.length).toBeGreaterThan(ticks[2]?.length ?? 1);
    expect(ticks[2]?.length).toBeGreaterThan(ticks[1]?.length ?? 1);
    expect(figures.map((figure) => figure.text)).toEqual(['1', '2', '3', '4', '5']);
    expect(figures[2]?.at).toBeCloseTo(76.2, 9);
  });

  it('has a mark each millimetre and figures in millimetres', () => {
    const { ticks, figures, length } = engraveRule('mm', 151, 9);
    expect(length).toBe(300);
    expect(ticks).toHaveLength(301);
    expect(ticks[137]?.at).toBeCloseTo(137, 9);
    expect(figures[0]).toEqual({ at: 10, text: '10' });
    expect(figures.at(-1)?.text).toBe('290');
  });

  it('thins out figures that would touch, and is never shorter than asked', () => {
    const { figures } = engraveRule('mm', 500, 33);
    expect(figures[0]?.text).toBe('50');
    for (const reach of [10, 400, 1999, 2600]) {
      expect(engraveRule('mm', reach, 10).length).toBeGreaterThanOrEqual(reach);
      expect(engraveRule('in', reach, 10).length).toBeGreaterThanOrEqual(reach);
    }
  });
});

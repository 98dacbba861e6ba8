import { describe, expect, it } from 'vitest';
import { finishLayer, onSheet } from './finish.ts';

describe('finishLayer', () => {
  const layer = { spec: { as: 'cover', stock: ['slate'] } } as unknown as Parameters<typeof finishLayer>[2];
  const stock = [{ id: 'slate', name: 'Slate print' }] as unknown as Parameters<typeof finishLayer>[4];
  const placement = { roof: 1, layer: 0, piece: 2, copy: 0, x: 36, y: 9, rotation: Math.PI / 2 };
  const sheet = { stock: 0, index: 0, width: 300, height: 300, used: 0.1, placements: [placement] };

  it('wears the part of the sheet a piece is cut from, in repeats of the print', () => {
    const { print, mapping } = finishLayer(1, 0, layer, [sheet], stock);
    expect(print).toBe('slates');
    const [u, v] = mapping(2, [18, 0]);
    expect(u).toBeCloseTo(36 / 72, 9);
    expect(v).toBeCloseTo((9 + 18) / 72, 9);
  });

  it('shows a piece that is not laid from its own corner', () => {
    expect(finishLayer(0, 0, layer, [sheet], stock).mapping(2, [36, 72])).toEqual([0.5, 1]);
  });

  it('turns counter-clockwise', () => {
    const [x, y] = onSheet(placement, [10, 0]);
    expect([x, y].map((n) => Math.round(n * 1e9) / 1e9)).toEqual([36, 19]);
  });
});

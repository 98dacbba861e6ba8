import { describe, expect, it } from 'vitest';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import { findKind } from '../roofs/catalogue.ts';
import { exampleValues } from '../roofs/example-values.ts';
import type { Solid } from '../solid/solid.ts';
import { buildNet } from './build-net.ts';
import { flapEnds } from './net.ts';
import { divideCurve } from './teeth.ts';

const made = (kind: string, shape: Record<string, number | string>): Solid => {
  const definition = findKind(kind);
  if (!definition) throw new Error(`no kind ${kind}`);
  const built = definition.build(exampleValues(definition, shape), null);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
};

const flaps = { width: 5, on: 'alternate', clearance: 0.5, least: 2 } as const;

describe('the teeth of a curved seam', () => {
  it('are many, alike, of the width asked for, and go round all but the ends', () => {
    const { net } = buildNet(made('conical-frustum', { diameter: 90, rise: 25, pitch: 55 }), {
      pieces: 'per-panel',
      flaps,
    });
    const [ring, top] = net.pieces;
    const teeth = ring?.flaps.filter((flap) => flap.base > 1) ?? [];
    expect(teeth.length).toBeGreaterThan(20);
    expect(top?.flaps).toEqual([]);
    const bases = teeth.map((tooth) => distance2(...flapEnds(tooth)));
    expect(Math.max(...bases) / Math.min(...bases)).toBeLessThan(1.6);
    const radius = 45 - 25 / Math.tan((55 * Math.PI) / 180);
    const round = bases.reduce((sum, base) => sum + base, 0);
    expect(round).toBeGreaterThan(0.9 * 2 * Math.PI * radius);
    expect(round).toBeLessThan(2 * Math.PI * radius);
  });

  it('stand on the straight edge of a vault, not on its arch', () => {
    const { net } = buildNet(made('barrel', { width: 80, depth: 50, rise: 20 }), { pieces: 'per-panel', flaps });
    expect(net.pieces.map((piece) => piece.flaps.length > 0)).toEqual([true, false, false]);
  });

  it('are narrower the tighter the curve', () => {
    const widest = (diameter: number): number => {
      const solid = made('bell-cast-cone', { diameter, rise: diameter, flareRise: diameter / 12, flarePitch: 30 });
      const teeth = buildNet(solid, { pieces: 'per-panel', flaps }).net.pieces.flatMap((piece) => piece.flaps);
      return Math.max(...teeth.filter((flap) => flap.base > 1).map((flap) => distance2(...flapEnds(flap))));
    };
    expect(widest(40)).toBeLessThan(widest(160));
  });

  it('lean in by more than their share of the curve, however few steps it takes', () => {
    for (const parts of [2, 4, 10, 60]) {
      const step = Math.PI / 2 / parts;
      const path = Array.from({ length: parts + 1 }, (_, i): Vec2 => [3 * Math.cos(i * step), 3 * Math.sin(i * step)]);
      // What is measured from the first step to the last is a step less than the quarter circle.
      const turning = Math.PI / 2 - step;
      const curve = { path, length: (3 * Math.PI) / 2, turning, bend: turning };
      const teeth = divideCurve(curve, { clearance: 0, least: 1 });
      expect(teeth.length).toBeGreaterThan(0);
      for (const { from, to, lean } of teeth) expect(lean).toBeGreaterThan((step * (to - from)) / 2);
    }
  });
});

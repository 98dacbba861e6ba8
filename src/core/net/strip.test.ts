import { describe, expect, it } from 'vitest';
import { ringArea } from '../geometry/polygon.ts';
import { distance2 } from '../geometry/vector.ts';
import type { FlapSpec, PiecesMode } from '../project/project.ts';
import { findKind } from '../roofs/catalogue.ts';
import { exampleValues } from '../roofs/example-values.ts';
import type { Solid } from '../solid/solid.ts';
import { type BuiltNet, buildNet } from './build-net.ts';
import { checkNet } from './check-net.ts';
import { flapEnds } from './net.ts';

const solidOf = (kind: string, shape: Record<string, number | string>): Solid => {
  const definition = findKind(kind);
  if (!definition) throw new Error(`no kind ${kind}`);
  const built = definition.build(exampleValues(definition, shape), null);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
};

const spec: FlapSpec = { width: 6, on: 'none', clearance: 0.5, least: 2, instead: 'strip' };
const netOf = (solid: Solid, flaps: FlapSpec, pieces: PiecesMode = 'per-panel'): BuiltNet => {
  const built = buildNet(solid, { pieces, flaps });
  expect(checkNet(solid, built.net, flaps)).toEqual([]);
  return built;
};

describe('a seam strip', () => {
  const solid = solidOf('pyramid', { width: 60, depth: 60, rise: 45 });

  it('is a piece of its own for every seam, twice the flap wide, as long as the seam less what is cut off for eave and peak', () => {
    const { net, issues } = netOf(solid, spec);
    const strips = net.pieces.filter((piece) => piece.strip);
    expect(net.seams.map((seam) => seam.join)).toEqual(['strip', 'strip', 'strip', 'strip']);
    expect(strips.map((piece) => piece.strip?.edge)).toEqual(net.seams.map((seam) => seam.edge));
    for (const piece of strips) {
      expect(piece.panels).toEqual([]);
      expect(piece.height).toBeCloseTo(12, 9);
      // Hips of the square root of 30² + 30² + 45².
      expect(piece.width).toBeLessThan(Math.hypot(30, 30, 45));
      expect(piece.width).toBeGreaterThan(0.9 * Math.hypot(30, 30, 45));
      const [first, second] = piece.flaps.map(flapEnds);
      expect(first).toEqual([second?.[1], second?.[0]]);
      expect(ringArea(piece.outline)).toBeCloseTo(
        piece.flaps.reduce((sum, half) => sum + ringArea(half.polygon), 0),
        9,
      );
    }
    expect(issues.map((issue) => issue.code)).toEqual(Array(4).fill('seam-strip'));
  });

  it('has halves that are mirror images where both panels are alike', () => {
    const [strip] = netOf(solid, spec).net.pieces.filter((piece) => piece.strip);
    const [above, below] = strip?.flaps.map((half) => half.polygon) ?? [];
    const mirrored = below?.map(([x, y]) => [x, 12 - y] as const) ?? [];
    for (const p of above ?? []) expect(Math.min(...mirrored.map((q) => distance2(p, q)))).toBeLessThan(1e-6);
  });

  it('joins no curve: round the top of a cut cone tape stays tape', () => {
    const { net } = netOf(solidOf('conical-frustum', { diameter: 90, rise: 25, pitch: 55 }), spec);
    expect(net.seams.map((seam) => seam.join).sort()).toEqual(['strip', 'tape', 'tape']);
  });

  it('is not cut where less than the least would be left of it', () => {
    const narrow = solidOf('spire', { sides: 24, side: 3, rise: 90 });
    const { net } = netOf(narrow, { ...spec, least: 3 });
    expect(new Set(net.seams.map((seam) => seam.join))).toEqual(new Set(['tape']));
  });
});

describe('a net closes', () => {
  it('with a plain panel where there is one, away from the front', () => {
    const { net, issues } = netOf(solidOf('pyramid', { width: 60, depth: 60, rise: 45 }), { ...spec, on: 'alternate' });
    expect(net.pieces[net.closing?.piece ?? -1]?.id).toBe('north');
    expect(net.closing).toMatchObject({ seam: null, isReachable: true });
    expect(issues).toEqual([]);
  });

  it('else at a seam that ends at the eave, and says which', () => {
    const solid = solidOf('hip', { width: 90, depth: 60, rise: 30 });
    const { net, issues } = netOf(solid, { ...spec, on: 'one-side' });
    const seam = solid.edges[net.closing?.seam ?? -1];
    expect(seam?.role).toBe('hip');
    expect(net.closing?.isReachable).toBe(true);
    const note = issues.find((issue) => issue.code === 'closing-seam');
    expect(note?.place).toEqual({ edges: [seam?.id] });
    // The piece that goes on last carries the flap of that seam.
    expect(net.pieces[net.closing?.piece ?? -1]?.flaps.map((flap) => flap.edge)).toContain(net.closing?.seam);
  });

  it('in one piece at its own seam', () => {
    const { net } = netOf(solidOf('pyramid', { width: 60, depth: 60, rise: 45 }), spec, 'one-piece');
    expect(net.closing).toMatchObject({ piece: 0, seam: net.seams[0]?.edge, isReachable: true });
  });
});

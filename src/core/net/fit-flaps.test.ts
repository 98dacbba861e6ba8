import { describe, expect, it } from 'vitest';
import { rectangularBody } from '../footprint/rectangular-body.ts';
import type { Body, FlapSpec } from '../project/project.ts';
import { findKind } from '../roofs/catalogue.ts';
import { exampleValues } from '../roofs/example-values.ts';
import type { Solid } from '../solid/solid.ts';
import { buildNet } from './build-net.ts';
import { checkNet } from './check-net.ts';
import type { Net } from './net.ts';

const flaps: FlapSpec = { width: 5, on: 'alternate', clearance: 0.5, least: 2 };

function netOf(
  kind: string,
  shape: Record<string, number | string>,
  body: Body | null = null,
): { readonly solid: Solid; readonly net: Net } {
  const definition = findKind(kind);
  if (!definition) throw new Error(`no kind ${kind}`);
  const built = definition.build(exampleValues(definition, shape), body);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  const { net } = buildNet(built.value, { pieces: 'per-panel', flaps });
  expect(checkNet(built.value, net, flaps)).toEqual([]);
  return { solid: built.value, net };
}

const joins = ({ seams }: Net): readonly string[] => [...new Set(seams.map((seam) => seam.join))];

describe('a seam keeps its flap', () => {
  it('on panels too narrow for two flaps under one of them: each then carries one', () => {
    // Panels 3.4 mm wide at the eave: under a plain one there is room for one flap of 2 mm, not for two.
    const { net } = netOf('spire', { sides: 16, acrossCorners: 17.25, rise: 136 });
    expect(joins(net)).toEqual(['flap']);
    expect(new Set(net.pieces.map((piece) => piece.flaps.length))).toEqual(new Set([1]));
    // No panel is plain, so a seam is joined last.
    expect(net.closing?.seam).not.toBeNull();
  });

  it('on a wall under a slope that a valley runs into far from it', () => {
    const shape = { width: 118.5, depth: 600, pitch: 4.3, wingWidth: 10, wingRise: 10, mainDepth: 600, ends: 'walls' };
    const { solid, net } = netOf('cross-gable', shape, rectangularBody(100, 560, 40));
    const long = net.seams.filter(({ edge }) => {
      const { role, length } = solid.edges[edge] as Solid['edges'][number];
      return role === 'abutment' && length > 100;
    });
    expect(long.length).toBeGreaterThan(0);
    expect(new Set(long.map((seam) => seam.join))).toEqual(new Set(['flap']));
  });

  it('plain panels stay plain where there is room', () => {
    const { net } = netOf('spire', { sides: 16, acrossCorners: 120, rise: 90 });
    expect(net.pieces.map((piece) => piece.flaps.length).filter((count) => count === 0)).toHaveLength(8);
  });
});

import { describe, expect, it } from 'vitest';
import { produce } from '../pipeline.ts';
import type { FlapSpec } from '../project/project.ts';
import { readProject } from '../project/read-project.ts';
import { findKind } from '../roofs/catalogue.ts';
import { exampleValues } from '../roofs/example-values.ts';
import type { Solid } from '../solid/solid.ts';
import { buildNet } from './build-net.ts';
import { checkNet } from './check-net.ts';
import { hemsUnder } from './hem.ts';
import type { Piece } from './net.ts';

const flaps: FlapSpec = { width: 6, on: 'alternate', clearance: 0.5, least: 2 };
const solidOf = (kind: string, shape: Record<string, unknown>): Solid => {
  const definition = findKind(kind);
  if (!definition) throw new Error(`no kind ${kind}`);
  const built = definition.build(exampleValues(definition, shape as never), null);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
};
const piecesOf = (solid: Solid, hem: number): readonly Piece[] => {
  const { net } = buildNet(solid, { pieces: 'per-panel', flaps, hem });
  expect(checkNet(solid, net, flaps)).toEqual([]);
  return net.pieces;
};

describe('the hem of a pyramid over a square', () => {
  const [south] = piecesOf(solidOf('pyramid', { width: 60, depth: 60, rise: 40 }), 3);
  const [hem] = south?.hems ?? [];

  it('is mitred by 45° less half the clearance on either side', () => {
    // The mitre runs a quarter of a millimetre off the halving line, so it leaves the eave a quarter times the square root of 2 in.
    const inset = 0.25 * Math.SQRT2;
    const expected = [
      [60 - inset, 3],
      [inset, 3],
      [3 + inset, 0],
      [57 - inset, 0],
    ];
    expect(hem?.polygon.map(([x, y]) => [x.toFixed(6), y.toFixed(6)])).toEqual(
      expected.map(([x = 0, y = 0]) => [x.toFixed(6), y.toFixed(6)]),
    );
  });

  it('is turned by what is left of half a turn beside the pitch', () => {
    expect(hem?.angle).toBeCloseTo(Math.PI - Math.atan2(40, 30), 12);
    expect(hem?.kind).toBe('mountain');
  });
});

describe('hems', () => {
  it('are turned square under a fascia, at its foot', () => {
    const pieces = produce(projectOf({ fascia: 5 }, 3)).roofs[0]?.made?.layers[0]?.net.pieces ?? [];
    const hems = pieces.flatMap((piece) => piece.hems);
    expect(hems).toHaveLength(4);
    for (const { angle } of hems) expect(angle).toBeCloseTo(Math.PI / 2, 12);
  });

  it('keep the clearance at an inside corner too', () => {
    const corners = [
      [0, 0],
      [120, 0],
      [120, 90],
      [70, 90],
      [70, 50],
      [0, 50],
    ];
    const under = hemsUnder(solidOf('hip-and-valley', { corners, pitch: 40 }), 4, flaps);
    // From the inside corner each hem ends a quarter of a millimetre off the line that halves it.
    const ends = under.flatMap(({ ring }) => ring).filter((p) => Math.hypot(p[0] - 10, p[1] - 5) < 1);
    expect(ends).toHaveLength(4);
    for (const [x, y] of ends) expect(Math.abs(x - 10 - (y - 5)) / Math.SQRT2).toBeCloseTo(0.25, 9);
  });

  it('are toothed round a curve, teeth no wider than where they begin', () => {
    const [half] = piecesOf(solidOf('cone', { diameter: 80, rise: 50 }), 4);
    expect(half?.hems.length).toBeGreaterThan(20);
    for (const { polygon, base } of half?.hems ?? []) expect(polygon).toHaveLength(base + 3);
  });

  it('are told where they run into the body', () => {
    const codes = (hem: number): string[] => produce(projectOf({}, hem)).issues.map((issue) => issue.code);
    expect(codes(5)).toEqual([]);
    expect(codes(5.1)).toEqual(['hem-meets-wall']);
    const [issue] = produce(projectOf({}, 7)).issues;
    expect(issue?.numbers?.['room']).toBeCloseTo(5, 9);
    expect(issue?.path).toBe('roofs[0].layers[0].hem');
    expect(issue?.place?.edges).toHaveLength(4);
  });

  it('may lie on the top of the walls', () => {
    expect(produce(projectOf({ overhang: 0 }, 3)).issues).toEqual([]);
  });

  it('are missed on a roof without a free eave', () => {
    const dome = solidOf('pyramid', { width: 60, depth: 60, rise: 40 });
    const closed = { ...dome, edges: dome.edges.map((edge) => ({ ...edge, role: 'rim' as const })) };
    const { issues } = buildNet(closed, { pieces: 'per-panel', flaps, hem: 3 });
    expect(issues.map((issue) => issue.code)).toEqual(['no-hem']);
  });
});

function projectOf(roof: Record<string, unknown>, hem: number): Parameters<typeof produce>[0] {
  const read = readProject(
    JSON.stringify({
      format: 'spirewright-project',
      version: 1,
      title: 'Hems',
      units: 'mm',
      stock: [{ id: 'card', width: 297, height: 420 }],
      roofs: [
        {
          id: 'hall',
          kind: 'hip',
          shape: { rise: 30 },
          body: { width: 90, depth: 60, height: 40 },
          overhang: 5,
          layers: [{ as: 'cover', stock: 'card', hem }],
          ...roof,
        },
      ],
    }),
  );
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value.project;
}

import { describe, expect, it } from 'vitest';
import { cross3, dot3, type Vec3 } from '../../core/geometry/vector.ts';
import { buildBoard } from '../../core/net/build-board.ts';
import type { BoardEdges } from '../../core/project/project.ts';
import { findKind } from '../../core/roofs/catalogue.ts';
import { netFigures } from '../draw/net-figure.ts';
import type { FlatPart } from './flat-part.ts';
import { measureNet } from './measures.ts';
import { buildNetParts } from './net-parts.ts';
import { printLook } from './prints.ts';

/** A pyramid 60 by 60 mm, 40 mm high, of 3 mm board: see `board-body.test.ts` for its sizes by hand. */
const boarded = (edges: BoardEdges) => {
  const solid = findKind('pyramid')?.build({ width: 60, depth: 60, rise: 40 }, null);
  if (!solid?.ok) throw new Error('a pyramid');
  const net = buildBoard(solid.value, { thickness: 3, edges });
  if (!net.ok) throw new Error('a pyramid of board');
  return { solid: solid.value, net: net.value };
};

type Corners = readonly [Vec3, Vec3, Vec3];

const trianglesOf = ({ positions, indices }: FlatPart): readonly Corners[] =>
  Array.from({ length: indices.length / 3 }, (_, i) => {
    const corner = (k: number): Vec3 => {
      const at = 3 * (indices[3 * i + k] ?? 0);
      return [positions[at] ?? 0, positions[at + 1] ?? 0, positions[at + 2] ?? 0];
    };
    return [corner(0), corner(1), corner(2)];
  });

describe.each([
  ['square', 3 * 1500 * 0.875 ** 2],
  ['mitred', 1500 * (1 + 0.875 + 0.875 ** 2)],
] as const)('a board pyramid with %s edges on the table', (edges, volume) => {
  const { solid, net } = boarded(edges);
  const one = { ...net, pieces: net.pieces.slice(0, 1) };
  const finish = {
    looks: [printLook('greyboard')],
    lookAt: () => 0,
    mapping: (_: number, p: readonly [number, number]) => p,
  };
  const { prints, wrong } = buildNetParts(solid, one, { thickness: 3, line: 0.4, finish });
  const triangles = [...prints, wrong].flatMap(trianglesOf);

  it('is closed: every edge of its triangles is passed once each way', () => {
    const name = (p: Vec3): string => p.map((x) => (Math.round(x * 1e6) / 1e6 + 0).toFixed(6)).join();
    const passes = triangles.flatMap((corners) => corners.map((p, i) => [name(p), name(corners[(i + 1) % 3] as Vec3)]));
    const known = passes.map((pass) => pass.join(' > '));
    expect(new Set(known).size).toBe(known.length);
    for (const [a, b] of passes) expect(known).toContain(`${b} > ${a}`);
  });

  it('holds as much as it does by hand', () => {
    expect(triangles.reduce((sum, [a, b, c]) => sum + dot3(a, cross3(b, c)) / 6, 0)).toBeCloseTo(volume, 6);
  });
});

describe('the measures of board', () => {
  it('are those to cut, on the table and on the drawing of the net', () => {
    const { solid, net } = boarded('square');
    expect(measureNet(net, solid, [], 6).map(({ length }) => length)).toEqual([
      expect.closeTo(60 * 0.875, 6),
      expect.closeTo(50 * 0.875, 6),
    ]);
    const [figure] = netFigures(solid, net);
    const lengths = figure?.measures.map(({ length }) => length) ?? [];
    for (const whole of [60, 50, Math.hypot(30, 50)]) expect(lengths).toContainEqual(expect.closeTo(whole * 0.875, 6));
  });
});

import { describe, expect, test } from 'vitest';
import { cutGraph } from '../../src/core/net/cut-graph.ts';
import { everyForest } from '../../src/core/net/every-cut.ts';
import { layForest } from '../../src/core/net/lay-nodes.ts';
import { flattenSolid, type Unfolded, unfoldAlong } from '../../src/core/net/unfold.ts';
import { joinedEdges } from '../../src/core/net/unfold-faces.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import {
  cube,
  equalEdges,
  frustumOf,
  hipWithBase,
  octahedron,
  pyramidOf,
  tetrahedron,
} from './testing/closed-solids.ts';
import { netKey } from './testing/net-key.ts';

/**
 * Nets of closed solids: the trees along which the faces stay joined, and how many of their nets differ, mirror images counted as
 * one. Cube and octahedron: 11 nets each (nsg.upor.net/puz/oct, "Octahedron unfoldings"); trees of a right pyramid: the Lucas
 * number L(2n) less 2. The other counts come from an enumeration by another program, up to the symmetries of the solid.
 */
const solids: readonly (readonly [name: string, solid: Solid, trees: number, nets: number])[] = [
  ['tetrahedron', tetrahedron(), 16, 2],
  ['cube', cube(), 384, 11],
  ['octahedron', octahedron(), 384, 11],
  ['square pyramid of equal edges (J1)', pyramidOf(4, equalEdges(4)), 45, 8],
  ['pentagonal pyramid of equal edges (J2)', pyramidOf(5, equalEdges(5)), 121, 15],
  ['right pyramid on a triangle', pyramidOf(3, 2.1), 16, 4],
  ['right pyramid on a square', pyramidOf(4, 2.1), 45, 8],
  ['right pyramid on a pentagon', pyramidOf(5, 2.1), 121, 15],
  ['right pyramid on a hexagon', pyramidOf(6, 2.1), 320, 33],
  ['right pyramid on a heptagon', pyramidOf(7, 2.1), 841, 67],
  ['right triangular prism', frustumOf(3, 1, 2.3), 75, 9],
  ['frustum of a square pyramid', frustumOf(4, 0.6, 1.7), 384, 52],
  ['hip roof on a rectangle with its base', hipWithBase(5, 3, 1.3), 75, 23],
];

describe.each(solids)('%s', (_, solid, trees, nets) => {
  const flat = flattenSolid(solid);
  const faces = solid.faces.map((_, f) => f);
  const graph = cutGraph(flat, faces);
  const found: Unfolded[] = [];
  let overlaps = 0;
  for (const joined of everyForest(graph, 1)) {
    found.push(unfoldAlong(flat, faces, new Set(joinedEdges(graph, joined)))[0] as Unfolded);
    if (!layForest(graph, joined, { neck: 0 })) overlaps++;
  }

  test(`is cut along ${trees} trees to ${nets} nets`, () => {
    expect(found).toHaveLength(trees);
    expect(new Set(found.map(netKey)).size).toBe(nets);
  });

  test('each of them lies flat without an overlap, all its faces in one piece', () => {
    expect(overlaps).toBe(0);
    expect(found.every(({ panels }) => panels.length === faces.length)).toBe(true);
  });
});

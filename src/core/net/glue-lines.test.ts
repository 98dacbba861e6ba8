import { describe, expect, test } from 'vitest';
import { rectangularBody } from '../footprint/rectangular-body.ts';
import { layerSolids } from '../layers/layer-solids.ts';
import type { StackedLayer } from '../layers/stack.ts';
import type { ShapeValues } from '../project/project.ts';
import { findKind } from '../roofs/catalogue.ts';
import { buildBoard } from './build-board.ts';
import { buildNet } from './build-net.ts';

const flaps = { width: 6, on: 'alternate', clearance: 0.5, least: 2 } as const;

/** For each layer the walls that are glued to a slope, as its panels show it. */
function gluedWalls(kind: string, shape: ShapeValues, stack: readonly StackedLayer[]): readonly (readonly string[])[] {
  const built = findKind(kind)?.build(shape, rectangularBody(50, 48, 30));
  if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
  return layerSolids(built.value, stack, null).map((made, l) => {
    if (!made.ok) throw new Error(JSON.stringify(made.issues));
    const { faces, edges } = made.value;
    const { as, thickness } = stack[l] as StackedLayer;
    const board = as === 'board' ? buildBoard(made.value, { thickness, edges: 'square' }) : null;
    const net = board?.ok ? board.value : buildNet(made.value, { pieces: 'per-panel', flaps }).net;
    const lines = net.pieces.flatMap(({ glueLines }) => glueLines);
    return lines.map(({ edge }) => faces[edges[edge]?.faces[0] ?? -1]?.id ?? '').sort();
  });
}

describe('a wall that ends under the roof', () => {
  const shape = { width: 60, depth: 56, rise: 21, ridge: 'along-width' };
  const walls = ['east', 'east', 'west', 'west'];

  test.each([
    ['board', [{ as: 'board', thickness: 2 }]],
    ['card', [{ as: 'shell', thickness: 0.5 }]],
  ] as const)('is glued to the inside of the %s, and to nothing that lies over it', (_, core) => {
    const cover = { as: 'cover', thickness: 0.3 } as const;
    expect(gluedWalls('gable', shape, core)).toEqual([walls]);
    expect(gluedWalls('gable', shape, [...core, cover, cover])).toEqual([walls, [], []]);
  });

  test('is glued to a cover that lies on nothing', () => {
    expect(gluedWalls('gable', shape, [{ as: 'cover', thickness: 0.3 }])).toEqual([walls]);
  });
});

test('a wall that stands on the roof is glued to the slope of its own layer', () => {
  const shape = {
    lower: { kind: 'hip', shape: { width: 100, depth: 100, pitch: Math.PI / 4 } },
    wall: rectangularBody(50, 50, 15),
    upper: { kind: 'pyramid', shape: { pitch: 0.9 }, overhang: { eave: 4, verge: 4 } },
  };
  const walls = ['wall-east', 'wall-north', 'wall-south', 'wall-west'];
  const both = [...walls, ...walls].sort();
  const stack = [
    { as: 'shell', thickness: 0.5 },
    { as: 'cover', thickness: 0.3 },
  ] as const;
  expect(gluedWalls('two-tier', shape, stack)).toEqual([both, walls]);
});

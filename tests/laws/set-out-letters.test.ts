import { expect, test } from 'vitest';
import { rectangularBody } from '../../src/core/footprint/rectangular-body.ts';
import { layerSolids } from '../../src/core/layers/layer-solids.ts';
import type { StackedLayer } from '../../src/core/layers/stack.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import { findKind } from '../../src/core/roofs/catalogue.ts';
import { makeSetOut } from '../../src/core/setout/make-set-out.ts';
import { scatter } from './scatter.ts';

const flaps = { width: 6, on: 'alternate', clearance: 0.5, least: 2 } as const;

/** For each layer of a gable roof on walls: letters on its slopes, and those of its walls' tops. */
function lettersOf(stack: readonly StackedLayer[]) {
  const shape = { width: 60, depth: 56, rise: 21, ridge: 'along-width' };
  const built = findKind('gable')?.build(shape, rectangularBody(50, 48, 30));
  if (!built?.ok) throw new Error('no roof');
  return layerSolids(built.value, stack, null).map((made) => {
    if (!made.ok) throw new Error('no layer');
    const solid = made.value;
    const { net } = buildNet(solid, { pieces: 'per-panel', flaps });
    const { production, sheet } = scatter({ solid }, net, [0], 4);
    const { strips, seams } = makeSetOut(production, sheet, { ruler: '1mm', up: 'wrong' });
    const tops = net.seams.filter(({ edge }) => solid.edges[edge]?.role === 'abutment').map(({ mark }) => mark);
    const hosts = new Set(net.seams.filter(({ mark }) => tops.includes(mark)).map(({ sides: [, host] }) => host.piece));
    const onSlopes = strips.flatMap(({ pieces }) =>
      pieces.filter(({ piece }) => hosts.has(piece)).flatMap(({ letters }) => letters.map(({ text }) => text)),
    );
    const told = seams.alike + seams.apart.reduce((sum, { marks }) => sum + marks.length, 0);
    return {
      onSlopes: onSlopes.filter((mark) => tops.includes(mark)).sort(),
      tops: tops.sort(),
      all: net.seams.length,
      told,
    };
  });
}

test('a slope has the letters of the walls that are glued to it, and none where they are glued to the layer under it', () => {
  const [core, cover] = lettersOf([
    { as: 'shell', thickness: 0.5 },
    { as: 'cover', thickness: 0.3 },
  ]);
  expect(core?.tops.length).toBeGreaterThan(0);
  expect(core?.onSlopes).toEqual(core?.tops);
  expect(core?.told).toBe(core?.all);
  expect(cover?.tops.length).toBe(core?.tops.length);
  expect(cover?.onSlopes).toEqual([]);
  expect(cover?.told).toBe((cover?.all ?? 0) - (cover?.tops.length ?? 0));
});

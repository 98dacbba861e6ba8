import { expect, it } from 'vitest';
import type { FlapSpec } from '../project/project.ts';
import { findKind } from '../roofs/catalogue.ts';
import { exampleValues } from '../roofs/example-values.ts';
import type { Solid } from '../solid/solid.ts';
import { buildNet } from './build-net.ts';
import { checkNet } from './check-net.ts';
import { fitsOn } from './plan-cuts.ts';

const flaps: FlapSpec = { width: 6, on: 'alternate', clearance: 0.5, least: 2 };

function roof(kind: string, shape: Record<string, number | readonly number[]>): Solid {
  const definition = findKind(kind);
  const built = definition?.build(exampleValues(definition, shape as never), null);
  if (!built?.ok) throw new Error(`no ${kind}`);
  return built.value;
}

it('counts the flaps that there are, not all that there might be: three pieces fit where room for every flap would ask for four', () => {
  const solid = roof('pyramid', { lengths: [62, 55, 63, 52], diagonal: 82, rise: 58 });
  const sheets = [{ width: 100, height: 80, mayLie: false }];
  const { net, issues } = buildNet(solid, { pieces: 'fewest', flaps, sheets });
  expect(net.pieces).toHaveLength(3);
  expect(net.pieces.every(({ width, height }) => fitsOn(sheets, width, height))).toBe(true);
  expect(checkNet(solid, net, flaps)).toEqual([]);
  expect(issues.filter(({ code }) => code === 'piece-over-sheet')).toEqual([]);
});

it('a seam shorter than any flap is left as it is, unless tape is asked for', () => {
  // All but square: the ridge is 0.06 mm long.
  const solid = roof('hip', { width: 60.06, depth: 60, rise: 40 });
  const ridge = solid.edges.findIndex(({ role }) => role === 'ridge');
  expect(solid.edges[ridge]?.length).toBeCloseTo(0.06, 9);
  const of = (seams?: Record<string, { join: 'tape' }>): readonly unknown[] => {
    const { net, issues } = buildNet(solid, { pieces: 'per-panel', flaps, seams });
    expect(checkNet(solid, net, flaps)).toEqual([]);
    const id = solid.edges[ridge]?.id as string;
    return [
      net.seams.find(({ edge }) => edge === ridge)?.join,
      issues.filter(({ place }) => place?.edges?.includes(id)).map(({ code }) => code),
    ];
  };
  expect(of()).toEqual(['none', ['seam-short']]);
  expect(of({ [solid.edges[ridge]?.id as string]: { join: 'tape' } })).toEqual(['tape', ['seam-without-flap']]);
});

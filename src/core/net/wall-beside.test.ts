import { expect, test } from 'vitest';
import { rectangularBody } from '../footprint/rectangular-body.ts';
import { insideOf, layerSolids, wallSeat } from '../layers/layer-solids.ts';
import { findKind } from '../roofs/catalogue.ts';
import type { Solid } from '../solid/solid.ts';
import { buildNet } from './build-net.ts';
import { checkNet } from './check-net.ts';

/** The cover over board on a saltbox 10 deep and 48.4 high whose back wall stands so far in under the eave. */
function cover(board: number, overhang: number): Solid {
  const body = rectangularBody(380, 10 - 2 * overhang, 5);
  const shape = { width: 390, depth: 10, rise: 48.4, ridgeOffset: 0, backLift: 10, ends: 'walls' };
  const built = findKind('saltbox')?.build(shape, body);
  if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
  const stack = [
    { as: 'board', thickness: board },
    { as: 'cover', thickness: 0.3 },
  ] as const;
  const inside = insideOf(built.value, stack);
  if (!inside.ok) throw new Error(JSON.stringify(inside.issues));
  const made = layerSolids(built.value, stack, wallSeat(built.value, inside.value, body))[1];
  if (!made?.ok) throw new Error(JSON.stringify(made?.issues));
  return made.value;
}

const flaps = { width: 2, on: 'one-side', clearance: 0.5, least: 1 } as const;

/** How the back wall is joined to the slope over it. */
function join(solid: Solid): string | undefined {
  const { net } = buildNet(solid, { pieces: 'per-panel', flaps });
  expect(checkNet(solid, net, flaps)).toEqual([]);
  return net.seams.find(({ edge }) => solid.edges[edge]?.id === 'abutment-north-wall-north')?.join;
}

test('a wall let down past a narrow overhang, beside its slope, is taped; with more overhang it has its flap', () => {
  // The back slope falls 38.4 over 5. The underside of 0.5 mm of board lies 0.5 · 38.72 / 5 = 3.9 lower, the slope over an overhang
  // of 0.4 only 3.1 above its eave: the wall ends under the eave. Over 1.5 it is 11.5 above.
  expect(join(cover(0.5, 0.4))).toBe('tape');
  expect(join(cover(0.5, 1.5))).toBe('flap');
});

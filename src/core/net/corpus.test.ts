import { expect, test } from 'vitest';
import { findKind } from '../roofs/catalogue.ts';
import { buildNet } from './build-net.ts';
import { checkNet } from './check-net.ts';

/** Roofs that once broke a law of the net. The list only grows. */
test('a narrow flush gable without clearance: its flaps stay inside to the last digit', () => {
  const [x, y] = [4.402806982978524, 44.375];
  const body = {
    outline: [
      [-x, -y],
      [x, -y],
      [x, y],
      [-x, y],
    ] as const,
    height: 5,
    rectangle: { width: 2 * x, depth: 2 * y },
  };
  const shape = { width: 10.000000000000016, depth: 88.75, rise: 123, ridge: 'along-depth', ends: 'walls' };
  const built = findKind('gable')?.build(shape, body);
  if (!built?.ok) throw new Error('no roof');
  const flaps = { width: 2, on: 'alternate', clearance: 0, least: 2 } as const;
  const { net } = buildNet(built.value, { pieces: 'per-panel', flaps });
  expect(checkNet(built.value, net, flaps)).toEqual([]);
});

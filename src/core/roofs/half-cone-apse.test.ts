import { expect, it } from 'vitest';
import { overhangs } from '../fit/overhang.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Body } from '../project/project.ts';
import { halfConeApse } from './half-cone-apse.ts';

it('stands out all round half a round body and is flush with its back', () => {
  const outline = Array.from({ length: 33 }, (_, i): Vec2 => {
    const angle = -Math.PI + (i * Math.PI) / 32;
    return [30 * Math.cos(angle), 30 * Math.sin(angle) + 15];
  });
  const body: Body = { outline, height: 40, rectangle: null };
  const plan = halfConeApse.outlineFromBody(body, { eave: 4, verge: 4 }, {});
  if (!plan.ok) throw new Error('no plan');
  expect(plan.value['diameter']).toBeCloseTo(68, 9);
  const built = halfConeApse.build({ ...plan.value, rise: 30 } as never, body);
  if (!built.ok) throw new Error('no roof');
  const out = overhangs(built.value, body).flatMap((wall) => wall.distances);
  expect(Math.min(...out)).toBeCloseTo(0, 6);
  expect(Math.max(...out)).toBeLessThan(4.3);
  expect(Math.max(...built.value.vertices.map((v) => v[1]))).toBeCloseTo(15, 9);
});

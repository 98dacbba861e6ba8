import fc from 'fast-check';
import { expect, test } from 'vitest';
import { arbitraryRoof, kinds } from '../../../tests/laws/arbitrary-roof.ts';
import { runs } from '../../../tests/laws/runs.ts';
import { findKind } from '../roofs/catalogue.ts';
import { edgesOfFaces } from '../solid/measure.ts';
import { panelTriangles } from './panel-triangles.ts';

test('a pyramid 60 wide and 40 high: 30 and 40 make a slant of 50, and 30 and 50 its hips (3, 4, 5: Euclid I.47)', () => {
  const built = findKind('pyramid')?.build({ width: 60, depth: 60, rise: 40 }, null);
  if (!built?.ok) throw new Error('no pyramid');
  const triangles = panelTriangles(built.value, 0);
  expect(triangles?.upright?.rise).toBeCloseTo(40, 9);
  expect(triangles?.upright?.run).toBeCloseTo(30, 9);
  expect(triangles?.upright?.slant).toBeCloseTo(50, 9);
  expect(triangles?.edges).toHaveLength(1);
  const [hip] = triangles?.edges ?? [];
  expect(hip).toMatchObject({ role: 'hip', count: 2, isHalfEave: true });
  expect(hip?.along).toBeCloseTo(30, 9);
  expect(hip?.length).toBeCloseTo(Math.sqrt(30 ** 2 + 50 ** 2), 9);
});

test('in every flat panel of any roof the triangles are its height, its slant and its edges', () => {
  const anyRoof = fc.constantFrom(...kinds).chain((kind) => arbitraryRoof(kind));
  fc.assert(
    fc.property(anyRoof, ({ solid }) => {
      const edges = edgesOfFaces(solid);
      const off: number[] = [];
      solid.faces.forEach((face, f) => {
        const triangles = panelTriangles(solid, f);
        expect(triangles === null).toBe(face.roll !== undefined);
        if (!triangles) return;
        const levels = face.loop.map((v) => solid.vertices[v]?.[2] ?? 0);
        const height = Math.max(...levels) - Math.min(...levels);
        if (triangles.upright) {
          const { rise, run, slant } = triangles.upright;
          off.push(rise - height, Math.hypot(rise, run) - slant);
        }
        const lengths = (edges[f] ?? []).map((e) => solid.edges[e]?.length ?? 0);
        for (const { length } of triangles.edges)
          off.push(Math.min(...lengths.map((other) => Math.abs(other - length))));
      });
      expect(Math.max(0, ...off.map(Math.abs))).toBeLessThan(1e-6);
    }),
    { numRuns: runs(20) },
  );
});

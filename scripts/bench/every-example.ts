import type { LayerSpec, RoofSpec } from '../../src/core/project/project.ts';
import { readProject } from '../../src/core/project/read-project.ts';
import { kinds } from '../../src/core/roofs/catalogue.ts';

/** A roof of each example of the catalogue, in each of these layers. */
export function everyExample(layers: readonly LayerSpec['as'][]): readonly RoofSpec[] {
  const roofs = kinds.flatMap(({ id: kind, examples }) =>
    examples.flatMap(({ title, shape }, index) =>
      layers.map((as) => ({ id: `${kind}-${index}-${as}`, title, kind, shape, layers: [{ as, stock: 'plain' }] })),
    ),
  );
  const reading = readProject(
    JSON.stringify({
      format: 'spirewright-project',
      version: 1,
      title: 'Every example',
      units: 'mm',
      stock: [{ id: 'plain', name: 'Plain', width: 700, height: 700, direction: 'any' }],
      roofs,
    }),
  );
  if (!reading.ok) throw new Error(reading.issues.map(({ message }) => message).join(' '));
  return reading.value.project.roofs;
}

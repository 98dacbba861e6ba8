import { buildRoof } from '../../src/core/make-roof.ts';
import { readProject } from '../../src/core/project/read-project.ts';
import { kinds } from '../../src/core/roofs/catalogue.ts';
import { timeInTurn } from './median.ts';

export interface SolidSpeed {
  readonly kind: string;
  readonly title: string;
  readonly faces: number;
  /** From a change of a parameter to the new solid. */
  readonly ms: number;
}

/** Every example of the catalogue from its parameters to its solid, the slowest first. */
export function solidSpeeds(): readonly SolidSpeed[] {
  const examples = kinds.flatMap(({ id, examples: all }) =>
    all.map(({ title, shape }) => ({ kind: id, title, shape })),
  );
  const reading = readProject(
    JSON.stringify({
      format: 'spirewright-project',
      version: 1,
      title: 'Every example',
      units: 'mm',
      stock: [{ id: 'plain', name: 'Plain', width: 700, height: 700, direction: 'any' }],
      roofs: examples.map(({ kind, title, shape }, index) => ({
        id: `roof-${index}`,
        title,
        kind,
        shape,
        layers: [{ as: 'cover', stock: 'plain' }],
      })),
    }),
  );
  if (!reading.ok) throw new Error(reading.issues.map(({ message }) => message).join(' '));
  const { roofs } = reading.value.project;
  const times = timeInTurn(
    roofs.map((spec) => () => void buildRoof(spec)),
    21,
    1,
  );
  return roofs
    .map(({ kind, title, ...spec }, index): SolidSpeed => {
      const built = buildRoof({ kind, title, ...spec });
      if (!built.ok) throw new Error(`the example ${title} of ${kind} has no roof`);
      return { kind, title, faces: built.value.faces.length, ms: times[index] ?? Number.NaN };
    })
    .sort((a, b) => b.ms - a.ms);
}

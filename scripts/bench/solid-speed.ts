import { buildRoof } from '../../src/core/make-roof.ts';
import { everyExample } from './every-example.ts';
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
  const roofs = everyExample(['cover']);
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

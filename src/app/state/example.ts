import type { RoofDefinition } from '../../core/roofs/definition.ts';
import { exampleValues } from '../../core/roofs/example-values.ts';
import type { Solid } from '../../core/solid/solid.ts';

const solids = new WeakMap<RoofDefinition, Solid>();

/** The solid of a kind's first example, mm; null where the kind gives none that can be built. */
export const exampleSolid = (definition: RoofDefinition): Solid | null => {
  const known = solids.get(definition);
  if (known !== undefined) return known;
  const values = exampleValues(definition, definition.examples[0]?.shape ?? {});
  const built = definition.build(values, null);
  if (!built.ok) return null;
  solids.set(definition, built.value);
  return built.value;
};

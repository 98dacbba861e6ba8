import type { Param, RoofDefinition } from '../../core/roofs/definition.ts';
import type { Solid } from '../../core/solid/solid.ts';
import { fromDegrees } from '../../core/units/units.ts';

const solids = new WeakMap<RoofDefinition, Solid>();

const madeValue = (param: Param, value: number | string): number | string =>
  param.quantity === 'pitch' && typeof value === 'number' ? fromDegrees(value) : value;

/** The solid of a kind's first example, mm; null where the kind gives none that can be built. */
export const exampleSolid = (definition: RoofDefinition): Solid | null => {
  const known = solids.get(definition);
  if (known !== undefined) return known;
  const shape = definition.examples[0]?.shape ?? {};
  const values = definition.params.flatMap((param) => {
    const typed = shape[param.key];
    const value = typed === undefined ? (param.oneOf ? undefined : param.default) : madeValue(param, typed);
    return value === undefined ? [] : [[param.key, value] as const];
  });
  const built = definition.build(Object.fromEntries(values), null);
  if (!built.ok) return null;
  solids.set(definition, built.value);
  return built.value;
};

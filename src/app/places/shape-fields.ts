import type { Param, RoofDefinition } from '../../core/roofs/definition.ts';
import type { Units } from '../../core/units/units.ts';
import type { FieldSpec } from '../fields/field-spec.ts';
import { exactPitch, exactText } from '../fields/typed-text.ts';
import type { RoofAtHand } from './use-roof.ts';

/** The field of one parameter of a kind. */
export const shapeField = (param: Param, { at, context }: RoofAtHand): FieldSpec => ({
  key: param.key,
  label: param.label,
  help: param.help,
  path: at('shape', param.key),
  quantity: param.quantity,
  ...(param.quantity === 'choice' ? { choices: param.choices } : {}),
  ...fallbackOf(param, context.units),
});

/** What counts while nothing is typed, as it would be typed. */
const fallbackOf = (param: Param, units: Units): Pick<FieldSpec, 'fallback'> => {
  if (param.default === undefined) return {};
  if (param.quantity === 'length') return { fallback: exactText(param.default, units) };
  return { fallback: param.quantity === 'pitch' ? exactPitch(param.default) : param.default };
};

export const groupOf = (definition: RoofDefinition, group: Param['oneOf']): readonly Param[] =>
  definition.params.filter((param) => param.oneOf === group);

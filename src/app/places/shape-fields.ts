import type { Param, RoofDefinition } from '../../core/roofs/definition.ts';
import type { FieldSpec } from '../fields/field-spec.ts';
import { exactPitch, shownText } from '../fields/typed-text.ts';
import type { RoofAtHand } from './use-roof.ts';

/** The field of one parameter of a kind. */
export const shapeField = (param: Param, at: RoofAtHand['at']): FieldSpec => ({
  key: param.key,
  label: param.label,
  help: param.help,
  path: at('shape', param.key),
  quantity: param.quantity,
  ...(param.quantity === 'choice' ? { choices: param.choices } : {}),
  ...fallbackOf(param),
});

const fallbackOf = (param: Param): Pick<FieldSpec, 'fallback'> => {
  if (param.default === undefined) return {};
  return { fallback: param.quantity === 'pitch' ? shownText(exactPitch(param.default), 'pitch') : param.default };
};

export const groupOf = (definition: RoofDefinition, group: Param['oneOf']): readonly Param[] =>
  definition.params.filter((param) => param.oneOf === group);

import { isTyped, type Param, type RoofDefinition, type TypedParam } from '../../core/roofs/definition.ts';
import type { Units } from '../../core/units/units.ts';
import type { FieldSpec } from '../fields/field-spec.ts';
import { exactPitch, exactText } from '../fields/typed-text.ts';
import { isOptional, leftOutWords } from './left-out.ts';
import type { RoofAtHand } from './use-roof.ts';

/** The field of one parameter of a kind. */
export const shapeField = (param: TypedParam, { at, context }: RoofAtHand): FieldSpec => ({
  key: param.key,
  label: param.label,
  help: param.help,
  path: at('shape', param.key),
  quantity: param.quantity,
  ...(param.quantity === 'choice' ? { choices: param.choices } : {}),
  ...fallbackOf(param, context.units),
  ...(mayBeLeftOut(param) ? { canLeaveOut: true } : {}),
});

/** What counts while nothing is typed, as it would be typed. */
const fallbackOf = (param: TypedParam, units: Units): Pick<FieldSpec, 'fallback'> => {
  if (isOptional(param)) return { fallback: leftOutWords(param.help) };
  if (param.default === undefined) return {};
  if (param.quantity === 'length') {
    const text = exactText(param.default, units);
    // A usual size in whole millimetres is said in them where it lies on no mark of an inch.
    return { fallback: text.includes('.') ? exactText(param.default, 'mm') : text };
  }
  return { fallback: param.quantity === 'pitch' ? exactPitch(param.default) : param.default };
};

/** Typed into a box and not needed: choices have their usual answer among the others. */
export const mayBeLeftOut = (param: Param): boolean =>
  param.quantity !== 'choice' && param.oneOf === undefined && (isOptional(param) || param.default !== undefined);

export const groupOf = (definition: RoofDefinition, group: Param['oneOf']): readonly TypedParam[] =>
  definition.params.filter(isTyped).filter((param) => param.oneOf === group);

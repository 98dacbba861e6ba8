import type { Param, RoofDefinition } from '../roofs/definition.ts';
import { formatPitch } from '../units/units.ts';
import { type Intake, type LengthRule, readLength, readPitch, showBounds } from './intake.ts';
import { formatPath, type PathPart } from './path.ts';
import type { ShapeValues } from './project.ts';
import { andList, orList, projectIssue } from './sentences.ts';

export interface ShapePlace {
  readonly path: readonly PathPart[];
  /** Then the eave outline follows from the body and must not be given. */
  readonly hasOverhang: boolean;
}

/** The parameters given in a file and the defaults of those that stand alone, in mm, radians, counts and words. */
export function resolveShape(
  intake: Intake,
  definition: RoofDefinition,
  shape: Readonly<Record<string, unknown>>,
  place: ShapePlace,
): ShapeValues {
  const isGiven = (param: Param): boolean => Object.hasOwn(shape, param.key) && shape[param.key] !== undefined;
  checkOutline(intake, definition.params.filter(isGiven), place);
  checkGroups(intake, definition.params, isGiven, place);
  const values: Record<string, number | string> = {};
  for (const param of definition.params) {
    const value = isGiven(param)
      ? readParam(intake, param, shape[param.key], [...place.path, param.key])
      : valueLeftOut(intake, param, place);
    if (value !== undefined) values[param.key] = value;
  }
  return values;
}

function checkOutline(intake: Intake, given: readonly Param[], { path, hasOverhang }: ShapePlace): void {
  const outline = given.filter((param) => param.outline).map((param) => param.key);
  if (!hasOverhang || outline.length === 0) return;
  intake.report(projectIssue('outline-and-overhang', formatPath(path), { found: andList(outline) }));
}

function checkGroups(
  intake: Intake,
  params: readonly Param[],
  isGiven: (param: Param) => boolean,
  { path, hasOverhang }: ShapePlace,
): void {
  const needed = params.filter((param) => param.oneOf && !(hasOverhang && param.outline));
  for (const group of new Set(needed.map((param) => param.oneOf))) {
    const members = needed.filter((param) => param.oneOf === group);
    const given = members.filter(isGiven).map((param) => param.key);
    if (given.length === 1) continue;
    const code = given.length === 0 ? 'none-of-group' : 'many-of-group';
    const allowed = orList(members.map((param) => param.key));
    intake.report(projectIssue(code, formatPath(path), { found: andList(given), allowed }));
  }
}

/** What a parameter is that the file leaves out; reports the ones that cannot be left out. */
function valueLeftOut(intake: Intake, param: Param, { path, hasOverhang }: ShapePlace): number | string | undefined {
  if (param.oneOf || (hasOverhang && param.outline)) return undefined;
  if (param.default !== undefined) return param.default;
  if (param.optional) return undefined;
  const at = formatPath([...path, param.key]);
  intake.report(
    param.outline
      ? projectIssue('outline-missing', at, { label: param.label, other: param.key })
      : projectIssue('parameter-missing', at, { label: param.label, allowed: allowedFor(param, intake) }),
  );
  return undefined;
}

function readParam(
  intake: Intake,
  param: Param,
  found: unknown,
  path: readonly PathPart[],
): number | string | undefined {
  if (param.quantity === 'length') return readLength(intake, found, path, ruleOf(param));
  if (param.quantity === 'pitch') return readPitch(intake, found, path, ruleOf(param));
  // Counts and words are checked with the structure of the file.
  return typeof found === 'number' || typeof found === 'string' ? found : undefined;
}

const ruleOf = ({ label, min, max }: Exclude<Param, { quantity: 'choice' }>): LengthRule => ({
  label,
  min,
  max,
  isScaled: true,
});

function allowedFor(param: Param, intake: Intake): string {
  if (param.quantity === 'choice') return orList(param.choices.map((choice) => `"${choice.value}"`));
  if (param.quantity === 'length') return showBounds(ruleOf(param), intake);
  if (param.quantity === 'pitch') return `${formatPitch(param.min)} to ${formatPitch(param.max)}`;
  return `a whole number from ${param.min} to ${param.max}`;
}

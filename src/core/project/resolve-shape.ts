import type { Plan } from '../footprint/offset.ts';
import {
  fileKeysOf,
  hasTiers,
  isTyped,
  type Param,
  type RoofDefinition,
  type RoofParam,
  type TypedParam,
} from '../roofs/definition.ts';
import { formatPitch } from '../units/units.ts';
import { type Intake, type LengthRule, readLength, readPitch, showBounds } from './intake.ts';
import { formatPath, isRecord, type PathPart } from './path.ts';
import type { ShapeValue, ShapeValues, SidePitches, TierSpec } from './project.ts';
import { footprintKeysIn, isFootprintForm, readFootprint } from './read-footprint.ts';
import { resolveBody, resolveOverhang } from './resolve-body.ts';
import { andList, orList, projectIssue } from './sentences.ts';

export interface ShapePlace {
  readonly path: readonly PathPart[];
  /** Then the eave outline follows from the body and must not be given. */
  readonly hasOverhang: boolean;
  /** What roofs within the roof may be. */
  readonly kinds?: readonly RoofDefinition[];
}

/** The shape as typed, and which of its parameters the file gives. */
interface Typed {
  readonly shape: Readonly<Record<string, unknown>>;
  readonly place: ShapePlace;
  readonly isGiven: (param: Param) => boolean;
  /** The outline is measured, so that its sizes are not missing. */
  readonly isMeasured: boolean;
}

/** The parameters given in a file and the defaults of those that stand alone, in mm, radians, counts and words. */
export function resolveShape(
  intake: Intake,
  definition: RoofDefinition,
  shape: Readonly<Record<string, unknown>>,
  place: ShapePlace,
): ShapeValues {
  const isGiven = (param: Param): boolean =>
    fileKeysOf(param).some((key) => Object.hasOwn(shape, key) && shape[key] !== undefined);
  const measured = definition.params.find((param) => param.quantity === 'footprint');
  const typed: Typed = { shape, place, isGiven, isMeasured: measured !== undefined && isGiven(measured) };
  const isOneOutline = checkOutline(intake, definition.params, typed);
  checkGroups(intake, definition.params, typed);
  const plan = typed.isMeasured && isOneOutline ? readFootprint(intake, shape, place.path) : null;
  const values: Record<string, ShapeValue> = {};
  for (const param of definition.params) {
    const value = isGiven(param) ? readParam(intake, param, typed, plan) : valueLeftOut(intake, param, typed);
    if (value !== undefined) values[param.key] = value;
  }
  return values;
}

/** Whether the outline is not given twice, by the shape alone or with an overhang; reports where it is. */
function checkOutline(intake: Intake, params: readonly Param[], { shape, place, isGiven, isMeasured }: Typed): boolean {
  const outlines = params.filter((param) => param.outline);
  const found = outlines
    .filter(isGiven)
    .flatMap((param) => fileKeysOf(param).filter((key) => shape[key] !== undefined));
  const at = formatPath(place.path);
  if (place.hasOverhang) {
    if (found.length > 0) intake.report(projectIssue('outline-and-overhang', at, { found: andList(found) }));
    return found.length === 0;
  }
  const measures = footprintKeysIn(shape);
  const isMixed = found.some((key) => key !== 'courts' && !measures.includes(key));
  if (!isMeasured || (!isMixed && isFootprintForm(measures))) return true;
  const sizes = outlines.filter(isTyped).map(({ key }) => key);
  const allowed = [
    ...(sizes.length > 0 ? [sizes.join(' and ')] : []),
    'corners',
    'lengths (with a diagonal or angles)',
  ];
  intake.report(projectIssue('outline-form', at, { found: andList(found), allowed: orList(allowed) }));
  return false;
}

function checkGroups(intake: Intake, params: readonly Param[], { place, isGiven }: Typed): void {
  const { path, hasOverhang } = place;
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
function valueLeftOut(intake: Intake, param: Param, { place, isMeasured }: Typed): number | string | undefined {
  const { path, hasOverhang } = place;
  if (param.oneOf || (param.outline && (hasOverhang || isMeasured))) return undefined;
  if (param.default !== undefined) return param.default;
  // Roofs and walls within the roof were missed with the structure of the file.
  if (param.optional || param.quantity === 'roof' || param.quantity === 'wall') return undefined;
  const at = formatPath([...path, param.key]);
  // Measured outlines and what belongs to sides are outline parameters or optional.
  intake.report(
    param.outline || !isTyped(param)
      ? projectIssue('outline-missing', at, { label: param.label, other: fileKeysOf(param).join(', ') })
      : projectIssue('parameter-missing', at, { label: param.label, allowed: allowedFor(param, intake) }),
  );
  return undefined;
}

function readParam(intake: Intake, param: Param, { shape, place }: Typed, plan: Plan | null): ShapeValue | undefined {
  const [found, path] = [shape[param.key], [...place.path, param.key]];
  if (param.quantity === 'footprint') return plan?.corners;
  if (param.quantity === 'courts') return plan?.courts;
  if (param.quantity === 'side-pitches') return readSidePitches(intake, found, path, ruleOf(param));
  if (param.quantity === 'roof') return readTier(intake, param, found, { ...place, path });
  if (param.quantity === 'wall') return resolveBody(intake, found, path) ?? undefined;
  if (param.quantity === 'length') return readLength(intake, found, path, ruleOf(param));
  if (param.quantity === 'pitch') return readPitch(intake, found, path, ruleOf(param));
  // Counts and words are checked with the structure of the file.
  return typeof found === 'number' || typeof found === 'string' ? found : undefined;
}

/** A roof within the roof: its outline follows from the body, or over a wall from its own overhang, if there is one. */
function readTier(intake: Intake, param: RoofParam, found: unknown, place: ShapePlace): TierSpec | undefined {
  if (!isRecord(found)) return undefined;
  const { path, kinds = [] } = place;
  const definition = kinds.filter((kind) => !hasTiers(kind)).find((kind) => kind.id === found['kind']);
  const { shape, overhang } = found;
  if (!definition || !isRecord(shape)) return undefined;
  const own = param.on === 'wall' ? resolveOverhang(intake, overhang, [...path, 'overhang'], definition) : null;
  const hasOverhang = param.on === 'wall' ? overhang !== undefined : place.hasOverhang;
  return {
    kind: definition.id,
    shape: resolveShape(intake, definition, shape, { path: [...path, 'shape'], hasOverhang }),
    ...(own ? { overhang: own } : {}),
  };
}

/** Sides are known by their ids once there is an outline; here their pitches are read. */
function readSidePitches(intake: Intake, found: unknown, path: readonly PathPart[], rule: LengthRule): SidePitches {
  const entries = Object.entries(isRecord(found) ? found : {});
  return Object.fromEntries(
    entries.map(([side, value]) => [
      side,
      value === 'gable' ? value : readPitch(intake, value, [...path, side], { ...rule, label: `The pitch of ${side}` }),
    ]),
  );
}

const ruleOf = ({ label, min, max }: Extract<Param, { min: number }>): LengthRule => ({
  label,
  min,
  max,
  isScaled: true,
});

function allowedFor(param: TypedParam, intake: Intake): string {
  if (param.quantity === 'choice') return orList(param.choices.map((choice) => `"${choice.value}"`));
  if (param.quantity === 'length') return showBounds(ruleOf(param), intake);
  if (param.quantity === 'pitch') return `${formatPitch(param.min)} to ${formatPitch(param.max)}`;
  return `a whole number from ${param.min} to ${param.max}`;
}

import type { ShapeValues, TypedTier } from '../../core/project/project.ts';
import { fileKeysOf, type Param, type RoofDefinition, type RoofParam } from '../../core/roofs/definition.ts';
import type { Solid } from '../../core/solid/solid.ts';
import { formatMark, type Ruler, roundToRuler } from '../../core/units/units.ts';
import { exampleSolid } from './example.ts';
import type { Json, JsonObject } from './file-path.ts';
import {
  extents,
  figuresText,
  measuredValue,
  omit,
  planExtents,
  polygonBody,
  type RoofContext,
  rectangleBody,
  type Sizes,
  shapeOf,
  sizeText,
  usualOverhang,
} from './roof-edits.ts';

/** A length as a hand would choose it: on a whole mark of the usual ruler, if that leaves anything of it. */
export const handyText = (sizes: Sizes, mm: number): string => {
  const ruler: Ruler = sizes.units === 'in' ? '1/16in' : '1mm';
  const typed = mm / sizes.scale;
  return roundToRuler(typed, ruler).count === 0
    ? sizeText(sizes, mm)
    : formatMark(typed, ruler).replace(/ (in|mm)$/, '$1');
};

/** What the kind's first example gives, `factor` times as large, without its eave outline or with it. */
export const exampleShape = (
  definition: RoofDefinition,
  sizes: Sizes,
  factor: number,
  outline: OutlineSaid,
): JsonObject => shapeText(definition, definition.examples[0]?.shape ?? {}, { sizes, factor, outline });

type OutlineSaid = 'without outline' | 'with outline';

interface Enlarged {
  readonly sizes: Sizes;
  readonly factor: number;
  readonly outline: OutlineSaid;
}

const shapeText = (definition: RoofDefinition, shape: ShapeValues, how: Enlarged): JsonObject =>
  Object.fromEntries(
    definition.params.flatMap((param) => {
      const { sizes, factor, outline } = how;
      if (param.outline && outline === 'without outline') return [];
      return fileKeysOf(param).flatMap((key): (readonly [string, Json])[] => {
        const value = shape[key];
        if (value === undefined) return [];
        if (param.quantity === 'roof') return [[key, tierText(definition, param, value as TypedTier, how)]];
        if (param.quantity === 'wall') return [[key, wallText(value as Readonly<Record<string, number>>, how)]];
        const isLength = (param.quantity === 'length' || param.outline) && key !== 'angles';
        return [[key, isLength ? figuresText(value, (mm) => handyText(sizes, mm * factor)) : (value as Json)] as const];
      });
    }),
  );

/** A roof within the roof; one on the body leaves out its outline with the whole, one on the wall keeps its overhang. */
const tierText = ({ find }: RoofDefinition, param: RoofParam, tier: TypedTier, how: Enlarged): JsonObject => {
  const { kind, shape, overhang } = tier;
  const definition = find?.(kind);
  const outline = param.on === 'body' ? how.outline : 'with outline';
  return {
    kind,
    shape: definition ? shapeText(definition, shape, { ...how, outline }) : {},
    ...(overhang === undefined ? {} : { overhang: handyText(how.sizes, overhang * how.factor) }),
  };
};

const wallText = (wall: Readonly<Record<string, number>>, { sizes, factor }: Enlarged): JsonObject =>
  Object.fromEntries(Object.entries(wall).map(([key, mm]) => [key, handyText(sizes, mm * factor)]));

const riseOf = (solid: Solid | undefined | null): number | null =>
  solid === undefined || solid === null ? null : measuredValue(solid, 'rise');

/** How high the next kind is: the way it was said before where the kind knows that way, otherwise the rise. */
const carriedHeight = (context: RoofContext, next: RoofDefinition): JsonObject => {
  const typed = shapeOf(context.typed);
  const ways = next.params.filter((param) => param.oneOf === 'height').map((param) => param.key);
  const said = context.definition.params.find((param) => param.oneOf === 'height' && param.key in typed)?.key ?? 'rise';
  const key = ways.includes(said) ? said : 'rise';
  if (!next.params.some((param) => param.key === key)) return {};
  const given = typed[key];
  if (given !== undefined) return { [key]: given };
  const rise = riseOf(context.roof.made?.solid);
  return rise === null ? {} : { [key]: sizeText(context, rise) };
};

const standsAlone = (param: Param): boolean => param.oneOf === undefined && !param.outline && param.key !== 'rise';

/** What both kinds know and the maker has said: which way the ridge runs, where the pitch changes. */
const carriedRest = ({ typed, definition }: RoofContext, next: RoofDefinition): JsonObject => {
  const shape = shapeOf(typed);
  const isKnown = (param: Param): boolean =>
    definition.params.some((own) => own.key === param.key && own.quantity === param.quantity && standsAlone(own));
  return Object.fromEntries(
    next.params.flatMap((param) => {
      const value = standsAlone(param) && isKnown(param) ? shape[param.key] : undefined;
      return value === undefined ? [] : [[param.key, value] as const];
    }),
  );
};

const rest = (shape: JsonObject, next: RoofDefinition): JsonObject =>
  Object.fromEntries(
    next.params.flatMap((param) => {
      const value = standsAlone(param) ? shape[param.key] : undefined;
      return value === undefined ? [] : [[param.key, value] as const];
    }),
  );

/** An eave that is given by its sizes stays as it was typed where the next kind can be told all of them. */
const keptOutline = ({ typed, definition }: RoofContext, next: RoofDefinition): JsonObject[] => {
  if (typed['overhang'] !== undefined) return [];
  const keysOf = ({ params }: RoofDefinition): string[] => params.filter(({ outline }) => outline).flatMap(fileKeysOf);
  const shape = shapeOf(typed);
  const said = keysOf(definition).filter((key) => shape[key] !== undefined);
  const isKnown = said.length > 0 && said.every((key) => keysOf(next).includes(key));
  return isKnown ? [Object.fromEntries(said.map((key) => [key, shape[key] as Json]))] : [];
};

/**
 * Another kind of roof over the same body where it can stand there, with its height, and all else that carries over, as
 * it was given. What does not carry over comes from the kind's example, in proportion.
 */
export const changeKind = (context: RoofContext, next: RoofDefinition): JsonObject[] => {
  const { typed, roof } = context;
  const base = { ...typed, kind: next.id, overhang: typed['overhang'] ?? usualOverhang(context.units) };
  const sides = Number((typed['body'] as JsonObject | undefined)?.['sides'] ?? 8);
  const counts = next.params.some((param) => param.key === 'sides') ? { sides } : {};
  const model = exampleSolid(next);
  const rise = riseOf(roof.made?.solid);
  const modelRise = riseOf(model);
  const byHeight = rise !== null && modelRise !== null ? rise / modelRise : 1;
  const { width, depth } = extents(context);
  const modelSize = model === null ? null : planExtents(model);
  const byPlan = modelSize === null ? 1 : Math.min(width, depth) / Math.min(modelSize.width, modelSize.depth);

  const height = carriedHeight(context, next);
  const kept = { ...height, ...carriedRest(context, next) };
  const shapes: JsonObject[] = [
    { ...counts, ...kept },
    { ...rest(exampleShape(next, context, byHeight, 'without outline'), next), ...counts, ...kept },
    { ...height, ...rest(exampleShape(next, context, byHeight, 'without outline'), next), ...counts },
    { ...exampleShape(next, context, byPlan, 'without outline'), ...counts },
  ];
  const side = handyText(context, Math.min(width, depth));
  const bodies = [
    ...(typed['body'] === undefined ? [] : [typed['body']]),
    polygonBody(context, sides),
    rectangleBody(context),
    { ...rectangleBody(context), width: side, depth: side },
  ];
  return [
    ...keptOutline(context, next).flatMap((outline) =>
      shapes.map((shape): JsonObject => ({ ...typed, kind: next.id, shape: { ...outline, ...shape } })),
    ),
    ...bodies.flatMap((body) => shapes.map((shape): JsonObject => ({ ...base, shape, body }))),
    {
      ...omit(typed, ['overhang', 'body']),
      kind: next.id,
      shape: exampleShape(next, context, 1, 'with outline'),
    },
  ];
};

import { footprintKeys } from '../../core/footprint/footprint.ts';
import type { MadeRoof } from '../../core/make-roof.ts';
import type { ShapeValue, TierSpec } from '../../core/project/project.ts';
import { fileKeysOf, type RoofDefinition } from '../../core/roofs/definition.ts';
import { frontMeasures, measureSolid } from '../../core/solid/measure.ts';
import type { Solid } from '../../core/solid/solid.ts';
import { isSameLength } from '../../core/tolerance.ts';
import type { Units } from '../../core/units/units.ts';
import { exactPitch, exactText } from '../fields/typed-text.ts';
import { giveInstead } from './file-edits.ts';
import type { Json, JsonObject } from './file-path.ts';

/**
 * Changes of one roof that touch several keys. Each gives candidates in order of preference; the bench takes the first
 * that makes a roof, so that no choice leaves the maker with a table that cannot be laid.
 */

/** How a length in the model is typed. */
export interface Sizes {
  readonly units: Units;
  /** Model size over typed size. */
  readonly scale: number;
}

export interface RoofContext extends Sizes {
  /** The roof as typed and as made. */
  readonly typed: JsonObject;
  readonly roof: MadeRoof;
  readonly definition: RoofDefinition;
}

export const omit = (object: JsonObject, keys: readonly string[]): JsonObject =>
  Object.fromEntries(Object.entries(object).filter(([key]) => !keys.includes(key)));

export const shapeOf = (typed: JsonObject): JsonObject => (typed['shape'] ?? {}) as JsonObject;

export const sizeText = ({ units, scale }: Sizes, mm: number): string => exactText(mm / scale, units);

/** Width and depth in plan, mm; of nothing, a square to begin with. */
export const solidExtents = (
  points: readonly (readonly number[])[],
): { readonly width: number; readonly depth: number } => {
  const xs = points.map(([x = 0]) => x);
  const ys = points.map(([, y = 0]) => y);
  if (xs.length === 0) return { width: 40, depth: 40 };
  return { width: Math.max(...xs) - Math.min(...xs), depth: Math.max(...ys) - Math.min(...ys) };
};

/** Width and depth of the plan of a roof, mm: of its eave where it swells out over that. */
export const planExtents = ({ vertices, overhangs }: Solid): { readonly width: number; readonly depth: number } =>
  solidExtents(overhangs ? vertices.filter(([, , z]) => isSameLength(z, 0)) : vertices);

/** Width and depth of what a roof covers, mm. */
export const extents = ({ roof }: RoofContext): { readonly width: number; readonly depth: number } => {
  if (roof.spec.body) return solidExtents(roof.spec.body.outline);
  return roof.made ? planExtents(roof.made.solid) : solidExtents([]);
};

const outlineKeys = (definition: RoofDefinition): string[] =>
  definition.params.filter((param) => param.outline).flatMap(fileKeysOf);

/** A made value as text of the file: lengths in the project's units, pitches in degrees. */
const valueText = (context: RoofContext, definition: RoofDefinition, key: string, value: ShapeValue): Json => {
  const param = definition.params.find((one) => one.key === key);
  if (typeof value === 'string' || param?.quantity === 'count') return value as Json;
  if (typeof value === 'number') return param?.quantity === 'pitch' ? exactPitch(value) : sizeText(context, value);
  return figuresText(value, param?.quantity === 'side-pitches' ? exactPitch : (mm) => sizeText(context, mm));
};

/** Every number of a list or group, however deep, written out. */
export const figuresText = (value: ShapeValue | Json, write: (figure: number) => string): Json => {
  if (typeof value === 'number') return write(value);
  if (Array.isArray(value)) return value.map((entry) => figuresText(entry, write));
  if (typeof value !== 'object' || value === null) return value as Json;
  return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, figuresText(entry as Json, write)]));
};

/** The eave outline written out in sizes, in place of an overhang. */
export const typeOutline = (context: RoofContext): JsonObject[] => {
  const { typed, roof, definition } = context;
  const { body, overhang, shape } = roof.spec;
  if (overhang === null || body === null) return [typed];
  const outline = definition.outlineFromBody(body, overhang, shape, definition.find);
  if (!outline.ok) return [];
  // The eave of a roof of roofs is that of the one on the body.
  const under = definition.params.find((param) => param.quantity === 'roof' && param.on === 'body')?.key;
  const own = under === undefined ? definition : definition.find?.((shape[under] as TierSpec).kind);
  if (own === undefined) return [];
  const sizes = Object.fromEntries(
    Object.entries(outline.value).map(([key, value]) => [key, valueText(context, own, key, value)] as const),
  );
  const said = shapeOf(typed);
  const tier = (under === undefined ? {} : said[under]) as JsonObject;
  const next =
    under === undefined
      ? { ...sizes, ...said }
      : { ...said, [under]: { ...tier, shape: { ...sizes, ...shapeOf(tier) } } };
  return [{ ...omit(typed, ['overhang']), shape: next }];
};

const bodyHeight = (context: RoofContext): JsonObject => ({
  height: (context.typed['body'] as JsonObject | undefined)?.['height'] ?? (context.units === 'in' ? '3in' : '75mm'),
});

export const rectangleBody = (context: RoofContext): JsonObject => {
  const { width, depth } = extents(context);
  return { width: sizeText(context, width), depth: sizeText(context, depth), ...bodyHeight(context) };
};

export const polygonBody = (context: RoofContext, sides: number): JsonObject => {
  const { width, depth } = extents(context);
  return { sides, acrossFlats: sizeText(context, Math.min(width, depth)), ...bodyHeight(context) };
};

const roundBody = (context: RoofContext): JsonObject => {
  const { width, depth } = extents(context);
  return { diameter: sizeText(context, Math.min(width, depth)), ...bodyHeight(context) };
};

/** The body as it stands, said by its corners from the first of its front; round, by the square round it. */
const corneredBody = (context: RoofContext): JsonObject => {
  const { width, depth } = extents(context);
  const { body } = context.roof.spec;
  const outline = (body?.isRound ? null : body?.outline) ?? [
    [0, 0],
    [width, 0],
    [width, depth],
    [0, depth],
  ];
  const [[left, front] = [0, 0]] = outline;
  const corners = outline.map(([x, y]) => [sizeText(context, x - left), sizeText(context, y - front)]);
  const { courts } = (context.typed['body'] ?? {}) as JsonObject;
  return { corners, ...bodyHeight(context), ...(courts === undefined ? {} : { courts }) };
};

export const usualOverhang = (units: Units): string => (units === 'in' ? '1/8in' : '3mm');

/** The outline from the body and an overhang, in place of sizes. */
export const followBody = (context: RoofContext): JsonObject[] => {
  const { typed, roof, definition, units } = context;
  const least = roof.made?.fit.overhang?.min ?? 0;
  const overhang = least > 0.1 ? sizeText(context, least) : usualOverhang(units);
  const shape = omit(shapeOf(typed), outlineKeys(definition));
  const sides = Number(shapeOf(typed)['sides'] ?? 8);
  const bodies = [typed['body'], rectangleBody(context), polygonBody(context, sides)];
  return bodies.filter((body) => body !== undefined).map((body) => ({ ...typed, shape, overhang, body }));
};

export type BodyPlan = 'rectangle' | 'polygon' | 'round' | 'measured' | 'none';

export const bodyPlan = (typed: JsonObject | undefined): BodyPlan => {
  const body = typed?.['body'] as JsonObject | undefined;
  if (body === undefined) return 'none';
  if (footprintKeys.some((key) => body[key] !== undefined)) return 'measured';
  if (body['diameter'] !== undefined) return 'round';
  return body['sides'] === undefined ? 'rectangle' : 'polygon';
};

/** Another plan of the body, of about the same size. Where the outline cannot follow it, it is written out. */
export const changeBody = (context: RoofContext, plan: BodyPlan): JsonObject[] => {
  const { typed } = context;
  const written = typeOutline(context);
  if (plan === 'none') return written.map((roof) => omit(roof, ['body']));
  const sides = Number(shapeOf(typed)['sides'] ?? 8);
  const bodies: Readonly<Record<Exclude<BodyPlan, 'none'>, () => JsonObject>> = {
    rectangle: () => rectangleBody(context),
    polygon: () => polygonBody(context, sides),
    round: () => roundBody(context),
    measured: () => corneredBody(context),
  };
  const body = bodies[plan]();
  return [typed, ...written].map((roof) => ({ ...roof, body }));
};

/** What a member of a group would say of this roof: rise, pitch, slant, the pitch above a break; or the sizes of a regular outline. mm, radians. */
export const measuredValue = (solid: Solid, key: string): number | null => {
  const { face, pitch, slant } = frontMeasures(solid);
  const eaves = solid.edges.filter((edge) => edge.role === 'eave');
  const corner = (i: number | undefined): readonly [number, number] => {
    const [x, y] = solid.vertices[i ?? 0] ?? [0, 0];
    return [x, y];
  };
  const middles = eaves.map((edge) => {
    const [a, b] = [corner(edge.ends[0]), corner(edge.ends[1])];
    return Math.hypot((a[0] + b[0]) / 2, (a[1] + b[1]) / 2);
  });
  const values: Readonly<Record<string, () => number | null>> = {
    rise: () => measureSolid(solid).rise,
    pitch: () => pitch,
    slant: () => slant,
    upperPitch: () => pitchAbove(solid, face),
    side: () => eaves[0]?.length ?? null,
    acrossCorners: () => 2 * Math.max(...eaves.map((edge) => Math.hypot(...corner(edge.ends[0])))),
    acrossFlats: () => (eaves.length % 2 === 0 ? 2 * Math.min(...middles) : null),
  };
  return values[key]?.() ?? null;
};

/** Pitch of the panel above a break on the same side as this face; null where there is none. */
const pitchAbove = (solid: Solid, face: number): number | null => {
  const above = solid.faces.findLastIndex(({ side, part }) => part === 'slope' && side === solid.faces[face]?.side);
  return above === face ? null : (measureSolid(solid).faces[above]?.pitch ?? null);
};

/** Gives another member of a group, at the value the roof has now: nothing on the table changes. */
export const giveMember = (context: RoofContext, group: readonly string[], key: string): JsonObject[] => {
  const value = context.roof.made === null ? null : measuredValue(context.roof.made.solid, key);
  if (value === null) return [];
  const text = valueText(context, context.definition, key, value);
  return [{ ...context.typed, shape: giveInstead(shapeOf(context.typed), group, key, text) }];
};

import { footprintKeys } from '../../core/footprint/footprint.ts';
import { type SideName, sideNames } from '../../core/footprint/sides.ts';
import { at } from '../../core/geometry/polygon.ts';
import { cross2, dot2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import { MM_PER_INCH, parseLength, type Units } from '../../core/units/units.ts';
import { exactText } from '../fields/typed-text.ts';
import { giveInstead } from '../state/file-edits.ts';
import { getAt, type Json, type JsonObject } from '../state/file-path.ts';
import { omit } from '../state/roof-edits.ts';
import type { Edited, Rings, Spot } from './plan-edits.ts';

/** All keys by which a body or a shape says its plan; courts stand beside them. */
const planKeys: readonly string[] = [
  'width',
  'depth',
  'sides',
  'side',
  'acrossCorners',
  'acrossFlats',
  'diameter',
  ...footprintKeys,
];

/** A plan as it was made of the file, model size. */
export interface MadePlan {
  readonly outline: readonly Vec2[];
  readonly courts?: readonly (readonly Vec2[])[] | undefined;
}

const isList = (value: Json | undefined): value is readonly Json[] => Array.isArray(value);

const typedPoint = (value: Json): Vec2 | null => {
  const figures = (isList(value) ? value : []).map((one) =>
    typeof one === 'number' || typeof one === 'string' ? parseLength(one, { negative: 'allow' }) : null,
  );
  const [x, y] = figures;
  return x?.ok && y?.ok ? [x.value, y.value] : null;
};

const typedRing = (value: Json | undefined): readonly Vec2[] | null => {
  const points = (isList(value) ? value : []).map(typedPoint);
  const whole = points.filter((point) => point !== null);
  return whole.length === points.length && whole.length > 0 ? whole : null;
};

/**
 * The plan of a body or shape as its corners are typed; said in another way it is the one that was made of it, at typed
 * size, from the first corner of its front. Null where there is none yet.
 */
export const readPlan = (group: JsonObject, made: MadePlan | null, scale: number): Rings | null => {
  const outline = typedRing(group['corners']);
  const courts = (isList(group['courts']) ? group['courts'] : []).map(typedRing);
  if (outline !== null) return [outline, ...courts.filter((court) => court !== null)];
  if (made === null) return null;
  const first = at(made.outline, 0);
  const shift = (p: Vec2): Vec2 => {
    const [x, y] = sub2(p, first);
    return [x / scale, y / scale];
  };
  return [made.outline, ...(made.courts ?? [])].map((ring) => ring.map(shift));
};

/** A length of a side to be read and typed over: exact where it lies on a mark, otherwise to what a hand can set. */
export const lengthText = (mm: number, units: Units): string => {
  const text = exactText(mm, units);
  if (!/\d\.\d{2}/.test(text)) return text;
  return units === 'in' ? `${Number((mm / MM_PER_INCH).toFixed(3))}in` : `${Number(mm.toFixed(1))}mm`;
};

const NO_TEXT = new Map<string, Json>();

/** The typed text of every corner, by the place that was read from it. */
const textsOf = (group: JsonObject, rings: Rings): ReadonlyMap<string, Json> => {
  if (group['corners'] === undefined) return NO_TEXT;
  const typed = [group['corners'], ...(isList(group['courts']) ? group['courts'] : [])];
  return new Map(
    rings.flatMap((points, ring) =>
      points.flatMap((point, index) => {
        const text = getAt(typed[ring], [index]);
        return text === undefined ? [] : [[point.join(), text] as const];
      }),
    ),
  );
};

/** The group with its plan said by corners. Corners that were typed and are untouched stay as they were typed. */
export const writePlan = (
  group: JsonObject,
  before: Rings,
  { rings }: Pick<Edited, 'rings'>,
  units: Units,
): JsonObject => {
  const texts = textsOf(group, before);
  const text = (point: Vec2): Json => texts.get(point.join()) ?? point.map((mm) => exactText(mm, units));
  const [outline = [], ...courts] = rings;
  const cornered = giveInstead(group, planKeys, 'corners', outline.map(text));
  if (courts.length === 0) return omit(cornered, ['courts']);
  return { ...cornered, courts: courts.map((court) => court.map(text)) };
};

/**
 * The group with one length typed on a side, said where it was measured: as the width or depth, among the lengths, as the
 * side of a regular plan. Null where the plan is said by its corners, or for a side of a court.
 */
export const typeLength = (group: JsonObject, { ring, index }: Spot, value: Json): JsonObject | null => {
  if (ring > 0 || group['corners'] !== undefined) return null;
  const lengths = group['lengths'];
  if (isList(lengths)) return { ...group, lengths: lengths.with(index, value) };
  if (group['sides'] !== undefined) return giveInstead(group, ['side', 'acrossCorners', 'acrossFlats'], 'side', value);
  if (group['width'] === undefined) return null;
  return { ...group, [index % 2 === 0 ? 'width' : 'depth']: value };
};

/** Turned so that the front side runs level, as the plan stands in the end; mm from its first corner. */
const levelled = (rings: Rings): Rings => {
  const [first, second] = [at(rings[0] ?? [], 0), at(rings[0] ?? [], 1)];
  const along = unit2(sub2(second, first));
  return rings.map((ring) =>
    ring.map((p): Vec2 => {
      const own = sub2(p, first);
      return [dot2(along, own), cross2(along, own)];
    }),
  );
};

/** The name of every side, ring by ring, side by side as the corners run. */
export const namesOf = (rings: Rings): readonly (readonly SideName[])[] => {
  const [outline = [], ...courts] = levelled(rings);
  const names = sideNames([outline, ...courts.map((court) => court.toReversed())]);
  let first = 0;
  return rings.map((points, ring) => {
    const own = names.slice(first, first + points.length);
    first += points.length;
    // A court is named clockwise: its last but one corner is where its first named side begins.
    return ring === 0 ? own : points.map((_, index) => at(own, points.length - 2 - index));
  });
};

/** What was typed for single sides, carried over to what these sides are called after an edit. */
export const carrySides = (said: JsonObject, before: Rings, { rings, from }: Edited): JsonObject => {
  const oldNames = namesOf(before);
  return Object.fromEntries(
    namesOf(rings).flatMap((names, ring) =>
      names.flatMap(({ id }, index) => {
        const spot = from[ring]?.[index];
        const old = spot === undefined ? undefined : oldNames[spot.ring]?.[spot.index];
        const value = old === undefined ? undefined : said[old.id];
        return value === undefined ? [] : [[id, value] as const];
      }),
    ),
  );
};

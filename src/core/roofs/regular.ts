import { at } from '../geometry/polygon.ts';
import { distance2, length2, type Vec2 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Body, Overhang, ShapeValues } from '../project/project.ts';
import { titleCase, windOf } from '../solid/compass.ts';
import { isSameLength } from '../tolerance.ts';
import type { CountParam, LengthParam } from './definition.ts';

/** How many sides a regular plan has where nothing else is said. */
export const USUAL_SIDES = 8;

export const sidesParam: CountParam & { readonly key: 'sides' } = {
  key: 'sides',
  label: 'Sides',
  help: 'How many panels go round.',
  quantity: 'count',
  min: 3,
  max: 24,
  default: USUAL_SIDES,
};

type SizeParam<Key extends string> = LengthParam & { readonly key: Key };

/** The three ways to say how large a regular plan is; exactly one is given. */
export const regularParams: readonly [SizeParam<'side'>, SizeParam<'acrossCorners'>, SizeParam<'acrossFlats'>] = [
  {
    key: 'side',
    label: 'Side',
    help: 'Length of one eave.',
    quantity: 'length',
    min: 2,
    max: 1500,
    oneOf: 'plan',
    outline: true,
  },
  {
    key: 'acrossCorners',
    label: 'Across corners',
    help: 'Diameter of the circle through the corners of the eave.',
    quantity: 'length',
    min: 5,
    max: 2000,
    oneOf: 'plan',
    outline: true,
  },
  {
    key: 'acrossFlats',
    label: 'Across flats',
    help: 'From one eave straight across to the opposite one; even numbers of sides only.',
    quantity: 'length',
    min: 5,
    max: 2000,
    oneOf: 'plan',
    outline: true,
  },
];

export interface RegularSize {
  readonly side?: number;
  readonly acrossCorners?: number;
  readonly acrossFlats?: number;
}

/** Centre to the middle of an eave, mm. */
export function apothemFrom({ side, acrossCorners, acrossFlats }: RegularSize, sides: number): Result<number> {
  if (side !== undefined) return succeed(side / (2 * Math.tan(Math.PI / sides)));
  if (acrossFlats === undefined) return succeed(((acrossCorners ?? 0) / 2) * Math.cos(Math.PI / sides));
  return sides % 2 === 0 ? succeed(acrossFlats / 2) : fail(oddAcrossFlats(sides, 'shape.acrossFlats'));
}

/** Corners of a regular outline, counter-clockwise round the origin; its first side faces south. */
export const regularCorners = (sides: number, apothem: number): readonly Vec2[] => {
  const radius = apothem / Math.cos(Math.PI / sides);
  return Array.from({ length: sides }, (_, i): Vec2 => {
    const angle = -Math.PI / 2 + ((2 * i - 1) * Math.PI) / sides;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
};

export interface SideName {
  readonly id: string;
  readonly title: string;
}

/** Sixteen winds tell up to sixteen sides apart; beyond that they are numbered from the south. */
export const regularSides = (sides: number): readonly SideName[] =>
  Array.from({ length: sides }, (_, i) => {
    if (sides > 16) return { id: `side-${i + 1}`, title: `Side ${i + 1}` };
    const facing = -Math.PI / 2 + (2 * i * Math.PI) / sides;
    const id = windOf(Math.cos(facing), Math.sin(facing));
    return { id, title: titleCase(id) };
  });

/** The side of the eave outline over a regular body with as many sides. */
export const regularWithEave = (
  { outline }: Body,
  { eave }: Overhang,
  { sides = USUAL_SIDES }: { readonly sides?: number },
): Result<ShapeValues> => {
  if (outline.length !== sides) return fail(unlikeBody(outline.length, sides));
  const lengths = outline.map((p, i) => distance2(p, at(outline, i + 1)));
  // A rhombus has equal sides too; on a regular plan all corners lie as far from the middle as well.
  const radii = outline.map((p) => length2(p));
  const isAlike = (sizes: readonly number[]): boolean => isSameLength(Math.min(...sizes), Math.max(...sizes));
  if (!isAlike(lengths) || !isAlike(radii)) return fail(unevenBody);
  const apothem = Math.hypot(...at(outline, 0)) * Math.cos(Math.PI / sides);
  return succeed({ side: 2 * (apothem + eave) * Math.tan(Math.PI / sides) });
};

export const oddAcrossFlats = (sides: number, path: string): Issue => ({
  level: 'error',
  code: 'odd-across-flats',
  path,
  numbers: { sidesCount: sides },
  message: 'With {sidesCount} sides no eave lies opposite another, so there is no size across flats.',
  remedy: 'Give the side or the size across corners, or take an even number of sides.',
});

const unlikeBody = (found: number, wanted: number): Issue => ({
  level: 'error',
  code: 'body-sides-differ',
  path: 'body',
  numbers: { foundCount: found, wantedCount: wanted },
  message: 'An overhang needs a body like the roof: the body has {foundCount} sides, the roof {wantedCount}.',
  remedy: 'Give the body as many sides as the roof, or give the outline in the shape instead of an overhang.',
});

const unevenBody: Issue = {
  level: 'error',
  code: 'body-not-regular',
  path: 'body',
  message: 'This kind of roof stands on a regular plan, but that of the body is none.',
  remedy: 'Give the body by its sides and one size, or give the outline in the shape instead of an overhang.',
};

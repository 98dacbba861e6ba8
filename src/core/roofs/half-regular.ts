import { boxOf } from '../geometry/polygon.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Body, Overhang, ShapeValues } from '../project/project.ts';
import { CUT_MM } from '../tolerance.ts';
import type { LengthParam } from './definition.ts';

/** How large half of a regular plan is. */
export const wallWidthParam: LengthParam & { readonly key: 'width'; readonly outline: true } = {
  key: 'width',
  label: 'Width',
  help: 'Along the wall, from where one eave meets it to where the other does.',
  quantity: 'length',
  min: 5,
  max: 2000,
  outline: true,
};

/** A wall runs through opposite corners of the whole plan, or through the middles of opposite sides. */
export type Cut = 'corners' | 'flats';

export interface HalfRegular {
  /** Of the whole plan; even. */
  readonly sides: number;
  readonly cut: Cut;
  /** Along the wall, mm. */
  readonly width: number;
}

/** Middle of the wall to the middle of a whole eave, mm. */
export const halfApothem = ({ sides, cut, width }: HalfRegular): number =>
  (width / 2) * (cut === 'corners' ? Math.cos(Math.PI / sides) : 1);

/** Half of a regular outline in front of a wall at y = 0: its free eaves from left to right. */
export function halfRegular({ sides, cut, width }: HalfRegular): readonly Vec2[] {
  const half = width / 2;
  const radius = cut === 'corners' ? half : half / Math.cos(Math.PI / sides);
  // Counted from the wall on the left: whole sides lie between corners, and a wall through middles begins with half a side.
  const [count, first] = cut === 'corners' ? [sides / 2 - 1, 1] : [sides / 2, 0.5];
  const between = Array.from({ length: count }, (_, i): Vec2 => {
    const angle = Math.PI + (2 * Math.PI * (i + first)) / sides;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
  return [[-half, 0], ...between, [half, 0]];
}

/** The width of the eave outline over a body that is half of such a plan, its longest wall behind. */
export function halfWithEave(
  { outline }: Body,
  { eave }: Overhang,
  { sides, cut }: Pick<HalfRegular, 'sides' | 'cut'>,
): Result<ShapeValues> {
  const { minX, maxX, maxY } = boxOf(outline);
  const width = maxX - minX;
  const wanted = halfRegular({ sides, cut, width }).map(([x, y]): Vec2 => [x + (minX + maxX) / 2, y + maxY]);
  const isLike =
    outline.length === wanted.length && wanted.every((p) => outline.some((q) => distance2(p, q) <= CUT_MM));
  if (!isLike) return fail(notHalf(wanted.length - 1));
  return succeed({ width: width + (2 * eave) / (cut === 'corners' ? Math.cos(Math.PI / sides) : 1) });
}

const notHalf = (wanted: number): Issue => ({
  level: 'error',
  code: 'body-not-half-regular',
  path: 'body',
  numbers: { wantedCount: wanted },
  message:
    'This roof stands on half of a regular plan with {wantedCount} walls round the front, but the body is no such thing.',
  remedy: 'Measure the body by its corners, or give the width in the shape instead of an overhang.',
});

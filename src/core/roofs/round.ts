import { boxOf } from '../geometry/polygon.ts';
import { distance2, length2, type Vec2 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Body, Overhang, ShapeValues } from '../project/project.ts';
import { CUT_MM, isSameLength } from '../tolerance.ts';
import type { ChoiceParam, LengthParam } from './definition.ts';

/** A round eave outline, shared by every kind that stands on one. */
export const diameterParam: LengthParam & { readonly key: 'diameter' } = {
  key: 'diameter',
  label: 'Diameter',
  help: 'Across the circle of the eave.',
  quantity: 'length',
  min: 5,
  max: 2000,
  outline: true,
};

/** The circle that stands out beyond the corners of a body by the overhang. */
export const circleWithEave = ({ outline }: Body, { eave }: Overhang): Result<ShapeValues> =>
  succeed({ diameter: 2 * (Math.max(...outline.map(length2)) + eave) });

/** What closes the straight back of a roof that leans against a wall. */
export const backParam = {
  key: 'back',
  label: 'Back',
  help: 'An upright panel to glue to the wall behind, or nothing.',
  quantity: 'choice',
  default: 'wall',
  choices: [
    { value: 'wall', label: 'Panel' },
    { value: 'open', label: 'Open' },
  ],
} as const satisfies ChoiceParam;

/** Over half of a round or regular body, its back to the wall: as far out all round as the overhang, flush behind. */
export function halfCircleWithEave({ outline }: Body, { eave }: Overhang): Result<ShapeValues> {
  const { minX, maxX, maxY } = boxOf(outline);
  const middle: Vec2 = [(minX + maxX) / 2, maxY];
  const radius = Math.max(...outline.map((p) => distance2(p, middle)));
  const isHalf = outline.every((p) => isSameLength(p[1], maxY) || Math.abs(distance2(p, middle) - radius) <= CUT_MM);
  return isHalf && outline.length > 4 ? succeed({ diameter: 2 * (radius + eave) }) : fail(notHalfRound);
}

const notHalfRound: Issue = {
  level: 'error',
  code: 'body-not-half-round',
  path: 'body',
  message: 'This kind of roof stands on half a circle with its back to a wall, but the body is no such thing.',
  remedy: 'Measure the body by its corners, or give the diameter in the shape instead of an overhang.',
};

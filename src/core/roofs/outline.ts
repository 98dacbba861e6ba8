import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Body, Overhang, ShapeValues } from '../project/project.ts';
import { CUT_MM } from '../tolerance.ts';
import type { LengthParam } from './definition.ts';

/** A rectangular eave outline, shared by every kind that stands on one. */
export const rectangleParams: readonly [
  LengthParam & { readonly key: 'width' },
  LengthParam & { readonly key: 'depth' },
] = [
  {
    key: 'width',
    label: 'Width',
    help: 'Eave to eave from left to right (west to east).',
    quantity: 'length',
    min: 5,
    max: 2000,
    outline: true,
  },
  {
    key: 'depth',
    label: 'Depth',
    help: 'Eave to eave from front to back (south to north).',
    quantity: 'length',
    min: 5,
    max: 2000,
    outline: true,
  },
];

/** Width and depth of the eave outline over a rectangular body. */
export function rectangleFromBody(body: Body, x: number, y: number): Result<ShapeValues> {
  if (!body.rectangle) return fail(needsRectangle);
  return succeed({ width: body.rectangle.width + 2 * x, depth: body.rectangle.depth + 2 * y });
}

export const rectangleWithEave = (body: Body, { eave }: Overhang): Result<ShapeValues> =>
  rectangleFromBody(body, eave, eave);

const needsRectangle: Issue = {
  level: 'error',
  code: 'body-not-rectangular',
  path: 'body',
  message: 'This kind of roof has a rectangular outline, but the body is a regular polygon.',
  remedy: 'Give the body a width and a depth, or give the outline in the shape instead of an overhang.',
};

export function checkPeakOffset(offset: number, half: number, path: string): Issue[] {
  const most = half - CUT_MM;
  if (Math.abs(offset) <= most) return [];
  return [
    {
      level: 'error',
      code: 'peak-outside',
      path,
      numbers: { found: offset, least: -most, most },
      message: 'The peak would stand {found} off the centre, outside the eave outline.',
      remedy: 'Keep it between {least} and {most}.',
    },
  ];
}

/** A square eave outline, shared by the kinds that stand on one. */
export const squareParam: LengthParam & { readonly key: 'width'; readonly outline: true } = {
  key: 'width',
  label: 'Width',
  help: 'Eave to eave, the same both ways.',
  quantity: 'length',
  min: 5,
  max: 2000,
  outline: true,
};

export const squareWithEave = (body: Body, { eave }: Overhang): Result<ShapeValues> =>
  body.rectangle && body.rectangle.width === body.rectangle.depth
    ? succeed({ width: body.rectangle.width + 2 * eave })
    : fail(needsSquare);

const needsSquare: Issue = {
  level: 'error',
  code: 'body-not-square',
  path: 'body',
  message: 'This kind of roof stands on a square, but the body is not one.',
  remedy: 'Make the body square, or give the outline in the shape instead of an overhang.',
};

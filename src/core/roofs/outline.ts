import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Body, Overhang, ShapeValues } from '../project/project.ts';
import type { ChoiceParam, LengthParam } from './definition.ts';

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
function rectangleFromBody(body: Body, x: number, y: number): Result<ShapeValues> {
  if (!body.rectangle) return fail(needsRectangle);
  return succeed({ width: body.rectangle.width + 2 * x, depth: body.rectangle.depth + 2 * y });
}

export const rectangleWithEave = (body: Body, { eave }: Overhang): Result<ShapeValues> =>
  rectangleFromBody(body, eave, eave);

export const needsRectangle: Issue = {
  level: 'error',
  code: 'body-not-rectangular',
  path: 'body',
  message: 'This kind of roof has a rectangular outline, but the body is none.',
  remedy: 'Give the body a width and a depth, or give the outline in the shape instead of an overhang.',
};

/** How far out a peak may lie, as a share of the way to the eave. */
const PEAK_SHARE = 0.998;

export function checkPeakOffset(offset: number, half: number, path: string): Issue[] {
  // Over the eave itself a panel would have no width left.
  const most = PEAK_SHARE * half;
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

/** Which way a ridge runs. */
export const ridgeParam: ChoiceParam & { readonly key: 'ridge' } = {
  key: 'ridge',
  label: 'Ridge',
  help: 'Which way the ridge runs.',
  quantity: 'choice',
  default: 'along-width',
  choices: [
    { value: 'along-width', label: 'Along the width' },
    { value: 'along-depth', label: 'Along the depth' },
  ],
};

/** What closes gable ends. */
export const endsParam: ChoiceParam & { readonly key: 'ends' } = {
  key: 'ends',
  label: 'Gable ends',
  help: 'End walls as panels of the roof, flush with the body, or no end walls.',
  quantity: 'choice',
  default: 'walls',
  choices: [
    { value: 'walls', label: 'Walls' },
    { value: 'open', label: 'Open' },
  ],
};

/** End walls stand on a rectangular body. */
export const checkWallBody = (body: Body | null, ends: string | undefined): readonly Issue[] =>
  body && !body.rectangle && ends !== 'open' ? [wallsNeedRectangle] : [];

const wallsNeedRectangle: Issue = {
  level: 'error',
  code: 'body-not-rectangular',
  path: 'body',
  message: 'The end walls stand on the body, so it has to be rectangular; this one is not.',
  remedy: 'Give the body a width and a depth, or leave the gable ends open.',
};

/** The eave outline over a body when the eave stands out along the slopes and the verge at the gable ends. */
export const gableFromBody = (body: Body, { eave, verge }: Overhang, ridge: string | undefined): Result<ShapeValues> =>
  ridge === 'along-depth' ? rectangleFromBody(body, eave, verge) : rectangleFromBody(body, verge, eave);

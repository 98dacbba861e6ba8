import type { Vec2 } from '../../geometry/vector.ts';
import type { Result } from '../../issue.ts';
import type { Body } from '../../project/project.ts';
import { titleCase } from '../../solid/compass.ts';
import type { Solid } from '../../solid/solid.ts';
import { type Band, raiseRoof } from './raise-roof.ts';

export const winds = ['south', 'east', 'north', 'west'] as const;

export type Wind = (typeof winds)[number];

export interface RectangleRoof {
  /** Eave outline, mm. */
  readonly width: number;
  readonly depth: number;
  /** Pitches of each side from the eave up. */
  readonly bands: Readonly<Record<Wind, readonly Band[]>>;
  /** The roof ends in a flat top at this level. */
  readonly top?: number;
  /** Sides with a wall under the slopes, on the body's walls; without a body on the outline. */
  readonly walls: readonly Wind[];
  readonly body: Body | null;
}

/** A roof over a rectangle, its sides named after the winds; a side with bands is a slope, others are gable ends. */
export function raiseRectangle({ width, depth, bands, top, walls, body }: RectangleRoof): Result<Solid> {
  const lines = wallLines({ width, depth, body });
  return raiseRoof({
    rings: [rectangle(width, depth)],
    sides: winds.map((id) => ({ id, title: titleCase(walls.length > 0 ? `${id} slope` : id), bands: bands[id] })),
    ...(top === undefined ? {} : { top }),
    walls: walls.map((id) => ({ id, title: `${titleCase(id)} gable`, ...lines[id] })),
  });
}

/** Where walls under a rectangular roof stand: on the body's walls, without a body on the outline. */
export function wallLines({
  width,
  depth,
  body,
}: Pick<RectangleRoof, 'width' | 'depth' | 'body'>): Readonly<
  Record<Wind, { readonly from: Vec2; readonly to: Vec2 }>
> {
  // A body that stands out beyond the roof is reported by the fit; its walls are then taken at the outline.
  const corners = rectangle(
    Math.min(width, body?.rectangle?.width ?? width),
    Math.min(depth, body?.rectangle?.depth ?? depth),
  );
  return Object.fromEntries(
    winds.map((wind, i) => [wind, { from: corners[i] as Vec2, to: corners[(i + 1) % 4] as Vec2 }]),
  ) as Record<Wind, { readonly from: Vec2; readonly to: Vec2 }>;
}

/** Counter-clockwise from the south-west corner, so that side i faces wind i. */
const rectangle = (width: number, depth: number): readonly Vec2[] => {
  const [x, y] = [width / 2, depth / 2];
  return [
    [-x, -y],
    [x, -y],
    [x, y],
    [-x, y],
  ];
};

/** The winds that slopes and ends face when the ridge runs this way. */
export const ridgeWinds = (
  ridge: string | undefined,
): { readonly slopes: readonly [Wind, Wind]; readonly ends: readonly [Wind, Wind] } =>
  ridge === 'along-depth'
    ? { slopes: ['east', 'west'], ends: ['south', 'north'] }
    : { slopes: ['south', 'north'], ends: ['east', 'west'] };

/** The end that stays a gable where only one is hipped: never the back, so that no end slope becomes the front panel. */
export const gableEnd = (ridge: string | undefined): Wind => (ridge === 'along-depth' ? 'south' : 'west');

/** Bands for all four sides: one list for the slopes, one for the ends. */
export function bandsBy(
  { slopes, ends }: ReturnType<typeof ridgeWinds>,
  onSlopes: readonly Band[],
  onEnds: readonly Band[],
): Readonly<Record<Wind, readonly Band[]>> {
  return Object.fromEntries([
    ...slopes.map((wind) => [wind, onSlopes]),
    ...ends.map((wind) => [wind, onEnds]),
  ]) as Record<Wind, readonly Band[]>;
}

import { ringsOf, standOut } from '../footprint/offset.ts';
import { sideNames } from '../footprint/sides.ts';
import { at, ringArea } from '../geometry/polygon.ts';
import { add2, cross2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Body, Overhang, ShapeValues } from '../project/project.ts';
import { frontMeasures, measureSolid } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { type Band, raiseRoof } from './construct/raise-roof.ts';
import type { FootprintParam } from './definition.ts';
import { riseFrom } from './height.ts';

/** A plan that is no rectangle, shared by every kind that stands on any outline. */
export const footprintParam: FootprintParam & { readonly optional: true } = {
  key: 'corners',
  label: 'Measured plan',
  help: 'The eave outline by its corners or the lengths of its sides, in place of width and depth.',
  quantity: 'footprint',
  outline: true,
  optional: true,
};

/** Width and depth of the eave outline over a rectangle, its corners over any other body. */
export function planWithEave(body: Body, { eave }: Overhang): Result<ShapeValues> {
  if (body.rectangle) {
    const { width, depth } = body.rectangle;
    return succeed({ width: width + 2 * eave, depth: depth + 2 * eave });
  }
  if (body.isRound) return fail(needsCorners);
  const plan = standOut(
    { corners: body.outline },
    Array.from(body.outline, () => eave),
  );
  return plan.ok ? succeed({ corners: plan.value.corners }) : plan;
}

/** A circle has no sides to raise slopes from. */
export const needsCorners: Issue = {
  level: 'error',
  code: 'body-round',
  path: 'body',
  message: 'This kind of roof has a slope over every side of its plan, but the body is round.',
  remedy: 'Take a cone, give the body corners, or give the outline in the shape instead of an overhang.',
};

/** The same slope over every side of an outline. */
export function raiseEvenly(corners: readonly Vec2[], bands: readonly Band[], top?: number): Result<Solid> {
  const rings = ringsOf({ corners });
  return raiseRoof({
    rings,
    sides: sideNames(rings).map((name) => ({ ...name, bands })),
    ...(top === undefined ? {} : { top }),
    walls: [],
  });
}

const EVEN = Math.PI / 4;

/** How high slopes of one to one meet over an outline, mm: the farthest that a point of it lies from all sides. */
export function evenRise(corners: readonly Vec2[]): Result<number> {
  const even = raiseEvenly(corners, [{ level: 0, pitch: EVEN }]);
  return even.ok ? succeed(measureSolid(even.value).rise) : even;
}

/**
 * The one pitch of a roof from its rise, pitch or slant, radians. Heights over a plan grow with the tangent of the pitch
 * all alike, gables or not, so `raise` at one to one tells everything.
 */
export function evenPitch(
  given: { readonly rise?: number; readonly pitch?: number; readonly slant?: number },
  raise: (pitch: number) => Result<Solid>,
): Result<number> {
  if (given.pitch !== undefined) return succeed(given.pitch);
  const even = raise(EVEN);
  if (!even.ok) return even;
  if (given.rise !== undefined) return succeed(Math.atan2(given.rise, measureSolid(even.value).rise));
  const { run } = frontMeasures(even.value);
  const rise = riseFrom(given, run);
  return rise.ok ? succeed(Math.atan2(rise.value, run)) : rise;
}

/** The centroid of the area, mm. */
export function centroid(ring: readonly Vec2[]): Vec2 {
  const origin = ring[0] as Vec2;
  const sum = ring.reduce<Vec2>(
    (total, p, i) => {
      const [a, b] = [sub2(p, origin), sub2(at(ring, i + 1), origin)];
      return add2(total, scale2(add2(a, b), cross2(a, b) / 6));
    },
    [0, 0],
  );
  return add2(origin, scale2(sum, 1 / ringArea(ring)));
}

/** How far a point lies inside the line of each side, mm; negative outside. */
export const depthsInside = (ring: readonly Vec2[], p: Vec2): readonly number[] =>
  ring.map((a, i) => cross2(unit2(sub2(at(ring, i + 1), a)), sub2(p, a)));

/** How far inside every side a peak stands at least, as a share of how far it stands inside the farthest. */
const LEAST_SHARE = 0.01;

/** A peak that some side cannot see would turn its panel over. */
export function checkPeakInSight(depths: readonly number[]): readonly Issue[] {
  const least = LEAST_SHARE * Math.max(...depths);
  const side = depths.findIndex((depth) => depth < least);
  if (side < 0) return [];
  return [
    {
      level: 'error',
      code: 'peak-out-of-sight',
      path: 'shape.peakX',
      numbers: { sideCount: side + 1, found: depths[side] as number, least },
      message: 'The peak does not stand inside side {sideCount} of the plan.',
      remedy: 'Move it with peakX and peakY until it stands {least} or more inside every side, or take a hip.',
    },
  ];
}

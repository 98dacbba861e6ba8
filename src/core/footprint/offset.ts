import { at } from '../geometry/polygon.ts';
import { add2, cross2, dot2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { isPositive } from '../tolerance.ts';
import { checkCourts, checkRing } from './check-ring.ts';

/** A plan: the outline and its courts, each counter-clockwise and not closed. mm */
export interface Plan {
  readonly corners: readonly Vec2[];
  readonly courts?: readonly (readonly Vec2[])[] | undefined;
}

/** As slopes need them: the outline counter-clockwise, courts clockwise, so that the building lies left of every side. */
export const ringsOf = ({ corners, courts = [] }: Plan): readonly (readonly Vec2[])[] => [
  corners,
  ...courts.map((court) => court.toReversed()),
];

/**
 * The plan with every side moved straight out of the building, those of courts into the court, each by its own distance
 * (edge by edge of `ringsOf`). Fails where a side would vanish or meet another.
 */
export function standOut(plan: Plan, distances: readonly number[]): Result<Plan> {
  let first = 0;
  const rings = ringsOf(plan).map((ring) => {
    const own = distances.slice(first, first + ring.length);
    first += ring.length;
    return moveSides(ring, own);
  });
  const moved = rings.flatMap((ring, r) =>
    ring.map((p, i) => [ringsOf(plan)[r] as readonly Vec2[], p, i, ring] as const),
  );
  const turnedRound = moved.some(([before, p, i, ring]) => {
    const along = sub2(at(before, i + 1), at(before, i));
    return !isPositive(dot2(sub2(at(ring, i + 1), p), along));
  });
  const [corners = [], ...inner] = rings;
  const courts = inner.map((ring) => ring.toReversed());
  const wrong = turnedRound || checkRing(corners, '', 0).length > 0 || checkCourts(courts, corners, 0).length > 0;
  if (wrong) return fail(tooFarOut(Math.max(...distances)));
  return succeed(courts.length === 0 ? { corners } : { corners, courts });
}

function moveSides(ring: readonly Vec2[], distances: readonly number[]): readonly Vec2[] {
  const lines = ring.map((p, i) => {
    const [x, y] = unit2(sub2(at(ring, i + 1), p));
    return { from: add2(p, scale2([y, -x], distances[i] ?? 0)), along: [x, y] as Vec2 };
  });
  return lines.map(({ from, along }, i) => {
    const before = at(lines, i - 1);
    const t = cross2(sub2(from, before.from), along) / cross2(before.along, along);
    return add2(before.from, scale2(before.along, t));
  });
}

const tooFarOut = (found: number): Issue => ({
  level: 'error',
  code: 'overhang-too-wide',
  path: 'overhang',
  numbers: { found },
  message: 'With an overhang of {found} eaves would meet across a corner or a court of the body.',
  remedy: 'Make the overhang less.',
});

import { boxOf } from '../geometry/polygon.ts';
import { add2, distance2, lerp2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { fail, hasError, type Issue, type Result, succeed } from '../issue.ts';
import { CUT_MM } from '../tolerance.ts';
import { checkCourts, checkRing } from './check-ring.ts';
import {
  anglesEvened,
  anglesSum,
  closedEvenly,
  doesNotClose,
  measuresMissing,
  measuresTwice,
  noTriangle,
  otherCount,
} from './measure-issues.ts';

/** The keys of a measured plan in the project file, beside `courts`. */
export const footprintKeys = ['corners', 'lengths', 'diagonal', 'angles'] as const;

/** How a plan was measured, mm and radians. Side by side counter-clockwise, the first one at the front. */
export interface Measures {
  /** In any frame. */
  readonly corners?: readonly Vec2[];
  readonly lengths?: readonly number[];
  /** From where the first of four sides begins to the opposite corner. */
  readonly diagonal?: number;
  /** Inside angles where each side ends; the last may be left out. */
  readonly angles?: readonly number[];
  /** Courts counter-clockwise, in the frame of the corners; without those from the first corner, x along the first side. */
  readonly courts?: readonly (readonly Vec2[])[];
}

export interface Allowance {
  /** A round of measures that misses its start by no more is closed evenly, mm. */
  readonly gap: number;
  /** Shortest side, mm. */
  readonly side: number;
  /** How far each inside angle may be read wrong, radians. */
  readonly angle: number;
}

export interface Footprint {
  /** Counter-clockwise, its first side level and to the south, the middle of its box at the origin. mm */
  readonly corners: readonly Vec2[];
  /** Counter-clockwise, in the same frame. */
  readonly courts: readonly (readonly Vec2[])[];
  /** By how much the measures missed their start before they were closed, mm. */
  readonly gap: number;
}

/** The plan that measures describe. Fails with sentences for measures that contradict each other; paths are their keys. */
export function footprintFrom(measures: Measures, allowance: Allowance): Result<Footprint> {
  const walked = measures.corners ? succeed({ ring: measures.corners, gap: 0 }) : walkRound(measures, allowance);
  if (!walked.ok) return walked;
  const { ring, gap } = walked.value;
  const courts = measures.courts ?? [];
  const key = measures.corners ? 'corners' : 'lengths';
  const outlineIssues = checkRing(ring, key, allowance.side);
  if (hasError(outlineIssues)) return fail(...outlineIssues);
  const courtIssues = checkCourts(courts, ring, allowance.side);
  if (hasError(courtIssues)) return fail(...courtIssues);
  return succeed({ ...inFrame(ring, courts), gap }, walked.issues);
}

interface Walk {
  readonly ring: readonly Vec2[];
  readonly gap: number;
}

function walkRound({ lengths = [], diagonal, angles }: Measures, allowance: Allowance): Result<Walk> {
  if (diagonal !== undefined && angles !== undefined) return fail(measuresTwice);
  if (angles !== undefined) return walkByAngles(lengths, angles, allowance);
  const [a = 0, b = 0, c = 0, d = 0] = lengths;
  if (diagonal === undefined) {
    if (lengths.length !== 3) return fail(measuresMissing(lengths.length));
    const third = thirdCorner(a, b, c);
    return third ? succeed({ ring: [[0, 0], [a, 0], third], gap: 0 }) : fail(noTriangle('lengths', [a, b, c]));
  }
  if (lengths.length !== 4) return fail(otherCount('diagonal', 4, lengths.length));
  // Front and right side with the diagonal are one triangle, back and left side on the other side of it a second.
  const back = thirdCorner(a, b, diagonal);
  const left = thirdCorner(diagonal, c, d);
  if (!back) return fail(noTriangle('diagonal', [a, b, diagonal]));
  if (!left) return fail(noTriangle('diagonal', [diagonal, c, d]));
  const along = unit2(back);
  const turned: Vec2 = [along[0] * left[0] - along[1] * left[1], along[1] * left[0] + along[0] * left[1]];
  return succeed({ ring: [[0, 0], [a, 0], back, turned], gap: 0 });
}

/** The corner of a triangle over a base from the origin along x, `next` from its far end and `last` from the origin. */
function thirdCorner(base: number, next: number, last: number): Vec2 | null {
  const x = (base * base + last * last - next * next) / (2 * base);
  const square = (last - x) * (last + x);
  return square > 0 && Math.sqrt(square) > CUT_MM ? [x, Math.sqrt(square)] : null;
}

/**
 * A closed traverse. What the inside angles are off their sum is taken off all of them alike; then the side lengths and
 * directions are walked, and the gap at the end is spread over the corners in proportion to the way walked so far: the
 * compass rule of N. Bowditch (The Analyst, 1808), as in every textbook of surveying.
 */
function walkByAngles(lengths: readonly number[], given: readonly number[], allowance: Allowance): Result<Walk> {
  const count = lengths.length;
  if (given.length !== count && given.length !== count - 1) return fail(otherCount('angles', count, given.length));
  const wanted = (count - 2) * Math.PI;
  const sum = given.reduce((total, angle) => total + angle, 0);
  const angles = given.length === count ? given : [...given, wanted - sum];
  const off = given.length === count ? sum - wanted : 0;
  if (Math.abs(off) > count * allowance.angle || angles.some((angle) => angle <= 0)) {
    return fail(anglesSum(count, sum, wanted));
  }
  const points: Vec2[] = [[0, 0]];
  let direction = 0;
  lengths.forEach((length, i) => {
    points.push(add2(points[i] as Vec2, scale2([Math.cos(direction), Math.sin(direction)], length)));
    direction += Math.PI - ((angles[i] as number) - off / count);
  });
  const missed = points[count] as Vec2;
  const gap = distance2(missed, [0, 0]);
  const issues: Issue[] = [];
  if (gap > allowance.gap) return fail(doesNotClose(gap, allowance.gap));
  // Figures typed to a tenth of a degree or millimetre miss by a hair that nobody needs to hear of.
  if (Math.abs(off) > allowance.angle / 10) issues.push(anglesEvened(sum, wanted));
  if (gap > CUT_MM) issues.push(closedEvenly(gap));
  const total = lengths.reduce((way, length) => way + length, 0);
  let way = 0;
  const ring = lengths.map((length, i): Vec2 => {
    const point = sub2(points[i] as Vec2, scale2(missed, way / total));
    way += length;
    return point;
  });
  return succeed({ ring, gap }, issues);
}

/** Turned so that the first side runs level to the east, and moved to the middle of its box. */
function inFrame(
  ring: readonly Vec2[],
  courts: readonly (readonly Vec2[])[],
): { readonly corners: readonly Vec2[]; readonly courts: readonly (readonly Vec2[])[] } {
  const [first, second] = ring as readonly [Vec2, Vec2];
  const [ux, uy] = unit2(sub2(second, first));
  // From the first corner, so that the first side is level without any noise.
  const turn = (p: Vec2): Vec2 => {
    const [x, y] = sub2(p, first);
    return [ux * x + uy * y, ux * y - uy * x];
  };
  const turned = ring.map((p, i): Vec2 => (i === 1 ? [distance2(first, second), 0] : turn(p)));
  const { minX, minY, maxX, maxY } = boxOf(turned);
  const middle = lerp2([minX, minY], [maxX, maxY], 0.5);
  return {
    corners: turned.map((p) => sub2(p, middle)),
    courts: courts.map((court) => court.map((p) => sub2(turn(p), middle))),
  };
}

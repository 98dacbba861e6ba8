import { cross2, distance2, dot2, lerp2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { NOISE_MM, ROLL_MM } from '../tolerance.ts';

/** The centre of a circle through a curve's samples, mm; null where they lie on none, or on one too large to matter. */
export function circleOf(path: readonly Vec2[]): Vec2 | null {
  const last = path.length - 1;
  const [a, b, c] = [path[0] as Vec2, path[Math.round(last / 3)] as Vec2, path[Math.round((2 * last) / 3)] as Vec2];
  const [u, v] = [sub2(b, a), sub2(c, a)];
  const area = 2 * cross2(u, v);
  if (Math.abs(area) <= NOISE_MM) return null;
  const [uu, vv] = [dot2(u, u), dot2(v, v)];
  const centre: Vec2 = [a[0] + (v[1] * uu - u[1] * vv) / area, a[1] + (u[0] * vv - v[0] * uu) / area];
  const radius = distance2(centre, a);
  return path.every((p) => Math.abs(distance2(p, centre) - radius) <= ROLL_MM) ? centre : null;
}

/** Which samples of a curve to plot so that straight lines between them keep within `off` of it, mm (Douglas and Peucker, 1973). */
export function stations(path: readonly Vec2[], off: number): readonly number[] {
  const keep = new Set([0, path.length - 1]);
  const split = (from: number, to: number): void => {
    let [far, most] = [-1, off];
    for (let i = from + 1; i < to; i++) {
      const d = distanceToLine(path[i] as Vec2, path[from] as Vec2, path[to] as Vec2);
      if (d > most) [far, most] = [i, d];
    }
    if (far < 0) return;
    keep.add(far);
    split(from, far);
    split(far, to);
  };
  // A closed curve begins where it ends.
  const half = Math.floor(path.length / 2);
  if (distance2(path[0] as Vec2, path.at(-1) as Vec2) <= NOISE_MM) keep.add(half);
  const ordered = [...keep].sort((a, b) => a - b);
  for (const [i, to] of ordered.slice(1).entries()) split(ordered[i] as number, to);
  return [...keep].sort((a, b) => a - b);
}

/** Distance of a point from a segment, mm. */
export function distanceToLine(p: Vec2, a: Vec2, b: Vec2): number {
  const along = sub2(b, a);
  const square = dot2(along, along);
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, dot2(sub2(p, a), along) / square));
  return distance2(p, lerp2(a, b, share));
}

/**
 * How often a chord is stepped along an arc: the fewest steps of at most a quarter circle, or some more where that lands nearer.
 * A sector stays open: it never comes round to a full circle.
 */
export function chordSteps(
  radius: number,
  angle: number,
  step: number,
): { readonly chord: number; readonly times: number; readonly angle: number } {
  const least = Math.max(1, Math.ceil(angle / (Math.PI / 2) - NOISE_MM));
  const counts = [0, 1, 2, 3].flatMap((more) => {
    const times = least + more;
    const marks = (2 * radius * Math.sin(angle / times / 2)) / step;
    return [Math.round(marks), Math.floor(marks)].map((count) => ({ times, count: Math.max(1, count) }));
  });
  const tries = counts.map(({ times, count }) => {
    const chord = count * step;
    const turned = 2 * Math.asin(Math.min(1, chord / (2 * radius))) * times;
    return { chord, times, angle: turned, off: Math.abs(turned - angle) };
  });
  const open = tries.filter((one) => one.angle < 2 * Math.PI - step / radius / 2);
  return (open.length > 0 ? open : tries).reduce((best, one) => (one.off < best.off - NOISE_MM ? one : best));
}

/** A point of a line with the direction that it goes on in there, a unit vector. */
export interface LinePoint {
  readonly at: Vec2;
  readonly way: Vec2;
}

/** What is left over at the end of a line is a step of its own where it is longer than this share of one. */
const LAST = 0.4;

/** The points that a divider opened to `chord` comes to along a line of short straight parts, its ends left out. */
export function stepsAlong(line: readonly Vec2[], chord: number): readonly LinePoint[] {
  const found: LinePoint[] = [];
  let from = line[0] as Vec2;
  let i = 1;
  while (i < line.length) {
    const [p, q] = [line[i - 1] as Vec2, line[i] as Vec2];
    const t = distance2(q, from) < chord ? null : leaves(from, chord, [p, q]);
    if (t === null) {
      i++;
      continue;
    }
    from = lerp2(p, q, t);
    const [before, after] = [tangent(line, i - 1), tangent(line, i)];
    found.push({ at: from, way: unit2(lerp2(before, after, t)) });
  }
  const last = found.at(-1);
  return last && distance2(last.at, line.at(-1) as Vec2) < LAST * chord ? found.slice(0, -1) : found;
}

/** Direction at a corner of a line that stands for a curve: from the corner before it to that after it. */
export const tangent = (line: readonly Vec2[], i: number): Vec2 =>
  unit2(sub2(line[Math.min(i + 1, line.length - 1)] as Vec2, line[Math.max(i - 1, 0)] as Vec2));

/** Where a segment leaves a circle, as a share of its length; null where it does not. */
function leaves(centre: Vec2, radius: number, [p, q]: readonly [Vec2, Vec2]): number | null {
  const [d, f] = [sub2(q, p), sub2(p, centre)];
  const [a, b, c] = [dot2(d, d), dot2(f, d), dot2(f, f) - radius * radius];
  const root = b * b - a * c;
  if (a === 0 || root < 0) return null;
  const t = (Math.sqrt(root) - b) / a;
  return t >= 0 && t <= 1 ? t : null;
}

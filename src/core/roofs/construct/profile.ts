import { distance2, dot2, left2, scale2, sub2, type Vec2 } from '../../geometry/vector.ts';
import { NOISE_RAD } from '../../tolerance.ts';

/**
 * One circular arc of a profile, climbing towards the axis: how steep it begins and ends, radians (over a quarter turn it leans
 * outwards), and the straight distance between its ends, mm. An arc whose ends are alike steep is straight.
 *
 * A profile lies in the upright plane through the axis and the middle of a panel. Its points are [reach, level]: level distance
 * from the axis, and height over the eave, mm. It begins at the eave; each arc goes on where the one before ends.
 */
export interface Arc {
  readonly from: number;
  readonly to: number;
  readonly chord: number;
}

/** The chords that stand for one arc. */
interface Sampled {
  readonly arc: Arc;
  /** One more than there are bands. */
  readonly points: readonly Vec2[];
  readonly deviation: number;
}

export interface SampledProfile {
  /** From the eave to the top, one more than there are bands. */
  readonly points: readonly Vec2[];
  /** Farthest that a chord lies off its arc, mm. */
  readonly deviation: number;
  readonly arcs: readonly Sampled[];
}

/** Farthest from a chord to its arc, mm, when an arc is cut into so many equal parts: half a chord times the tangent of a quarter of its turn. */
function sagitta({ from, to, chord }: Arc, bands: number): number {
  const turn = Math.abs(to - from) / bands;
  return (partOf({ from, to, chord }, bands) / 2) * Math.tan(turn / 4);
}

/** Length of each of so many equal chords of an arc: chord × sin(turn / 2n) / sin(turn / 2). */
function partOf({ from, to, chord }: Arc, bands: number): number {
  const half = (to - from) / 2;
  return Math.abs(half) <= NOISE_RAD ? chord / bands : (chord * Math.sin(half / bands)) / Math.sin(half);
}

/**
 * A profile as chords in so many bands, or one for each arc where that is more. Every further band goes to the arc whose chords
 * lie farthest off. The chords of an arc are alike long, and each is as steep as the arc at its middle.
 */
export function sampleProfile(eave: Vec2, arcs: readonly Arc[], bands: number): SampledProfile {
  const counts = arcs.map(() => 1);
  const off = (i: number): number => sagitta(arcs[i] as Arc, counts[i] as number);
  for (let given = arcs.length; given < bands; given++) {
    const worst = arcs.reduce((best, _, i) => (off(i) > off(best) ? i : best), 0);
    counts[worst] = (counts[worst] as number) + 1;
  }
  const points: Vec2[] = [eave];
  const sampled = arcs.map((arc, i): Sampled => {
    const [count, start] = [counts[i] as number, points.at(-1) as Vec2];
    const part = partOf(arc, count);
    const first = points.length - 1;
    for (let k = 0; k < count; k++) {
      const [reach, level] = points.at(-1) as Vec2;
      const pitch = arc.from + ((arc.to - arc.from) * (2 * k + 1)) / (2 * count);
      points.push([reach - part * Math.cos(pitch), level + part * Math.sin(pitch)]);
    }
    // The end of the arc itself, not a sum that comes near it.
    const along = (arc.from + arc.to) / 2;
    points[points.length - 1] = [start[0] - arc.chord * Math.cos(along), start[1] + arc.chord * Math.sin(along)];
    return { arc, points: points.slice(first), deviation: off(i) };
  });
  return { points, deviation: Math.max(0, ...sampled.map(({ deviation }) => deviation)), arcs: sampled };
}

/** The part of a circle that an arc is; null where it is straight. */
interface Circle {
  readonly centre: Vec2;
  readonly radius: number;
  /** Where it begins and ends. */
  readonly ends: readonly [Vec2, Vec2];
}

function circleOf({ arc: { from, to, chord }, points }: Sampled): Circle | null {
  const turn = to - from;
  if (Math.abs(turn) <= NOISE_RAD) return null;
  const [start, end] = [points[0] as Vec2, points.at(-1) as Vec2];
  const radius = chord / (2 * Math.sin(Math.abs(turn) / 2));
  // Where the arc flattens its centre lies on the side of the axis.
  const inward = scale2(left2([-Math.cos(from), Math.sin(from)]), turn < 0 ? radius : -radius);
  return { centre: [start[0] + inward[0], start[1] + inward[1]], radius, ends: [start, end] };
}

/** Distance from a point to a part of a circle that is smaller than half of it, mm. */
function distanceToArc(point: Vec2, { centre, radius, ends: [start, end] }: Circle): number {
  const away = sub2(point, centre);
  const [a, b] = [sub2(start, centre), sub2(end, centre)];
  const side = (p: Vec2, q: Vec2): number => p[0] * q[1] - p[1] * q[0];
  const isBetween =
    side(a, away) * side(a, b) >= 0 && side(away, b) * side(a, b) >= 0 && dot2(away, [a[0] + b[0], a[1] + b[1]]) > 0;
  return isBetween ? Math.abs(Math.hypot(...away) - radius) : Math.min(distance2(point, start), distance2(point, end));
}

/**
 * Farthest that a segment lies off an arc, mm. Beside the arc the distance is that to its circle, farthest at the foot of the
 * perpendicular from its centre or at an end of the stretch; beyond the arc it is that to a point, farthest at an end.
 */
function farthestFromArc(p: Vec2, q: Vec2, circle: Circle): number {
  const { centre, ends } = circle;
  const along = sub2(q, p);
  const size = dot2(along, along);
  const shares = [0, 1, -dot2(sub2(p, centre), along) / size];
  for (const end of ends) {
    const out = left2(sub2(end, centre));
    shares.push(-dot2(sub2(p, centre), out) / dot2(along, out));
  }
  const candidates = shares.filter((t) => t >= 0 && t <= 1);
  return Math.max(...candidates.map((t) => distanceToArc([p[0] + along[0] * t, p[1] + along[1] * t], circle)));
}

/**
 * Farthest that gores lie off the round surface that the profile sweeps about its axis, mm, and that surface off the gores; a
 * bound, exact but for the joints of arcs. At any level a gore reaches from its middle line, which is the profile's chord, out
 * to its edges, farther from the axis by 1 / cos(pi / sides); the distance to the surface is largest on one of these two lines.
 * The round eave lies off the straight ones by the same measure.
 */
export function roundDeviation({ arcs }: SampledProfile, sides: number): number {
  const stretch = 1 / Math.cos(Math.PI / sides);
  const wide = ([reach, level]: Vec2): Vec2 => [reach * stretch, level];
  const off = arcs.flatMap((sampled) => {
    const circle = circleOf(sampled);
    return sampled.points.slice(1).flatMap((q, i) => {
      const p = sampled.points[i] as Vec2;
      if (!circle) return [p, q].map(([reach]) => reach * (stretch - 1));
      return [farthestFromArc(p, q, circle), farthestFromArc(wide(p), wide(q), circle)];
    });
  });
  return Math.max((arcs[0]?.points[0]?.[0] ?? 0) * (stretch - 1), ...off);
}

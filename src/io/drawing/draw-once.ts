import { cross2, distance2, dot2, lerp2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import { isAtMost, isSameLength } from '../../core/tolerance.ts';
import { line, type Stroke } from './drawing.ts';

type Segment = readonly [Vec2, Vec2];

/**
 * Cut lines that two pieces share are drawn (and so cut) once: where a cut runs along an earlier one, that stretch is
 * left out. Strokes that share nothing stay as they are; other roles pass through.
 */
export const drawOnce = (strokes: readonly Stroke[]): readonly Stroke[] => {
  const drawn: Segment[] = [];
  return strokes.flatMap((stroke) => {
    if (stroke.role !== 'cut') return [stroke];
    const segments = segmentsOf(stroke);
    const rests = segments.map((segment) => uncovered(segment, drawn));
    drawn.push(...segments);
    const isWhole = rests.every((rest, i) => rest.length === 1 && rest[0] === segments[i]);
    return isWhole ? [stroke] : runsOf(rests.flat()).map((points) => line('cut', ...points));
  });
};

const segmentsOf = ({ points, closed }: Stroke): readonly Segment[] =>
  points.flatMap((point, i): readonly Segment[] => {
    const next = points[i + 1] ?? (closed ? points[0] : undefined);
    return next === undefined ? [] : [[point, next]];
  });

/** The stretches of a segment that no drawn segment covers; the segment itself where none does. */
const uncovered = (segment: Segment, drawn: readonly Segment[]): readonly Segment[] => {
  const [a, b] = segment;
  const length = distance2(a, b);
  if (isSameLength(length, 0)) return [];
  const along = unit2(sub2(b, a));
  let free: readonly (readonly [number, number])[] = [[0, length]];
  for (const [c, d] of drawn) {
    const isOnLine = isSameLength(cross2(along, sub2(c, a)), 0) && isSameLength(cross2(along, sub2(d, a)), 0);
    if (!isOnLine) continue;
    const ends = [dot2(along, sub2(c, a)), dot2(along, sub2(d, a))] as const;
    const low = Math.min(...ends);
    const high = Math.max(...ends);
    free = free.flatMap(([from, to]) =>
      isAtMost(to, low) || isAtMost(high, from)
        ? [[from, to] as const]
        : [[from, Math.min(to, low)] as const, [Math.max(from, high), to] as const].filter(([s, e]) => !isAtMost(e, s)),
    );
  }
  if (free.length === 1 && free[0]?.[0] === 0 && free[0]?.[1] === length) return [segment];
  return free.map(([from, to]) => [
    from === 0 ? a : lerp2(a, b, from / length),
    to === length ? b : lerp2(a, b, to / length),
  ]);
};

/** Segments in order, joined where one ends in the very point the next begins with. */
const runsOf = (segments: readonly Segment[]): readonly (readonly Vec2[])[] => {
  const runs: Vec2[][] = [];
  for (const [a, b] of segments) {
    const last = runs.at(-1);
    if (last !== undefined && last.at(-1) === a) last.push(b);
    else runs.push([a, b]);
  }
  return runs;
};

import type { Box } from '../../core/geometry/polygon.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { line, type Stroke } from '../drawing/drawing.ts';
import { clipSegment } from '../drawing/fit-label.ts';

/** The parts of a stroke inside a box. Points inside are kept bit for bit; a stroke that lies wholly inside is kept whole. */
export const clipStroke = (stroke: Stroke, box: Box): readonly Stroke[] => {
  const { points, closed, role } = stroke;
  if (points.every((p) => isInBox(p, box))) return [stroke];
  const ends = closed ? [...points, points[0] as Vec2] : points;
  const runs: Vec2[][] = [];
  ends.slice(1).forEach((b, i) => {
    const part = clipSegment(ends[i] as Vec2, b, box);
    // A segment that only grazes the border leaves a point, which shows nothing.
    if (part === null || (part[0][0] === part[1][0] && part[0][1] === part[1][1])) return;
    const last = runs.at(-1);
    if (last !== undefined && last.at(-1) === part[0]) last.push(part[1]);
    else runs.push([...part]);
  });
  return runs.map((run) => line(role, ...run));
};

export const isInBox = ([x, y]: Vec2, box: Box): boolean =>
  x >= box.minX && x <= box.maxX && y >= box.minY && y <= box.maxY;

import { distance2, left2, lerp2, scale2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import type { SeamMatch, SeamRun } from '../../core/layout/print-match.ts';
import type { Net, Seam } from '../../core/net/net.ts';
import { emptyPart, type FlatPart, pushRibbon } from './flat-part.ts';
import { firstOwners } from './net-parts.ts';

/** Over the ink of the other lines, mm. */
const ABOVE = 0.12;
/** Width of their lines, in widths of other lines. */
export const SEAM_WIDTH = 1.4;

/**
 * How a print goes over each seam, drawn along it on both panels: straight where it runs on, a ladder where it meets line for line, a
 * zigzag where it breaks.
 */
export const buildSeamLines = (net: Net, matches: readonly SeamMatch[], width: number): FlatPart => {
  const part = emptyPart();
  const starts = firstOwners(net);
  const runs = new Map(matches.map(({ edge, run }) => [edge, run]));
  for (const { edge, sides } of net.seams) {
    const run = runs.get(edge);
    if (run === undefined) continue;
    for (const side of sides) {
      if (side.piece < 0) continue;
      const owner = (starts[side.piece] ?? 0) + side.panel;
      for (const [a, b] of strokes(net, side, run, width)) pushRibbon(part, a, b, width, { owner, z: ABOVE });
    }
  }
  return part;
};

type Stroke = readonly [Vec2, Vec2];

const strokes = (net: Net, side: Seam['sides'][number], run: SeamRun, width: number): readonly Stroke[] => {
  const path = side.curve ?? side.ends;
  const polygon = net.pieces[side.piece]?.panels[side.panel]?.polygon ?? [];
  const middle = scale2(
    polygon.reduce<Vec2>((sum, p) => [sum[0] + p[0], sum[1] + p[1]], [0, 0]),
    1 / Math.max(1, polygon.length),
  );
  return path.slice(1).flatMap((b, i) => alongSide(path[i] as Vec2, b, middle, run, width));
};

/** Along one straight stretch, on the side where the panel is. */
const alongSide = (a: Vec2, b: Vec2, middle: Vec2, run: SeamRun, width: number): readonly Stroke[] => {
  const length = distance2(a, b);
  if (length === 0) return [];
  const normal = left2(unit2(sub2(b, a)));
  const isLeft = (middle[0] - a[0]) * normal[0] + (middle[1] - a[1]) * normal[1] > 0;
  const inward = scale2(normal, isLeft ? 1 : -1);
  const step = (point: Vec2, depth: number): Vec2 => [point[0] + inward[0] * depth, point[1] + inward[1] * depth];
  const line: Stroke = [step(a, width / 2), step(b, width / 2)];
  if (run === 'runs-on') return [line];
  const reach = width * 3.2;
  const count = Math.max(1, Math.round(length / (run === 'meets' ? reach * 1.6 : reach)));
  const points = Array.from({ length: count + 1 }, (_, i) => lerp2(a, b, i / count));
  if (run === 'meets') return [line, ...points.slice(1, -1).map((p): Stroke => [step(p, width / 2), step(p, reach)])];
  return points.slice(1).map((p, i): Stroke => {
    const [from, to] = i % 2 === 0 ? [width / 2, reach] : [reach, width / 2];
    return [step(points[i] as Vec2, from), step(p, to)];
  });
};

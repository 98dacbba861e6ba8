import { intersection, union } from 'polyclip-ts';
import type { NestPlacement, Ring } from '../../src/core/layout/nest/nest.ts';

type Points = [number, number][];

const closed = (ring: Ring): [Points] => [ring.map(([x, y]): [number, number] => [x, y])];

const areaOf = (shapes: readonly (readonly Points[])[]): number =>
  shapes.flat().reduce((sum, ring) => {
    const twice = ring.reduce((s, [x, y], i) => {
      const [px, py] = ring.at(i - 1) ?? [0, 0];
      return s + px * y - py * x;
    }, 0);
    return sum + twice / 2;
  }, 0);

function laid(outline: Ring, { x, y, rotation }: NestPlacement): Ring {
  const quarter = Math.round(rotation / (Math.PI / 2));
  const isQuarter = Math.abs(rotation - (quarter * Math.PI) / 2) < 1e-12;
  const cos = isQuarter ? [1, 0, -1, 0][((quarter % 4) + 4) % 4]! : Math.cos(rotation);
  const sin = isQuarter ? [0, 1, 0, -1][((quarter % 4) + 4) % 4]! : Math.sin(rotation);
  return outline.map(([px, py]) => [cos * px - sin * py + x, sin * px + cos * py + y] as const);
}

/**
 * Proves a layout by a polygon library that the search does not use. `overlap`: common area of any two pieces over the length that
 * they could share, so that it compares with a depth; `outside`: how far any point leaves its rectangle.
 */
export function proveNest(
  outlines: readonly Ring[],
  placements: readonly NestPlacement[],
  width: number,
  height: number,
): { readonly overlap: number; readonly outside: number; readonly missing: number } {
  const rings = placements.map((placement) => laid(outlines[placement.piece] ?? [], placement));
  let [overlap, outside] = [0, 0];
  rings.forEach((ring, i) => {
    for (const [x, y] of ring) outside = Math.max(outside, -x, -y, x - width, y - height);
    rings.slice(0, i).forEach((other, j) => {
      const [a, b] = [placements[i], placements[j]];
      if (a?.kind !== b?.kind || a?.sheet !== b?.sheet || !boxesMeet(ring, other)) return;
      const common = areaOf(intersection(union(closed(ring)), union(closed(other))));
      overlap = Math.max(overlap, common / Math.min(spanOf(ring), spanOf(other)));
    });
  });
  return { overlap, outside, missing: outlines.length - new Set(placements.map(({ piece }) => piece)).size };
}

const spanOf = (ring: Ring): number => {
  const [xs, ys] = [ring.map(([x]) => x), ring.map(([, y]) => y)];
  return Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
};

function boxesMeet(a: Ring, b: Ring): boolean {
  const apart = (p: readonly number[], q: readonly number[]): boolean => Math.max(...p) <= Math.min(...q);
  const [ax, ay, bx, by] = [a.map(([x]) => x), a.map(([, y]) => y), b.map(([x]) => x), b.map(([, y]) => y)];
  return !(apart(ax, bx) || apart(bx, ax) || apart(ay, by) || apart(by, ay));
}

import { EndType, inflatePathsD, JoinType } from 'clipper2-ts';
import { ringArea } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Stock } from '../project/project.ts';
import { isPositive } from '../tolerance.ts';

/** Decimals of a millimetre that offset rings keep. */
const PRECISION = 8;

/** The outline of a sheet, counter-clockwise, mm. */
export const sheetRing = ({ width, height, outline }: Pick<Stock, 'width' | 'height' | 'outline'>): readonly Vec2[] =>
  outline ?? rectangle(0, 0, width, height);

export const rectangle = (minX: number, minY: number, maxX: number, maxY: number): readonly Vec2[] => [
  [minX, minY],
  [maxX, minY],
  [maxX, maxY],
  [minX, maxY],
];

type Usable = Pick<Stock, 'width' | 'height' | 'outline' | 'margin'>;

/** What of a sheet is within its margin: in parts where a margin cuts an offcut apart, the largest first; none where nothing is left. */
export function usableRings({ width, height, outline, margin }: Usable): readonly (readonly Vec2[])[] {
  if (outline && isPositive(margin)) return offsetRing(outline, -margin).toSorted((a, b) => ringArea(b) - ringArea(a));
  if (outline) return [outline];
  const isRoom = isPositive(width - 2 * margin) && isPositive(height - 2 * margin);
  return isRoom ? [rectangle(margin, margin, width - margin, height - margin)] : [];
}

/** A ring moved outwards by a distance, or inwards by a negative one: mitred at sharp corners as far as that is not too far. */
export function offsetRing(ring: readonly Vec2[], by: number): readonly (readonly Vec2[])[] {
  const paths = [ring.map(([x, y]) => ({ x, y }))];
  return inflatePathsD(paths, by, JoinType.Miter, EndType.Polygon, MITRE_LIMIT, PRECISION)
    .map((path) => path.map(({ x, y }): Vec2 => [x, y]))
    .filter((part) => isPositive(ringArea(part)));
}

/** A mitre reaches so many times the distance out before it is cut off. */
const MITRE_LIMIT = 4;

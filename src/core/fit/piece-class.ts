import type { Vec2 } from '../geometry/vector.ts';
import type { AxisPlace, RuledAxis } from './round-axis.ts';

/** A measure of a class that may be moved by a mark: a column, a row, a radius, a chord. */
export interface RuledLine {
  readonly axis: RuledAxis;
  readonly line: number;
}

/** Pieces whose panels are the same, turned over or not, share their marks. */
export interface PieceClass {
  /** The measures that its marks follow from. */
  readonly axes: readonly RuledAxis[];
  /** Marks of a point, in steps: from the origins of a class on a grid, from the corner of the true box of a fan. */
  readonly place: (point: number) => Vec2;
  /** The measures that the distance between two points depends on. */
  readonly between: (ends: readonly [number, number]) => readonly RuledLine[];
}

/** A class whose points lie in columns and rows. */
export function gridClass(
  axes: readonly [RuledAxis, RuledAxis],
  places: readonly (readonly [AxisPlace, AxisPlace])[],
): PieceClass {
  const placesOf = (point: number): readonly [AxisPlace, AxisPlace] => places[point] as (typeof places)[number];
  const count = (axis: RuledAxis, { line, side }: AxisPlace): number => side * (axis.counts[line] as number);
  return {
    axes,
    place: (point) => {
      const [x, y] = placesOf(point);
      return [count(axes[0], x), count(axes[1], y)];
    },
    between: (ends) =>
      ends.flatMap((end) => {
        const [x, y] = placesOf(end);
        return [
          { axis: axes[0], line: x.line },
          { axis: axes[1], line: y.line },
        ];
      }),
  };
}

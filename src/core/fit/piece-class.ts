import type { Vec2 } from '../geometry/vector.ts';
import type { AxisPlace, RuledAxis } from './round-axis.ts';

/** Pieces whose panels are the same, turned over or not, share their marks. */
export interface PieceClass {
  readonly axes: readonly [RuledAxis, RuledAxis];
  readonly places: readonly (readonly [AxisPlace, AxisPlace])[];
}

/** Marks of a point of a class, in steps from its origins. */
export const placeCounts = ({ axes: [across, up], places }: PieceClass, point: number): Vec2 => {
  const [x, y] = places[point] as readonly [AxisPlace, AxisPlace];
  return [x.side * (across.counts[x.line] as number), y.side * (up.counts[y.line] as number)];
};

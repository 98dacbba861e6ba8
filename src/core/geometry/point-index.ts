import { SNAP_MM } from '../tolerance.ts';
import { distance2, type Vec2 } from './vector.ts';

/** Finds points that are meant to be one. */
export class PointIndex {
  readonly #cells = new Map<string, number[]>();
  readonly #points: readonly Vec2[];

  constructor(points: readonly Vec2[]) {
    this.#points = points;
    points.forEach((p, i) => {
      const key = cellOf(p).join();
      const cell = this.#cells.get(key);
      if (cell) cell.push(i);
      else this.#cells.set(key, [i]);
    });
  }

  /** The first point there. */
  find(p: Vec2): number | undefined {
    const [x, y] = cellOf(p);
    let found: number | undefined;
    for (const dx of [-1, 0, 1]) {
      for (const dy of [-1, 0, 1]) {
        for (const i of this.#cells.get(`${x + dx},${y + dy}`) ?? []) {
          if ((found === undefined || i < found) && distance2(this.#points[i] as Vec2, p) <= SNAP_MM) found = i;
        }
      }
    }
    return found;
  }
}

const cellOf = ([x, y]: Vec2): readonly [number, number] => [Math.round(x / SNAP_MM), Math.round(y / SNAP_MM)];

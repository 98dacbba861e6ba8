import { areApart, type Box, boxOf } from '../../../core/geometry/polygon.ts';
import type { Vec2 } from '../../../core/geometry/vector.ts';
import { type Label, labelCorners, type Stroke } from '../drawing.ts';

/** Left free before and after a text, in letters: figures side by side would be read as one number. */
const AIR = 0.25;

/** What a text takes up, with the air before and after it. */
export function textBox(label: Label): Box {
  const { minX, maxX, ...rows } = boxOf(labelCorners(label));
  return { ...rows, minX: minX - AIR * label.size, maxX: maxX + AIR * label.size };
}

export type Segment = readonly [Vec2, Vec2];

export const segmentsOf = (strokes: readonly Stroke[]): readonly Segment[] =>
  strokes.flatMap(({ points, closed }) =>
    points.flatMap((p, i): readonly Segment[] => {
      const q = points[i + 1] ?? (closed ? points[0] : undefined);
      return q ? [[p, q]] : [];
    }),
  );

/** Texts that keep clear of each other, and of the lines that lead from one of them: each goes to the first of its places that is free, or is left out. */
export class Texts {
  readonly #taken: Box[] = [];
  readonly #leaders: Segment[] = [];

  place(labels: readonly Label[]): readonly Label[] {
    const label = labels.find((one) => this.isFree(textBox(one)));
    if (!label) return [];
    this.take(label);
    return [label];
  }

  isFree(box: Box): boolean {
    return this.#taken.every((one) => areApart(one, box) !== false) && !this.#leaders.some((one) => meets(one, box));
  }

  /** Whether a line passes no text. */
  isOpen(line: Segment): boolean {
    return !this.#taken.some((box) => meets(line, box));
  }

  /** How many of the lines that lead from texts a line crosses. */
  crossed(line: Segment): number {
    return this.#leaders.filter((other) => cross(line, other)).length;
  }

  take(label: Label, leader?: Segment): void {
    this.#taken.push(textBox(label));
    if (leader) this.#leaders.push(leader);
  }
}

/** Whether a line passes through a box (Liang and Barsky, 1984). */
export function meets([p, q]: Segment, { minX, minY, maxX, maxY }: Box): boolean {
  if (p[0] < minX && q[0] < minX) return false;
  if (p[0] > maxX && q[0] > maxX) return false;
  if (p[1] < minY && q[1] < minY) return false;
  if (p[1] > maxY && q[1] > maxY) return false;
  let [from, to] = [0, 1];
  const sides = [
    [p[0] - q[0], p[0] - minX],
    [q[0] - p[0], maxX - p[0]],
    [p[1] - q[1], p[1] - minY],
    [q[1] - p[1], maxY - p[1]],
  ] as const;
  for (const [way, room] of sides) {
    if (way === 0 && room < 0) return false;
    if (way < 0) from = Math.max(from, room / way);
    if (way > 0) to = Math.min(to, room / way);
  }
  return from < to;
}

/** Whether two lines cross between their ends. */
export function cross([a, b]: Segment, [c, d]: Segment): boolean {
  const side = (p: Vec2, q: Vec2, r: Vec2): number => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

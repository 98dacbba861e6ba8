import { boxOf } from '../../geometry/polygon.ts';
import { HAIR_MM, TOUCH_MM } from '../../tolerance.ts';
import { convexDifference, growConvex } from './convex.ts';
import type { Ring } from './problem.ts';

/**
 * Where a piece B may not lie beside a piece A at the origin: the differences of their convex parts. B moved by d overlaps A just
 * where d lies inside one of them; so touching, and fitting into a slot exactly, needs no union of polygons and no luck.
 */
export class NoFit {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  /** Border of all parts together, as loose pieces of line: ax, ay, bx, by. */
  readonly border: Float64Array;
  /** Lines of the parts, inward normal and offset: nx, ny, c. */
  private readonly lines: Float64Array;
  /** Where each part's lines begin, and where the last one's end. */
  private readonly starts: Int32Array;

  constructor(a: readonly Ring[], b: readonly Ring[], gap: number) {
    const parts = a.flatMap((p) => b.map((q) => growConvex(convexDifference(p, q), gap)));
    const box = boxOf(parts.flat());
    this.minX = box.minX;
    this.minY = box.minY;
    this.maxX = box.maxX;
    this.maxY = box.maxY;
    const lines: number[] = [];
    const starts: number[] = [0];
    for (const part of parts) {
      for (let i = 0; i < part.length; i++) {
        const [p, q] = [part[i]!, part[(i + 1) % part.length]!];
        const [x, y] = [q[0] - p[0], q[1] - p[1]];
        const length = Math.sqrt(x * x + y * y);
        lines.push(-y / length, x / length, (-y * p[0] + x * p[1]) / length);
      }
      starts.push(lines.length / 3);
    }
    this.lines = Float64Array.from(lines);
    this.starts = Int32Array.from(starts);
    this.border = Float64Array.from(parts.flatMap((part, i) => this.freeEdges(part, i)));
  }

  /** How far B at (x, y) must move to be free of A, mm; 0 where it is free or touches. */
  depth(x: number, y: number): number {
    if (x <= this.minX || x >= this.maxX || y <= this.minY || y >= this.maxY) return 0;
    const { starts } = this;
    const count = starts.length - 1;
    let inside = 0;
    for (let part = 0; part < count && inside <= TOUCH_MM; part++) inside = this.depthInPart(part, x, y);
    if (inside <= TOUCH_MM) return 0;
    return count === 1 ? inside : this.distanceToBorder(x, y);
  }

  private depthInPart(part: number, x: number, y: number): number {
    const { lines } = this;
    const end = this.starts[part + 1]! * 3;
    let least = Number.POSITIVE_INFINITY;
    for (let k = this.starts[part]! * 3; k < end; k += 3) {
      const depth = lines[k]! * x + lines[k + 1]! * y - lines[k + 2]!;
      if (depth < least) {
        if (depth <= TOUCH_MM) return 0;
        least = depth;
      }
    }
    return least;
  }

  private distanceToBorder(x: number, y: number): number {
    const { border } = this;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < border.length; k += 4) {
      const [ax, ay] = [border[k]!, border[k + 1]!];
      const [ux, uy, px, py] = [border[k + 2]! - ax, border[k + 3]! - ay, x - ax, y - ay];
      const t = Math.min(1, Math.max(0, (px * ux + py * uy) / (ux * ux + uy * uy)));
      const [dx, dy] = [px - t * ux, py - t * uy];
      const square = dx * dx + dy * dy;
      if (square < least) least = square;
    }
    return Math.sqrt(least);
  }

  /** What of a part's edges lies in no other part. */
  private freeEdges(part: Ring, own: number): number[] {
    const free: number[] = [];
    for (let i = 0; i < part.length; i++) {
      const [p, q] = [part[i]!, part[(i + 1) % part.length]!];
      let at = 0;
      for (const [from, to] of this.coveredSpans(own, p[0], p[1], q[0] - p[0], q[1] - p[1])) {
        if (from > at) pushSpan(free, p, q, at, from);
        at = Math.max(at, to);
      }
      if (at < 1) pushSpan(free, p, q, at, 1);
    }
    return free;
  }

  /** Spans of the edge from (x, y) by (ux, uy), 0 to 1, that lie inside other parts, by where they begin. */
  private coveredSpans(own: number, x: number, y: number, ux: number, uy: number): [number, number][] {
    const spans: [number, number][] = [];
    for (let part = 0; part + 1 < this.starts.length; part++) {
      if (part === own) continue;
      let [from, to] = [0, 1];
      for (let l = this.starts[part]!; l < this.starts[part + 1]! && from < to; l++) {
        const [nx, ny, c] = [this.lines[l * 3]!, this.lines[l * 3 + 1]!, this.lines[l * 3 + 2]!];
        const [start, rate] = [nx * x + ny * y - c - TOUCH_MM, nx * ux + ny * uy];
        if (Math.abs(rate) <= HAIR_MM) {
          if (start < 0) to = from;
        } else if (rate > 0) from = Math.max(from, -start / rate);
        else to = Math.min(to, -start / rate);
      }
      if (from < to) spans.push([from, to]);
    }
    return spans.sort((a, b) => a[0] - b[0]);
  }
}

function pushSpan(
  free: number[],
  [ax, ay]: readonly [number, number],
  [bx, by]: readonly [number, number],
  from: number,
  to: number,
): void {
  const [x, y] = [bx - ax, by - ay];
  if ((to - from) * Math.sqrt(x * x + y * y) <= TOUCH_MM * 2) return;
  free.push(ax + x * from, ay + y * from, ax + x * to, ay + y * to);
}

import { type Box, boxOf } from '../../geometry/polygon.ts';
import { TOUCH_MM } from '../../tolerance.ts';
import { convexDifference, growConvex } from './convex.ts';
import { DepthGrid } from './depth-grid.ts';
import type { Ring } from './problem.ts';

/** How many rasters may still be made: each takes some ten kilobytes. */
export interface Rasters {
  left: number;
}

/** Questions about one pair after which a raster pays. */
const WORTH_A_RASTER = 30;
/** Kept here, too: it is asked for millions of times a second. */
const TOUCH = TOUCH_MM;

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
  border: Float64Array = new Float64Array(0);
  /** Lines of the parts, inward normal and offset: nx, ny, c. */
  private readonly lines: Float64Array;
  /** Where each part's lines begin, and where the last one's end. */
  private readonly starts: Int32Array;
  private raster: DepthGrid | null = null;
  private asked = 0;
  private readonly rasters: Rasters;
  /** Where this one is another one moved or turned half round: that one, met at (offX, offY) + sign (x, y). */
  private source: NoFit | null = null;
  private sign = 1;
  private offX = 0;
  private offY = 0;

  private constructor(lines: Float64Array, starts: Int32Array, box: Box, rasters: Rasters) {
    this.rasters = rasters;
    this.lines = lines;
    this.starts = starts;
    this.minX = box.minX;
    this.minY = box.minY;
    this.maxX = box.maxX;
    this.maxY = box.maxY;
  }

  /** Of two shapes, given as convex parts, that must keep so far apart. */
  static between(a: readonly Ring[], b: readonly Ring[], gap: number, rasters: Rasters): NoFit {
    const parts = a.flatMap((p) => b.map((q) => growConvex(convexDifference(p, q), gap)));
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
    const fit = new NoFit(Float64Array.from(lines), Int32Array.from(starts), boxOf(parts.flat()), rasters);
    fit.border = Float64Array.from(parts.flatMap((part, i) => fit.freeEdges(part, i)));
    return fit;
  }

  /** The one that is met at (x, y) as this one is at (cx - x, cy - y). */
  reflected(cx: number, cy: number): NoFit {
    const box = { minX: cx - this.maxX, minY: cy - this.maxY, maxX: cx - this.minX, maxY: cy - this.minY };
    const fit = new NoFit(this.lines, this.starts, box, this.rasters);
    fit.border = this.border.map((value, i) => (i % 2 === 0 ? cx : cy) - value);
    fit.source = this.source ?? this;
    fit.sign = -this.sign;
    fit.offX = this.offX + this.sign * cx;
    fit.offY = this.offY + this.sign * cy;
    return fit;
  }

  /** Whether B at (x, y) lies on A by more than a touch. */
  overlaps(x: number, y: number): boolean {
    if (x <= this.minX || x >= this.maxX || y <= this.minY || y >= this.maxY) return false;
    if (this.source) return this.source.overlaps(this.offX + this.sign * x, this.offY + this.sign * y);
    const { starts, lines } = this;
    for (let part = 0; part + 1 < starts.length; part++) {
      const end = 3 * starts[part + 1]!;
      let k = 3 * starts[part]!;
      while (k < end && lines[k]! * x + lines[k + 1]! * y - lines[k + 2]! > TOUCH) k += 3;
      if (k === end) return true;
    }
    return false;
  }

  /** How far B at (x, y) must move to be free of A, mm; 0 where it is free or touches. */
  depth(x: number, y: number): number {
    if (x <= this.minX || x >= this.maxX || y <= this.minY || y >= this.maxY) return 0;
    if (this.source) return this.source.depth(this.offX + this.sign * x, this.offY + this.sign * y);
    if (this.starts.length > 2) return this.depthInMany(x, y);
    const { lines } = this;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < lines.length; k += 3) {
      const depth = lines[k]! * x + lines[k + 1]! * y - lines[k + 2]!;
      if (depth < least) {
        if (depth <= TOUCH) return 0;
        least = depth;
      }
    }
    return least;
  }

  private depthInMany(x: number, y: number): number {
    if (this.raster) return this.raster.depth(x, y);
    if (this.asked < WORTH_A_RASTER) this.asked++;
    else if (this.rasters.left > 0) {
      this.rasters.left--;
      this.raster = new DepthGrid(this, this.border, this.lines, this.starts, TOUCH);
    }
    return this.overlaps(x, y) ? this.distanceToBorder(x, y) : 0;
  }

  private distanceToBorder(x: number, y: number): number {
    const { border } = this;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < border.length; k += 4) {
      const ux = border[k + 2]! - border[k]!;
      const uy = border[k + 3]! - border[k + 1]!;
      const px = x - border[k]!;
      const py = y - border[k + 1]!;
      const t = Math.min(1, Math.max(0, (px * ux + py * uy) / (ux * ux + uy * uy)));
      const square = (px - t * ux) ** 2 + (py - t * uy) ** 2;
      if (square < least) least = square;
    }
    return Math.sqrt(least);
  }

  /** What of a part's edges lies in no other part. */
  private freeEdges(part: Ring, own: number): number[] {
    const free: number[] = [];
    const spans: [number, number][] = [];
    for (let i = 0; i < part.length; i++) {
      const [p, q] = [part[i]!, part[(i + 1) % part.length]!];
      spans.length = 0;
      if (this.isCovered(own, p[0], p[1], q[0], q[1], spans)) continue;
      let at = 0;
      for (const [from, to] of spans.sort((a, b) => a[0] - b[0])) {
        if (from > at) pushSpan(free, p, q, at, from);
        at = Math.max(at, to);
      }
      if (at < 1) pushSpan(free, p, q, at, 1);
    }
    return free;
  }

  /** Whether one other part covers the whole edge from a to b; if none does, the spans of it, 0 to 1, that lie inside others. */
  private isCovered(own: number, ax: number, ay: number, bx: number, by: number, spans: [number, number][]): boolean {
    const { starts, lines } = this;
    for (let part = 0; part + 1 < starts.length; part++) {
      if (part === own) continue;
      let from = 0;
      let to = 1;
      const end = 3 * starts[part + 1]!;
      for (let k = 3 * starts[part]!; k < end && from < to; k += 3) {
        const nx = lines[k]!;
        const ny = lines[k + 1]!;
        const least = lines[k + 2]! + TOUCH;
        const a = nx * ax + ny * ay - least;
        const b = nx * bx + ny * by - least;
        if (a < 0) {
          if (b <= 0) to = 0;
          else from = Math.max(from, a / (a - b));
        } else if (b < 0) to = Math.min(to, a / (a - b));
      }
      if (from >= to) continue;
      if (from === 0 && to === 1) return true;
      spans.push([from, to]);
    }
    return false;
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

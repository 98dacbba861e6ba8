/** Most cells along a side. */
const MOST = 24;
/** What a cell knows: nothing yet, that it is free, or that it is inside; on the border, where its list begins. */
const UNKNOWN = 0;
const FREE = -1;
const INSIDE = -2;
/** Numbers kept of a border line: where it begins, its direction, one over its length squared. */
const STRIDE = 5;
const FIRST_ROOM = 128;

/**
 * A raster over the places where one piece may not lie beside another. Each cell knows whether it is free, inside or on the border,
 * from the first question about it on. On the border it knows which parts and border lines can matter to a point in it, so that an
 * exact answer takes a few steps however many parts there are; inside, depths between its corners are interpolated.
 */
export class DepthGrid {
  private readonly minX: number;
  private readonly minY: number;
  private readonly perX: number;
  private readonly perY: number;
  private readonly nx: number;
  private readonly ny: number;
  /** Half a diagonal of a cell, and a touch. */
  private readonly half: number;
  private readonly cells: Int32Array;
  /**
   * Of each cell on the border: where its border lines begin, where they end, then its parts, each as where the next one begins and
   * its lines that cross the cell, then its border lines. Begins with a number that belongs to none.
   */
  private list = new Int32Array(FIRST_ROOM);
  private used = 1;
  private readonly segments: Float64Array;
  /** How far each corner of the cells is from the border, row by row; 0 where nobody has asked. */
  private readonly corners: Float64Array;
  private readonly lines: Float64Array;
  private readonly starts: Int32Array;
  private readonly touch: number;

  /** `lines` and `starts` as in `NoFit`; depths up to `touch` count as none. */
  constructor(
    box: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number },
    border: Float64Array,
    lines: Float64Array,
    starts: Int32Array,
    touch: number,
  ) {
    const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
    const cell = Math.max(width, height) / MOST;
    this.nx = Math.max(1, Math.ceil(width / cell));
    this.ny = Math.max(1, Math.ceil(height / cell));
    this.minX = box.minX;
    this.minY = box.minY;
    this.perX = this.nx / width;
    this.perY = this.ny / height;
    this.half = Math.sqrt((width / this.nx) ** 2 + (height / this.ny) ** 2) / 2 + touch;
    this.lines = lines;
    this.starts = starts;
    this.touch = touch;
    const count = border.length / 4;
    this.segments = new Float64Array(STRIDE * count);
    for (let s = 0; s < count; s++) {
      const [ux, uy] = [border[4 * s + 2]! - border[4 * s]!, border[4 * s + 3]! - border[4 * s + 1]!];
      this.segments[STRIDE * s] = border[4 * s]!;
      this.segments[STRIDE * s + 1] = border[4 * s + 1]!;
      this.segments[STRIDE * s + 2] = ux;
      this.segments[STRIDE * s + 3] = uy;
      this.segments[STRIDE * s + 4] = 1 / (ux * ux + uy * uy);
    }
    this.cells = new Int32Array(this.nx * this.ny);
    this.corners = new Float64Array((this.nx + 1) * (this.ny + 1));
  }

  /** Of a point inside the box: how far it is from free ground, nearly where that is far; exactly 0 where it is free. */
  depth(x: number, y: number): number {
    const gx = (x - this.minX) * this.perX;
    const gy = (y - this.minY) * this.perY;
    // Rounding may put a point of the last cell one further.
    const cx = Math.min(this.nx - 1, Math.floor(gx));
    const cy = Math.min(this.ny - 1, Math.floor(gy));
    const cell = cy * this.nx + cx;
    let known = this.cells[cell]!;
    if (known === UNKNOWN) known = this.learn(cx, cy);
    if (known === FREE) return 0;
    if (known === INSIDE) {
      const { corners } = this;
      const c = cell + cy;
      const d = c + this.nx + 1;
      const [u, v] = [gx - cx, gy - cy];
      const low = corners[c]! + u * (corners[c + 1]! - corners[c]!);
      return low + v * (corners[d]! + u * (corners[d + 1]! - corners[d]!) - low);
    }
    const { list } = this;
    const from = list[known]!;
    if (!this.isInAnyOf(known + 2, from, x, y)) return 0;
    const end = list[known + 1]!;
    let least = Number.POSITIVE_INFINITY;
    for (let k = from; k < end; k++) {
      const square = this.square(STRIDE * list[k]!, x, y);
      if (square < least) least = square;
    }
    return Math.sqrt(least);
  }

  private isInAnyOf(from: number, end: number, x: number, y: number): boolean {
    const { list, lines, touch } = this;
    let p = from;
    while (p < end) {
      const next = list[p++]!;
      for (; p < next; p++) {
        const k = 3 * list[p]!;
        if (lines[k]! * x + lines[k + 1]! * y - lines[k + 2]! <= touch) break;
      }
      if (p === next) return true;
      p = next;
    }
    return false;
  }

  /** Finds out about a cell. */
  private learn(cx: number, cy: number): number {
    const { nx, perX, perY, half } = this;
    const [x, y] = [this.minX + (cx + 0.5) / perX, this.minY + (cy + 0.5) / perY];
    const known = this.parts(x, y);
    this.cells[cy * nx + cx] = known;
    if (known === INSIDE) {
      for (const [px, py] of [
        [cx, cy],
        [cx + 1, cy],
        [cx, cy + 1],
        [cx + 1, cy + 1],
      ] as const) {
        const c = py * (nx + 1) + px;
        if (this.corners[c] === 0) this.corners[c] = this.toBorder(this.minX + px / perX, this.minY + py / perY);
      }
    } else if (known !== FREE) {
      this.list[known] = this.used;
      const far = (this.toBorder(x, y) + 2 * half) ** 2;
      for (let s = 0; s < this.segments.length; s += STRIDE) if (this.square(s, x, y) <= far) this.add(s / STRIDE);
      this.list[known + 1] = this.used;
    }
    return known;
  }

  /** Lists the parts that can matter in the cell round a point; what that makes of it. */
  private parts(x: number, y: number): number {
    const { lines, starts, half, used: begin } = this;
    this.add(0);
    this.add(0);
    for (let part = 0; part + 1 < starts.length; part++) {
      const at = this.used;
      this.add(0);
      let least = Number.POSITIVE_INFINITY;
      for (let k = 3 * starts[part]!; k < 3 * starts[part + 1]! && least > -half; k += 3) {
        const depth = lines[k]! * x + lines[k + 1]! * y - lines[k + 2]!;
        least = Math.min(least, depth);
        // A line farther off has the whole cell on its inner side.
        if (depth < half) this.add(k / 3);
      }
      if (least >= half) {
        this.used = begin;
        return INSIDE;
      }
      if (least > -half) this.list[at] = this.used;
      else this.used = at;
    }
    if (this.used > begin + 2) return begin;
    this.used = begin;
    return FREE;
  }

  private add(value: number): void {
    if (this.used === this.list.length) {
      const longer = new Int32Array(2 * this.used);
      longer.set(this.list);
      this.list = longer;
    }
    this.list[this.used++] = value;
  }

  /** Distance from the nearest of all border lines. */
  private toBorder(x: number, y: number): number {
    let least = Number.POSITIVE_INFINITY;
    for (let s = 0; s < this.segments.length; s += STRIDE) least = Math.min(least, this.square(s, x, y));
    return Math.sqrt(least);
  }

  private square(s: number, x: number, y: number): number {
    const { segments } = this;
    const px = x - segments[s]!;
    const py = y - segments[s + 1]!;
    const ux = segments[s + 2]!;
    const uy = segments[s + 3]!;
    const t = (px * ux + py * uy) * segments[s + 4]!;
    if (t <= 0) return px * px + py * py;
    const dx = t >= 1 ? px - ux : px - t * ux;
    const dy = t >= 1 ? py - uy : py - t * uy;
    return dx * dx + dy * dy;
  }
}

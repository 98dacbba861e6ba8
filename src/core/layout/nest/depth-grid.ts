/** Most cells along a side. */
const MOST = 24;
const FREE = 0;
const INSIDE = 1;
const BORDER = 2;
/** Numbers kept of a border line: where it begins, its direction, one over its length squared. */
const STRIDE = 5;

/**
 * A raster over the places where one piece may not lie beside another. Each cell knows whether it is free, inside or on the border.
 * On the border it knows which parts and border lines can matter to a point in it, so that an exact answer takes a few steps
 * however many parts there are; inside, depths between its corners are interpolated.
 */
export class DepthGrid {
  private readonly minX: number;
  private readonly minY: number;
  private readonly perX: number;
  private readonly perY: number;
  private readonly nx: number;
  private readonly ny: number;
  private readonly state: Uint8Array;
  /**
   * Of each cell: where its parts begin in `list`, where its border lines begin, where they end. A part is where the next one
   * begins, then its lines that cross the cell.
   */
  private readonly spans: Int32Array;
  private readonly list: Int32Array;
  private readonly segments: Float64Array;
  /** How far each corner of the cells is from the border, row by row. */
  private readonly corners: Float64Array;
  private readonly lines: Float64Array;
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
    const ny = Math.max(1, Math.ceil(height / cell));
    this.ny = ny;
    this.minX = box.minX;
    this.minY = box.minY;
    this.perX = this.nx / width;
    this.perY = ny / height;
    this.lines = lines;
    this.touch = touch;
    const count = border.length / 4;
    this.segments = new Float64Array(STRIDE * count);
    for (let s = 0; s < count; s++) {
      const [ux, uy] = [border[4 * s + 2]! - border[4 * s]!, border[4 * s + 3]! - border[4 * s + 1]!];
      this.segments.set([border[4 * s]!, border[4 * s + 1]!, ux, uy, 1 / (ux * ux + uy * uy)], STRIDE * s);
    }
    this.state = new Uint8Array(this.nx * ny);
    this.spans = new Int32Array(3 * this.nx * ny);
    const list: number[] = [];
    const half = Math.sqrt((width / this.nx) ** 2 + (height / ny) ** 2) / 2 + touch;
    const away = new Float64Array(count);
    for (let cy = 0; cy < ny; cy++)
      for (let cx = 0; cx < this.nx; cx++) {
        const [x, y] = [box.minX + (cx + 0.5) / this.perX, box.minY + (cy + 0.5) / this.perY];
        this.fill(cy * this.nx + cx, x, y, half, starts, away, list);
      }
    this.list = Int32Array.from(list);
    const across = this.nx + 1;
    this.corners = new Float64Array(across * (ny + 1));
    this.state.forEach((state, cell) => {
      if (state !== INSIDE) return;
      const cx = cell % this.nx;
      const cy = (cell - cx) / this.nx;
      for (const c of [cy * across + cx, cy * across + cx + 1, (cy + 1) * across + cx, (cy + 1) * across + cx + 1]) {
        if (this.corners[c] !== 0) continue;
        const x = box.minX + (c % across) / this.perX;
        this.corners[c] = this.toBorder(0, count, null, x, box.minY + Math.floor(c / across) / this.perY);
      }
    });
  }

  /** Distance from the nearest of some border lines: of the first ones, or of those that the list names. */
  private toBorder(from: number, end: number, list: Int32Array | null, x: number, y: number): number {
    let least = Number.POSITIVE_INFINITY;
    for (let k = from; k < end; k++) {
      const square = this.square(STRIDE * (list ? list[k]! : k), x, y);
      if (square < least) least = square;
    }
    return Math.sqrt(least);
  }

  private fill(
    cell: number,
    x: number,
    y: number,
    half: number,
    starts: Int32Array,
    away: Float64Array,
    list: number[],
  ): void {
    const { lines, spans } = this;
    spans[3 * cell] = list.length;
    let isInside = false;
    for (let part = 0; part + 1 < starts.length && !isInside; part++) {
      const at = list.push(0) - 1;
      let least = Number.POSITIVE_INFINITY;
      for (let k = 3 * starts[part]!; k < 3 * starts[part + 1]! && least > -half; k += 3) {
        const depth = lines[k]! * x + lines[k + 1]! * y - lines[k + 2]!;
        least = Math.min(least, depth);
        // A line farther off has the whole cell on its inner side.
        if (depth < half) list.push(k / 3);
      }
      if (least >= half) isInside = true;
      else if (least > -half) list[at] = list.length;
      else list.length = at;
    }
    if (isInside) list.length = spans[3 * cell]!;
    this.state[cell] = isInside ? INSIDE : list.length > spans[3 * cell]! ? BORDER : FREE;
    spans[3 * cell + 1] = list.length;
    if (this.state[cell] === BORDER) {
      let nearest = Number.POSITIVE_INFINITY;
      for (let s = 0; s < away.length; s++) {
        const distance = Math.sqrt(this.square(STRIDE * s, x, y));
        away[s] = distance;
        if (distance < nearest) nearest = distance;
      }
      for (let s = 0; s < away.length; s++) if (away[s]! <= nearest + 2 * half) list.push(s);
    }
    spans[3 * cell + 2] = list.length;
  }

  /** Of a point inside the box: how far it is from free ground, nearly where that is far; exactly 0 where it is free. */
  depth(x: number, y: number): number {
    const gx = (x - this.minX) * this.perX;
    const gy = (y - this.minY) * this.perY;
    // Rounding may put a point of the last cell one further.
    const cx = Math.min(this.nx - 1, Math.floor(gx));
    const cy = Math.min(this.ny - 1, Math.floor(gy));
    const cell = cy * this.nx + cx;
    const state = this.state[cell]!;
    if (state === FREE) return 0;
    if (state === INSIDE) {
      const { corners } = this;
      const c = cell + cy;
      const d = c + this.nx + 1;
      const [u, v] = [gx - cx, gy - cy];
      const low = corners[c]! + u * (corners[c + 1]! - corners[c]!);
      return low + v * (corners[d]! + u * (corners[d + 1]! - corners[d]!) - low);
    }
    const { spans } = this;
    const from = spans[3 * cell + 1]!;
    if (!this.isInAnyOf(spans[3 * cell]!, from, x, y)) return 0;
    return this.toBorder(from, spans[3 * cell + 2]!, this.list, x, y);
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

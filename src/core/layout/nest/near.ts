import type { NoFit } from './no-fit.ts';

/** The others on a sheet as a moving piece at one turn meets them: where it may not lie, and how much each counts. */
export class Near {
  /** Where the lower left corner of the moving piece's box may lie. */
  minX = 0;
  minY = 0;
  maxX = 0;
  maxY = 0;
  /** How often a point was asked about. */
  asked = 0;
  count = 0;
  readonly fits: NoFit[] = [];
  /** Of each: x and y where it lies, and its weight. */
  readonly at: Float64Array;
  /** Of each: least and greatest x, then y, between which it can be met. */
  private readonly boxes: Float64Array;
  /** Those that can be met within the window. */
  private readonly inWindow: Int32Array;
  private windowCount = 0;

  constructor(most: number) {
    this.boxes = new Float64Array(4 * most);
    this.at = new Float64Array(3 * most);
    this.inWindow = new Int32Array(most);
  }

  clear(): void {
    this.count = 0;
    this.windowCount = 0;
  }

  /** `fit` at (x, y), and what a millimetre of depth in it costs. */
  add(fit: NoFit, x: number, y: number, weight: number): void {
    const { count, boxes, at } = this;
    // Out of reach from anywhere the piece may lie.
    if (x + fit.minX >= this.maxX && this.maxX > this.minX) return;
    if (x + fit.maxX <= this.minX && this.maxX > this.minX) return;
    boxes[4 * count] = x + fit.minX;
    boxes[4 * count + 1] = x + fit.maxX;
    boxes[4 * count + 2] = y + fit.minY;
    boxes[4 * count + 3] = y + fit.maxY;
    at[3 * count] = x;
    at[3 * count + 1] = y;
    at[3 * count + 2] = weight;
    this.fits[count] = fit;
    this.count = count + 1;
  }

  /** Weighted depths of all that the piece overlaps at (x, y); at least `bound` where the sum reaches that. */
  cost(x: number, y: number, bound: number): number {
    this.asked++;
    let sum = 0;
    for (let k = 0; k < this.count && sum < bound; k++) sum += this.costOf(k, x, y);
    return sum;
  }

  /** Weighted depth of the piece at (x, y) in the k-th of the others. */
  private costOf(k: number, x: number, y: number): number {
    const { boxes, at } = this;
    const b = 4 * k;
    if (x <= boxes[b]! || x >= boxes[b + 1]! || y <= boxes[b + 2]! || y >= boxes[b + 3]!) return 0;
    return this.fits[k]!.depth(x - at[3 * k]!, y - at[3 * k + 1]!) * at[3 * k + 2]!;
  }

  /** From here on `costInWindow` answers for points up to (dx, dy) away from (x, y). */
  setWindow(x: number, y: number, dx: number, dy: number): void {
    const { boxes, inWindow, count } = this;
    const [x0, x1, y0, y1] = [x - dx, x + dx, y - dy, y + dy];
    let found = 0;
    for (let k = 0; k < count; k++) {
      const b = 4 * k;
      if (x1 <= boxes[b]! || x0 >= boxes[b + 1]! || y1 <= boxes[b + 2]! || y0 >= boxes[b + 3]!) continue;
      inWindow[found++] = k;
    }
    this.windowCount = found;
  }

  costInWindow(x: number, y: number, bound: number): number {
    const { inWindow, windowCount } = this;
    this.asked++;
    let sum = 0;
    for (let w = 0; w < windowCount && sum < bound; w++) sum += this.costOf(inWindow[w]!, x, y);
    return sum;
  }

  /**
   * Border lines within `reach` of a point, of all that can be met there and of the room itself: ax, ay, ux, uy each, in `into`;
   * how many, at most as many as it has room for.
   */
  linesNear(x: number, y: number, reach: number, into: Float64Array): number {
    const { boxes, at, fits, count, minX, minY, maxX, maxY } = this;
    const most = into.length / 4;
    let found = 0;
    const square = reach * reach;
    const add = (ax: number, ay: number, ux: number, uy: number): void => {
      if (found >= most) return;
      into[4 * found] = ax;
      into[4 * found + 1] = ay;
      into[4 * found + 2] = ux;
      into[4 * found + 3] = uy;
      found++;
    };
    if (x - minX <= reach) add(minX, minY, 0, maxY - minY);
    if (maxX - x <= reach && maxX > minX) add(maxX, minY, 0, maxY - minY);
    if (y - minY <= reach) add(minX, minY, maxX - minX, 0);
    if (maxY - y <= reach && maxY > minY) add(minX, maxY, maxX - minX, 0);
    for (let k = 0; k < count; k++) {
      const b = 4 * k;
      if (x + reach < boxes[b]! || x - reach > boxes[b + 1]! || y + reach < boxes[b + 2]! || y - reach > boxes[b + 3]!)
        continue;
      const { border } = fits[k]!;
      const px = x - at[3 * k]!;
      const py = y - at[3 * k + 1]!;
      for (let s = 0; s < border.length; s += 4) {
        const ax = border[s]!;
        const ay = border[s + 1]!;
        const ux = border[s + 2]! - ax;
        const uy = border[s + 3]! - ay;
        const length = ux * ux + uy * uy;
        const along = Math.max(0, Math.min(1, ((px - ax) * ux + (py - ay) * uy) / length));
        const dx = px - ax - along * ux;
        const dy = py - ay - along * uy;
        if (dx * dx + dy * dy <= square) add(ax + at[3 * k]!, ay + at[3 * k + 1]!, ux, uy);
      }
    }
    return found;
  }
}

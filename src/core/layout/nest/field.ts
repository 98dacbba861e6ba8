import type { NoFit } from './no-fit.ts';
import type { Pose, Shape, Shapes } from './shapes.ts';

/** A sheet during the search; its box may shrink. */
export interface Bin {
  readonly kind: number;
  readonly gap: number;
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
}

export interface FieldItem {
  /** By kind of sheet. */
  readonly poses: readonly (readonly Pose[])[];
}

/** What stays where it is in a bin. */
export interface FieldFixed {
  readonly bin: number;
  readonly shape: Shape;
  readonly x: number;
  readonly y: number;
  readonly gap: number;
}

/** A copy of where everything lies. */
export interface Spots {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly bin: Int32Array;
  readonly pose: Int32Array;
}

/**
 * All pieces somewhere in their bins, overlapping or not: places, how deep each pair overlaps, and the weight that each pair has
 * gathered by overlapping for long (guided local search; the scheme and its factors after J. Gardeyn, G. Vanden Berghe,
 * T. Wauters, "An open-source heuristic to reboot 2D nesting research", arXiv:2509.13329, 2025).
 */
export class Field {
  readonly items: readonly FieldItem[];
  readonly bins: readonly Bin[];
  /** Pieces, and pieces with what is fixed after them. */
  readonly count: number;
  readonly all: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly bin: Int32Array;
  readonly pose: Int32Array;
  readonly shapeOf: Shape[];
  readonly weight: Float64Array;
  readonly loss: Float64Array;
  /** Of each piece: the sum of its losses. */
  readonly own: Float64Array;
  private readonly shapes: Shapes;
  private readonly fixed: readonly FieldFixed[];
  private readonly fits: (NoFit | undefined)[][][] = [];
  private readonly gaps: number[] = [];

  constructor(shapes: Shapes, items: readonly FieldItem[], bins: readonly Bin[], fixed: readonly FieldFixed[]) {
    this.shapes = shapes;
    this.items = items;
    this.bins = bins;
    this.fixed = fixed;
    this.count = items.length;
    this.all = items.length + fixed.length;
    const { count, all } = this;
    this.x = new Float64Array(all);
    this.y = new Float64Array(all);
    this.bin = new Int32Array(all);
    this.pose = new Int32Array(count);
    this.shapeOf = items.map(({ poses }) => poses.find((list) => list.length > 0)![0]!.shape);
    this.weight = new Float64Array(all * all).fill(1);
    this.loss = new Float64Array(all * all);
    this.own = new Float64Array(count);
    fixed.forEach(({ bin, shape, x, y }, f) => {
      this.x[count + f] = x;
      this.y[count + f] = y;
      this.bin[count + f] = bin;
      this.shapeOf.push(shape);
    });
  }

  posesIn(item: number, bin: number): readonly Pose[] {
    return this.items[item]!.poses[this.bins[bin]!.kind] ?? [];
  }

  /** Where `moving` may not lie beside pieces so far apart, by the shapes of those: what is not there yet `fitOf` adds. */
  fitsBeside(moving: Shape, gap: number): (NoFit | undefined)[] {
    let g = this.gaps.indexOf(gap);
    if (g < 0) g = this.gaps.push(gap) - 1;
    const table = this.fits[g] ?? [];
    this.fits[g] = table;
    const known = table[moving.id];
    if (known) return known;
    const fits = new Array<NoFit | undefined>(this.shapes.list.length).fill(undefined);
    table[moving.id] = fits;
    return fits;
  }

  /** Where `moving` may not lie beside another in this bin; `beside`: what is known of that for the gap of the bin. */
  fitOf(other: number, moving: Shape, bin: number, beside: (NoFit | undefined)[]): NoFit {
    const { gap } = other < this.count ? this.bins[bin]! : this.fixed[other - this.count]!;
    const fits = gap === this.bins[bin]!.gap ? beside : this.fitsBeside(moving, gap);
    const shape = this.shapeOf[other]!;
    const known = fits[shape.id];
    if (known) return known;
    const fit = this.shapes.noFit(shape, moving, gap);
    fits[shape.id] = fit;
    return fit;
  }

  /** Puts a piece somewhere, kept inside the box of the bin; losses are not touched. */
  put(item: number, bin: number, pose: number, x: number, y: number): void {
    const { shape } = this.posesIn(item, bin)[pose]!;
    const { minX, minY, maxX, maxY } = this.bins[bin]!;
    this.bin[item] = bin;
    this.pose[item] = pose;
    this.shapeOf[item] = shape;
    this.x[item] = Math.max(minX, Math.min(x, maxX - shape.width));
    this.y[item] = Math.max(minY, Math.min(y, maxY - shape.height));
  }

  /** Losses of one piece with all others, from where they lie. */
  measure(item: number): void {
    const { all, count, x, y, bin, loss, own } = this;
    const mine = this.shapeOf[item]!;
    const b = bin[item]!;
    const fits = this.fitsBeside(mine, this.bins[b]!.gap);
    let sum = 0;
    for (let q = 0; q < all; q++) {
      if (q === item) continue;
      let depth = 0;
      if (bin[q] === b)
        depth =
          this.fitOf(q, mine, b, fits).depth(x[item]! - x[q]!, y[item]! - y[q]!) * mine.heft * this.shapeOf[q]!.heft;
      const before = loss[item * all + q]!;
      if (depth !== before) {
        loss[item * all + q] = depth;
        loss[q * all + item] = depth;
        if (q < count) own[q] = Math.max(0, own[q]! + depth - before);
      }
      sum += depth;
    }
    own[item] = sum;
  }

  measureAll(): void {
    this.loss.fill(0);
    this.own.fill(0);
    for (let item = 0; item < this.count; item++) this.measure(item);
    this.addUp();
  }

  /** Sums anew, free of what rounding left; the total of all losses, 0 where nothing overlaps. */
  addUp(): number {
    const { all, count, loss, own } = this;
    let total = 0;
    for (let item = 0; item < count; item++) {
      let sum = 0;
      for (let q = 0; q < all; q++) sum += loss[item * all + q]!;
      own[item] = sum;
      total += sum;
    }
    return total;
  }

  resetWeights(): void {
    this.weight.fill(1);
  }

  /** Pairs that overlap count more from now on, the worst twice as much; the others less and less, down to 1. */
  learn(): void {
    const { weight, loss } = this;
    let worst = 0;
    for (let k = 0; k < loss.length; k++) if (loss[k]! > worst) worst = loss[k]!;
    for (let k = 0; k < loss.length; k++) {
      const deep = loss[k]!;
      if (deep > 0) weight[k] = weight[k]! * (LEAST_GROWTH + ((MOST_GROWTH - LEAST_GROWTH) * deep) / worst);
      else if (weight[k]! > 1) weight[k] = Math.max(1, weight[k]! * DECAY);
    }
  }

  spots(): Spots {
    return { x: this.x.slice(), y: this.y.slice(), bin: this.bin.slice(), pose: this.pose.slice() };
  }

  restore(spots: Spots): void {
    for (let item = 0; item < this.count; item++)
      this.put(item, spots.bin[item]!, spots.pose[item]!, spots.x[item]!, spots.y[item]!);
    this.measureAll();
  }
}

const LEAST_GROWTH = 1.2;
const MOST_GROWTH = 2;
const DECAY = 0.95;

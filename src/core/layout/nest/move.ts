import type { Random } from '../../random.ts';
import type { Field } from './field.ts';
import { Near } from './near.ts';

/** Points tried all over the bins, near where the piece lies, and where it touches something. */
const ANYWHERE = 30;
const AROUND = 20;
const TOUCHING = 20;
/** So many of the best are refined. */
const KEPT = 3;
/** Bins and turns looked at in one move. */
const MOST_COMBOS = 8;
/** Steps of the refinement as shares of the piece's smaller side. */
const COARSE = [0.25, 0.02] as const;
/** At the end the piece looks for exact contact within this. */
const SETTLE = 0.06;
const MOST_LINES = 16;
const MOST_TURNS = 3;

interface Candidate {
  combo: number;
  x: number;
  y: number;
  cost: number;
}

/** Moves single pieces of a field to where they cost least. */
export class Mover {
  private readonly field: Field;
  private readonly random: Random;
  private readonly nears: Near[] = [];
  private readonly comboBin: number[] = [];
  private readonly comboPose: number[] = [];
  private readonly best: Candidate[] = [];
  private readonly lines = new Float64Array(4 * MOST_LINES);
  /** Points asked about so far: the measure of work done. */
  work = 0;

  constructor(field: Field, random: Random) {
    this.field = field;
    this.random = random;
    for (let k = 0; k < MOST_COMBOS; k++) this.nears.push(new Near(field.all));
    for (let k = 0; k < KEPT; k++) this.best.push({ combo: 0, x: 0, y: 0, cost: Number.POSITIVE_INFINITY });
  }

  /** Looks for a better place for a piece and puts it there; where none is better it stays. */
  move(item: number): void {
    const { field, best } = this;
    const combos = this.chooseCombos(item);
    const [x0, y0] = [field.x[item]!, field.y[item]!];
    for (const one of best) one.cost = Number.POSITIVE_INFINITY;
    const now = this.nears[0]!.cost(x0, y0, Number.POSITIVE_INFINITY);
    this.keep(0, x0, y0, now);
    this.sample(item, combos, x0, y0);
    const shape = field.posesIn(item, this.comboBin[0]!)[this.comboPose[0]!]!.shape;
    const size = Math.min(shape.width, shape.height);
    let winner = best[0]!;
    for (const one of best) {
      if (one.cost === Number.POSITIVE_INFINITY) continue;
      this.descend(one, size * COARSE[0], size * COARSE[1]);
      if (one.cost < winner.cost) winner = one;
    }
    if (winner.cost > 0) this.settle(winner, size * SETTLE);
    for (let k = 0; k < combos; k++) {
      this.work += this.nears[k]!.asked;
      this.nears[k]!.asked = 0;
    }
    if (winner.cost > now || (winner.combo === 0 && winner.x === x0 && winner.y === y0)) return;
    field.put(item, this.comboBin[winner.combo]!, this.comboPose[winner.combo]!, winner.x, winner.y);
    field.measure(item);
  }

  /** The present bin and turn first, then others by chance; how many. */
  private chooseCombos(item: number): number {
    const { field, random } = this;
    const total: [number, number][] = [];
    for (let bin = 0; bin < field.bins.length; bin++) {
      const count = field.posesIn(item, bin).length;
      for (let pose = 0; pose < count; pose++)
        if (bin !== field.bin[item] || pose !== field.pose[item]) total.push([bin, pose]);
    }
    let combos = 0;
    this.prepare(item, combos++, field.bin[item]!, field.pose[item]!);
    while (combos < MOST_COMBOS && total.length > 0) {
      const pick = Math.floor(random() * total.length);
      const [bin, pose] = total[pick]!;
      total[pick] = total.at(-1)!;
      total.pop();
      const { shape } = field.posesIn(item, bin)[pose]!;
      const box = field.bins[bin]!;
      if (shape.width > box.maxX - box.minX || shape.height > box.maxY - box.minY) continue;
      this.prepare(item, combos++, bin, pose);
    }
    return combos;
  }

  private prepare(item: number, combo: number, bin: number, pose: number): void {
    const { field } = this;
    const near = this.nears[combo]!;
    const { shape } = field.posesIn(item, bin)[pose]!;
    const box = field.bins[bin]!;
    this.comboBin[combo] = bin;
    this.comboPose[combo] = pose;
    near.clear();
    near.minX = box.minX;
    near.minY = box.minY;
    near.maxX = Math.max(box.minX, box.maxX - shape.width);
    near.maxY = Math.max(box.minY, box.maxY - shape.height);
    const { x, y, weight, all, bin: bins } = field;
    const fits = field.fitsBeside(shape, box.gap);
    for (let q = 0; q < all; q++) {
      if (q === item || bins[q] !== bin) continue;
      near.add(
        field.fitOf(q, shape, bin, fits),
        x[q]!,
        y[q]!,
        weight[item * all + q]! * shape.heft * field.shapeOf[q]!.heft,
      );
    }
  }

  private sample(item: number, combos: number, x0: number, y0: number): void {
    const { random, nears, field } = this;
    const shape = field.shapeOf[item]!;
    for (let k = 0; k < ANYWHERE + AROUND + TOUCHING; k++) {
      const combo = k % combos;
      const near = nears[combo]!;
      if (k < ANYWHERE)
        this.ask(combo, near.minX + random() * (near.maxX - near.minX), near.minY + random() * (near.maxY - near.minY));
      else if (k < ANYWHERE + AROUND) {
        if (this.comboBin[combo] !== this.comboBin[0]) continue;
        this.ask(combo, x0 + (random() - 0.5) * shape.width, y0 + (random() - 0.5) * shape.height);
      } else this.askTouching(combo);
    }
  }

  /** A spot where a corner touches another piece's corner, by chance. */
  private askTouching(combo: number): void {
    const near = this.nears[combo]!;
    if (near.count === 0) return;
    const k = Math.floor(this.random() * near.count);
    const { border } = near.fits[k]!;
    const c = 2 * Math.floor((this.random() * border.length) / 2);
    const x = border[c]! + near.at[3 * k]!;
    const y = border[c + 1]! + near.at[3 * k + 1]!;
    if (x >= near.minX && x <= near.maxX && y >= near.minY && y <= near.maxY) this.ask(combo, x, y);
  }

  private ask(combo: number, px: number, py: number): void {
    const near = this.nears[combo]!;
    const x = Math.max(near.minX, Math.min(near.maxX, px));
    const y = Math.max(near.minY, Math.min(near.maxY, py));
    const bound = this.best[KEPT - 1]!.cost;
    const cost = near.cost(x, y, bound);
    if (cost < bound) this.keep(combo, x, y, cost);
  }

  private keep(combo: number, x: number, y: number, cost: number): void {
    const { best } = this;
    let at = KEPT - 1;
    const last = best[at]!;
    while (at > 0 && best[at - 1]!.cost > cost) {
      best[at] = best[at - 1]!;
      at--;
    }
    best[at] = last;
    last.combo = combo;
    last.x = x;
    last.y = y;
    last.cost = cost;
  }

  /** Coordinate descent along x, y and both diagonals: longer steps after a success, shorter after a failure. */
  private descend(one: Candidate, start: number, end: number): void {
    const { random } = this;
    const near = this.nears[one.combo]!;
    const { minX, minY, maxX, maxY } = near;
    const room = start * 4;
    let [step, windowX, windowY] = [start, one.x, one.y];
    near.setWindow(one.x, one.y, room, room);
    while (step > end && one.cost > 0) {
      const axis = Math.floor(random() * 4);
      const dx = axis === 1 ? 0 : step;
      const dy = axis === 0 ? 0 : axis === 3 ? -step : step;
      if (Math.abs(one.x - windowX) + step > room || Math.abs(one.y - windowY) + step > room) {
        [windowX, windowY] = [one.x, one.y];
        near.setWindow(one.x, one.y, room, room);
      }
      const ax = Math.max(minX, Math.min(maxX, one.x + dx));
      const ay = Math.max(minY, Math.min(maxY, one.y + dy));
      const a = near.costInWindow(ax, ay, one.cost);
      const bx = Math.max(minX, Math.min(maxX, one.x - dx));
      const by = Math.max(minY, Math.min(maxY, one.y - dy));
      const b = near.costInWindow(bx, by, Math.min(a, one.cost));
      if (a < one.cost || b < one.cost) {
        one.x = b < a ? bx : ax;
        one.y = b < a ? by : ay;
        one.cost = Math.min(a, b);
        step *= 1.1;
      } else step *= 0.5;
    }
  }

  /** Tries every point nearby where two border lines cross, and the nearest point of each: exact contact, which steps never hit. */
  private settle(one: Candidate, reach: number): void {
    const { lines } = this;
    const near = this.nears[one.combo]!;
    for (let turn = 0; turn < MOST_TURNS && one.cost > 0; turn++) {
      const [x, y, before] = [one.x, one.y, one.cost];
      near.setWindow(x, y, 2 * reach, 2 * reach);
      const count = near.linesNear(x, y, reach, lines);
      for (let i = 0; i < count && one.cost > 0; i++) {
        const ax = lines[4 * i]!;
        const ay = lines[4 * i + 1]!;
        const ux = lines[4 * i + 2]!;
        const uy = lines[4 * i + 3]!;
        const length = ux * ux + uy * uy;
        if (length === 0) continue;
        const along = Math.max(0, Math.min(1, ((x - ax) * ux + (y - ay) * uy) / length));
        this.offer(near, one, ax + along * ux, ay + along * uy);
        for (let j = 0; j < i; j++) {
          const vx = lines[4 * j + 2]!;
          const vy = lines[4 * j + 3]!;
          const det = ux * vy - uy * vx;
          const t = ((lines[4 * j]! - ax) * vy - (lines[4 * j + 1]! - ay) * vx) / det;
          const cx = ax + t * ux;
          const cy = ay + t * uy;
          if (Math.abs(cx - x) <= 2 * reach && Math.abs(cy - y) <= 2 * reach) this.offer(near, one, cx, cy);
        }
      }
      if (one.cost >= before * 0.99) break;
    }
  }

  private offer(near: Near, one: Candidate, px: number, py: number): void {
    const x = Math.max(near.minX, Math.min(near.maxX, px));
    const y = Math.max(near.minY, Math.min(near.maxY, py));
    const cost = near.costInWindow(x, y, one.cost);
    if (cost >= one.cost) return;
    one.x = x;
    one.y = y;
    one.cost = cost;
  }
}

import { add2, distance2, left2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { isSameLength, NOISE_MM } from '../tolerance.ts';
import type { Ruler } from '../units/units.ts';
import { stepsAlong, tangent } from './plan-curve.ts';
import type { LineUse, SetOutLine, SetOutMark, SetOutStep, StripEdge } from './set-out.ts';
import type { WholeTemplate } from './whole-template.ts';
import * as words from './words.ts';

/** A point to be ticked or plotted. */
export interface PadPoint {
  readonly at: Vec2;
  readonly isShort?: boolean;
}

/** Steps about some marks, which may be done again about others. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly marks: readonly number[];
}

/** A strip while it is set out: marks, lines and steps in the order in which they are drawn. Marks are named by their numbers. */
export class Pad {
  readonly marks: SetOutMark[] = [];
  readonly lines: SetOutLine[] = [];
  readonly steps: SetOutStep[] = [];
  readonly #drawn = new Set<string>();
  readonly width: number;
  readonly height: number;
  readonly ruler: Ruler;
  /** Of a template every edge is drawn; else those along the edges of the strip are there already. */
  readonly isTemplate: boolean;

  constructor(width: number, height: number, ruler: Ruler, isTemplate = false) {
    this.width = width;
    this.height = height;
    this.ruler = ruler;
    this.isTemplate = isTemplate;
  }

  /** The number of the mark at a point, if there is one. */
  find(point: Vec2): number | undefined {
    return this.marks.find(({ at }) => distance2(at, point) <= NOISE_MM)?.number;
  }

  numberAt(point: Vec2): number {
    const found = this.find(point);
    if (found === undefined) throw new Error(`no mark at ${point.join(', ')}`);
    return found;
  }

  at(number: number): Vec2 {
    return (this.marks[number - 1] as SetOutMark).at;
  }

  figure(mm: number): string {
    return words.figure(mm, this.ruler);
  }

  edgeAt([x, y]: Vec2): StripEdge | null {
    if (isSameLength(y, 0)) return 'bottom';
    if (isSameLength(y, this.height)) return 'top';
    if (isSameLength(x, 0)) return 'left';
    return isSameLength(x, this.width) ? 'right' : null;
  }

  /** Ticks the points that lie on edges and are not there yet; returns the points that lie on none. */
  tick(points: readonly PadPoint[], from: words.End, stepsOn = false): readonly PadPoint[] {
    const fresh = points.filter(
      ({ at }, i) =>
        this.find(at) === undefined && points.findIndex((other) => distance2(other.at, at) <= NOISE_MM) === i,
    );
    for (const edge of ['bottom', 'top', 'left', 'right'] as const) {
      const own = fresh
        .filter(({ at }) => this.edgeAt(at) === edge)
        .map((point) => ({ ...point, value: this.#valueOn(edge, point.at, from), isShort: point.isShort ?? false }))
        .sort((a, b) => a.value - b.value);
      const isLevel = edge === 'bottom' || edge === 'top';
      const corners = own.filter(({ at }) => isLevel && this.#cornerEnd(at) !== null);
      for (const { at } of corners) {
        const number = this.mark(at, edge, '', false);
        this.say(words.cornerSentence(edge as 'bottom', this.#cornerEnd(at) as words.End, number), [number]);
      }
      const ticks = own.filter((tick) => !corners.includes(tick));
      if (ticks.length === 0) continue;
      const numbers = ticks.map(({ at, value, isShort }) => this.mark(at, edge, this.figure(value), isShort));
      const list = words.tickList(
        ticks.map(({ value, isShort }) => ({ at: value, isShort })),
        stepsOn,
        this.ruler,
      );
      this.say(words.tickSentence(edge, from, list, words.markWords(numbers[0] as number, numbers.length)), numbers);
    }
    return fresh.filter(({ at }) => this.edgeAt(at) === null);
  }

  /** Two ticks on one edge at the same distance from a middle. */
  tickEither(edge: 'bottom' | 'top', middle: number, half: number, from: words.End): void {
    const y = edge === 'bottom' ? 0 : this.height;
    const ends = from === 'left' ? [middle - half, middle + half] : [middle + half, middle - half];
    const numbers = ends.map((x) => this.mark([x, y], edge, this.figure(from === 'left' ? x : this.width - x), false));
    const value = from === 'left' ? middle : this.width - middle;
    const marks = words.markWords(numbers[0] as number, 2);
    this.say(words.eitherSentence(edge, from, this.figure(half), this.figure(value), marks), numbers);
  }

  /** A point by its distances from an upright edge and from the bottom. */
  plot(at: Vec2, from: words.End): number {
    const known = this.find(at);
    if (known !== undefined) return known;
    const number = this.mark(at, null, '', false);
    const across = this.figure(from === 'left' ? at[0] : this.width - at[0]);
    this.say(words.plotSentence(number, from, across, this.figure(at[1])), [number]);
    return number;
  }

  /** A point beyond the bottom or the top edge, on scrap that is taped there, by its distances from an end of that edge and off it. */
  plotOff(at: Vec2, edge: 'bottom' | 'top', from: words.End): number {
    const known = this.find(at);
    if (known !== undefined) return known;
    this.say(words.tapeSentence(edge));
    const number = this.mark(at, null, '', false);
    const across = this.figure(from === 'left' ? at[0] : this.width - at[0]);
    const off = this.figure(edge === 'bottom' ? -at[1] : at[1] - this.height);
    this.say(words.scrapSentence(number, edge, from, { across, off }), [number]);
    return number;
  }

  /** Points square off a drawn line: `along` mm from mark a towards b (back where under 0), `off` mm to the left or right of it. */
  square([a, b]: readonly [number, number], along: number, offs: readonly number[]): readonly number[] {
    const [from, to] = [this.at(a), this.at(b)];
    const way = unit2(sub2(to, from));
    const points = offs.map((off) => add2(from, add2(scale2(way, along), scale2(left2(way), off))));
    const first = this.marks.length + 1;
    const numbers = points.map((at) => this.mark(at, null, '', false));
    const sides = offs.map((off) => words.besideOf(scale2(left2(way), Math.sign(off))));
    const where = isSameLength(along, 0)
      ? words.onLine('0', a, false)
      : words.onLine(this.figure(Math.abs(along)), a, along < 0);
    const marks = words.markWords(first, numbers.length);
    this.say(words.squareSentence(marks, [a, b], where, this.figure(Math.abs(offs[0] as number)), sides), numbers);
    return numbers;
  }

  /** Ticks along a line that is drawn, from one of its ends. */
  along(line: readonly [number, number], zero: number, distances: readonly number[]): readonly number[] {
    return this.#beside(line, zero, null, distances);
  }

  /** A tick where a line that is drawn would go on past one of its ends, so far from it. */
  past([a, b]: readonly [number, number], end: number, distance: number): number {
    const start = this.at(end);
    const way = unit2(sub2(start, this.at(end === a ? b : a)));
    const number = this.mark(add2(start, scale2(way, distance)), null, '', true);
    this.say(words.pastSentence([a, b], end, this.figure(distance), number), [number]);
    return number;
  }

  /** Ticks along the ruler's edge, one of its lines laid on a line that is drawn; `side` is a unit vector off that line. */
  parallel(
    line: readonly [number, number],
    zero: number,
    { depth, side }: { readonly depth: number; readonly side: Vec2 },
    distances: readonly number[],
  ): readonly number[] {
    return this.#beside(line, zero, { depth, side }, distances);
  }

  #beside(
    [a, b]: readonly [number, number],
    zero: number,
    ruled: { readonly depth: number; readonly side: Vec2 } | null,
    distances: readonly number[],
  ): readonly number[] {
    const start = this.at(zero);
    const way = unit2(sub2(this.at(zero === a ? b : a), start));
    const off: Vec2 = ruled ? scale2(ruled.side, ruled.depth) : [0, 0];
    const first = this.marks.length + 1;
    const numbers = distances.map((s) => this.mark(add2(add2(start, scale2(way, s)), off), null, '', true));
    const list = words.listed(distances.map((s) => this.figure(s)));
    const marks = words.markWords(first, numbers.length);
    const side = ruled && words.besideOf(ruled.side);
    const text =
      ruled && side
        ? words.parallelSentence(this.figure(ruled.depth), [a, b], zero, side, list, marks)
        : words.alongSentence([a, b], zero, list, marks);
    this.say(text, numbers);
    return numbers;
  }

  /** Whether a line between two marks is there already, or is an edge of the strip. */
  hasLine(a: number, b: number): boolean {
    if (this.#drawn.has(lineKey(a, b))) return true;
    if (this.isTemplate) return false;
    const edges = [this.at(a), this.at(b)].map((p) => this.#edgesAt(p));
    return edges[0]?.some((edge) => edges[1]?.includes(edge)) ?? false;
  }

  /** Straight lines from mark to mark, those that are there left out. */
  join(marks: readonly number[], use: LineUse): void {
    let run: number[] = [];
    const flush = (): void => {
      if (run.length > 1)
        this.draw(
          words.joinSentence(run, use),
          use,
          run.map((n) => this.at(n)),
        );
      run = [];
    };
    marks.forEach((mark, i) => {
      const before = marks[i - 1];
      if (before !== undefined && before !== mark) {
        if (this.hasLine(before, mark)) flush();
        else {
          if (run.length === 0) run.push(before);
          run.push(mark);
          this.#drawn.add(lineKey(before, mark));
        }
      }
    });
    flush();
  }

  /** Several runs of lines for one use, in one sentence. */
  joinAll(runs: readonly (readonly number[])[], use: LineUse): void {
    const [only] = runs;
    if (only && runs.length === 1) {
      this.join(only, use);
      return;
    }
    const fresh = runs.filter((run) => run.length > 1);
    if (fresh.length === 0) return;
    const from = this.lines.length;
    for (const run of fresh) {
      for (const [i, mark] of run.slice(1).entries()) this.#drawn.add(lineKey(run[i] as number, mark));
      this.lines.push({ use, points: run.map((n) => this.at(n)) });
    }
    this.steps.push({ text: words.joinAllSentence(fresh, use), marks: [], lines: fresh.map((_, i) => from + i) });
  }

  curve(marks: readonly number[], use: LineUse): void {
    const [first, last] = [marks[0] as number, marks.at(-1) as number];
    const keys = [marks[1], marks.at(-2)].map((via) => lineKey(first, last, via));
    if (keys.some((key) => this.#drawn.has(key))) return;
    for (const key of keys) this.#drawn.add(key);
    this.draw(
      words.curveSentence(marks, use),
      use,
      marks.map((n) => this.at(n)),
    );
  }

  /** Lines from one mark to each of some others. */
  spokes(centre: number, ends: readonly number[], use: LineUse): void {
    const fresh = ends.filter((end) => !this.hasLine(centre, end));
    if (fresh.length === 0) return;
    const from = this.lines.length;
    for (const end of fresh) {
      this.#drawn.add(lineKey(centre, end));
      this.lines.push({ use, points: [this.at(centre), this.at(end)] });
    }
    this.steps.push({
      text: words.spokesSentence(centre, fresh, use),
      marks: [],
      lines: fresh.map((_, i) => from + i),
    });
  }

  /** A second line beside a curve that is drawn: `off` mm to the left of its way from the mark a to b, below 0 to the right. */
  band([a, b]: readonly [number, number], curve: readonly Vec2[], off: number): void {
    const points = curve.map((p, i) => add2(p, scale2(left2(tangent(curve, i)), off)));
    this.draw(words.bandSentence(this.figure(Math.abs(off)), [a, b], off > 0 ? 'left' : 'right'), 'cut', [
      curve[0] as Vec2,
      ...points,
      curve.at(-1) as Vec2,
    ]);
  }

  /** Notches from points along a curve out to its second line, `off` mm to its left; between them teeth are left. */
  notches(
    [a, b]: readonly [number, number],
    curve: readonly Vec2[],
    { apart, notch, off }: { readonly apart: number; readonly notch: number; readonly off: number },
  ): void {
    const points = stepsAlong(curve, apart);
    if (points.length === 0) return;
    const from = this.lines.length;
    for (const { at, way } of points) {
      const out = add2(at, scale2(left2(way), off));
      const half = scale2(way, notch / 2);
      this.lines.push({ use: 'cut', points: [sub2(out, half), at, add2(out, half)] });
    }
    this.steps.push({
      text: words.notchSentence([a, b], this.figure(apart), points.length, this.figure(notch)),
      marks: [],
      lines: points.map((_, i) => from + i),
    });
  }

  /** The lines of a template that is laid with two of its marks on two of the strip; `on` moves a point of its strip there. */
  trace({ marks, strip, hasHoles }: WholeTemplate, laid: readonly [number, number], on: (p: Vec2) => Vec2): void {
    const from = this.lines.length;
    const lines = strip.lines.filter(({ use }) => use !== 'pencil');
    for (const { use, points } of lines) this.lines.push({ use, points: points.map(on) });
    const second = strip.marks[marks[1] - 1] as SetOutMark;
    const isThere = distance2(on(second.at), this.at(laid[1])) <= NOISE_MM;
    const text = words.traceSentence(marks, laid, { isThere, hasHoles });
    this.steps.push({ text, marks: [], lines: lines.map((_, i) => from + i) });
  }

  /** A step that draws no line. */
  say(text: string, numbers: readonly number[] = []): void {
    this.steps.push({ text, marks: numbers.map((n) => n - 1), lines: [] });
  }

  /**
   * Tells a stretch of steps, which does what another before it did about other marks, in one sentence where both say the same;
   * returns whether they do. The marks of both in one order.
   */
  fold({ from, to, marks }: Stretch, like: Stretch): boolean {
    const own = this.steps.slice(from, to);
    const known = this.steps.slice(like.from, like.to);
    const added = (steps: readonly SetOutStep[]): readonly number[] =>
      steps.flatMap((step) => step.marks.map((m) => m + 1));
    const pairs = like.marks.map((mark, i) => [mark, marks[i] as number] as const);
    const inner = added(known).map((mark, i) => [mark, added(own)[i] as number] as const);
    const other = new Map([...pairs, ...inner]);
    const isSame =
      own.length === known.length && own.every(({ text }, i) => text === words.about(known[i]?.text ?? '', other));
    if (!isSame || own.length < 2) return false;
    this.steps.splice(from, own.length, {
      text: words.againSentence([like.from + 1, like.to], pairs),
      marks: own.flatMap((step) => step.marks),
      lines: own.flatMap((step) => step.lines),
    });
    return true;
  }

  protected draw(text: string, use: LineUse, points: readonly Vec2[], numbers: readonly number[] = []): void {
    this.lines.push({ use, points });
    this.steps.push({ text, marks: numbers.map((n) => n - 1), lines: [this.lines.length - 1] });
  }

  protected mark(at: Vec2, edge: StripEdge | null, text: string, isShort: boolean): number {
    this.marks.push({ number: this.marks.length + 1, at, edge, text, isShort });
    return this.marks.length;
  }

  #valueOn(edge: StripEdge, [x, y]: Vec2, from: words.End): number {
    if (edge === 'left' || edge === 'right') return y;
    return from === 'left' ? x : this.width - x;
  }

  #cornerEnd([x]: Vec2): words.End | null {
    if (isSameLength(x, 0)) return 'left';
    return isSameLength(x, this.width) ? 'right' : null;
  }

  #edgesAt([x, y]: Vec2): readonly StripEdge[] {
    const edges: StripEdge[] = [];
    if (isSameLength(y, 0)) edges.push('bottom');
    if (isSameLength(y, this.height)) edges.push('top');
    if (isSameLength(x, 0)) edges.push('left');
    if (isSameLength(x, this.width)) edges.push('right');
    return edges;
  }
}

const lineKey = (a: number, b: number, via?: number): string =>
  `${Math.min(a, b)}–${Math.max(a, b)}${via === undefined ? '' : `/${via}`}`;

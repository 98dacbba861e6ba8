import { add2, distance2, left2, scale2, sub2, unit2, type Vec2 } from '../../src/core/geometry/vector.ts';
import { MM_PER_INCH } from '../../src/core/units/units.ts';

/** A line as somebody draws it who has nothing but the sentences. */
export interface ReadLine {
  readonly use: 'cut' | 'score' | 'glue' | 'pencil';
  readonly points: readonly Vec2[];
  /** Of a curve: the marks that it goes from and to. */
  readonly between: readonly [Vec2, Vec2] | null;
}

export interface ReadStrip {
  readonly marks: ReadonlyMap<number, Vec2>;
  readonly lines: readonly ReadLine[];
}

const NUM = String.raw`\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?`;
const pattern = (text: string): RegExp =>
  new RegExp(`^${text.replaceAll('NUM', `(${NUM})`).replaceAll('MARK', String.raw`(\d+)`)}$`);

/** Follows the printed sentences of a strip: ticks, joins, parallels, squares, compass. Knows nothing of the roof. */
export class Reader {
  readonly marks = new Map<number, Vec2>();
  readonly lines: ReadLine[] = [];
  readonly #size: Vec2;
  readonly #unit: number;
  /** The arc that is begun: centre, radius, direction, turn. */
  #arc: { readonly centre: Vec2; readonly radius: number; readonly from: number; readonly way: 1 | -1 } | null = null;
  /** The second line of a band of teeth: an arc, or so far to the left of the curve. */
  #second: readonly Vec2[] | number = 0;
  #other = new Map<number, number>();
  #isAgain = false;
  readonly #templates: ReadonlyMap<string, ReadStrip>;
  /** Edges that scrap is taped to. */
  readonly #scrap = new Set<string>();
  /** The template in hand. */
  #taken: ReadStrip | null = null;

  /** `templates`: what was made before from the steps of each, by its name. */
  constructor(size: Vec2, units: 'in' | 'mm', templates: ReadonlyMap<string, ReadStrip> = new Map()) {
    this.#size = size;
    this.#unit = units === 'in' ? MM_PER_INCH : 1;
    this.#templates = templates;
  }

  read(texts: readonly string[]): ReadStrip {
    for (const text of texts) {
      const again = /^Do steps? (\d+)(?: to (\d+))? again with (.+) in place of (.+)\.$/.exec(text);
      if (again) {
        const [now, known] = [numbers(again[3] ?? ''), numbers(again[4] ?? '')];
        this.#other = new Map(known.map((mark, i) => [mark, now[i] as number] as const));
        this.#isAgain = true;
        for (const step of texts.slice(Number(again[1]) - 1, Number(again[2] ?? again[1]))) this.#follow(step);
        this.#isAgain = false;
        this.#other = new Map();
      } else this.#follow(text);
    }
    return { marks: this.marks, lines: this.lines };
  }

  #follow(text: string): void {
    for (const [shape, act] of this.#actions()) {
      const found = shape.exec(text);
      if (found) {
        act(found.slice(1).map((part) => part ?? ''));
        return;
      }
    }
    throw new Error(`a sentence nobody can follow: ${text}`);
  }

  #mm(text: string): number {
    const [whole, part] = text.includes(' ') ? text.split(' ') : text.includes('/') ? ['0', text] : [text, undefined];
    const [top, bottom] = (part ?? '0/1').split('/').map(Number) as [number, number];
    return (Number(whole) + top / bottom) * this.#unit;
  }

  #at(number: string | number): Vec2 {
    const mark = this.#other.get(Number(number)) ?? Number(number);
    const found = this.marks.get(mark);
    if (!found) throw new Error(`mark ${number} is not there yet`);
    return found;
  }

  /** A new mark; done again, it takes the next free number. */
  #set(number: number, at: Vec2): void {
    const mark = this.#isAgain ? this.marks.size + 1 : number;
    if (this.#isAgain) this.#other.set(number, mark);
    if (mark !== this.marks.size + 1) throw new Error(`mark ${mark} is out of its order`);
    this.marks.set(mark, at);
  }

  #setAll(words: string, points: readonly Vec2[]): void {
    const [first = 0, second = first] = numbers(words);
    if (second - first + 1 !== points.length) throw new Error(`${words} for ${points.length} points`);
    for (const [i, at] of points.entries()) this.#set(first + i, at);
  }

  #draw(words: string, points: readonly Vec2[], between: readonly [Vec2, Vec2] | null = null): void {
    const use = words.includes('cut')
      ? 'cut'
      : words.includes('glue')
        ? 'glue'
        : words.includes('pencil')
          ? 'pencil'
          : 'score';
    this.lines.push({ use, points, between });
  }

  #ticks(list: string): readonly number[] {
    const run = pattern('NUM, then NUM on(?: (\\d+) times)?').exec(list);
    if (run) {
      const [a, by] = [this.#mm(run[1] ?? ''), this.#mm(run[2] ?? '')];
      return Array.from({ length: Number(run[3] ?? 1) + 1 }, (_, i) => a + by * i);
    }
    return list.split(/, | and /).map((one) => this.#mm(one.replace('short ', '')));
  }

  /** The curve from one mark to the other, in that direction. */
  #curve(a: string, b: string): readonly Vec2[] {
    const [from, to] = [this.#at(a), this.#at(b)];
    const find = (p: Vec2, q: Vec2): readonly Vec2[] | undefined =>
      this.lines.findLast(({ between }) => between && distance2(between[0], p) + distance2(between[1], q) < 1e-6)
        ?.points;
    const back = find(to, from);
    // So flat that it was joined as a straight line, or along an edge of the strip.
    return find(from, to) ?? (back ? [...back].reverse() : [from, to]);
  }

  /** Chords stepped along the arc that is begun, a mark at each. */
  #stepAlong(from: string, chords: readonly string[], marks: string): void {
    const begun = this.#arc;
    if (!begun) throw new Error('no arc to step along');
    const start = this.#at(from);
    if (Math.abs(distance2(start, begun.centre) - begun.radius) > 1e-6) throw new Error(`${from} is not on the arc`);
    let at = direction(begun.centre, start);
    const by = chords.reduce((sum, chord) => sum + 2 * Math.asin(this.#mm(chord) / 2 / begun.radius), 0);
    this.#draw('pencil', arc(begun.centre, begun.radius, at, by, begun.way === 1 ? 'counter-clockwise' : 'clockwise'));
    this.#setAll(
      marks,
      chords.map((chord) => {
        at += 2 * Math.asin(this.#mm(chord) / 2 / begun.radius) * begun.way;
        return pointOn(begun.centre, begun.radius, at);
      }),
    );
  }

  /** All lines of the template in hand but those that only helped, its mark a laid on p, its mark b towards q. */
  #trace([a, b]: readonly [string, string], [p, q]: readonly [Vec2, Vec2], isThere: boolean): void {
    const taken = this.#taken;
    const [from, to] = [taken?.marks.get(Number(a)), taken?.marks.get(Number(b))];
    if (!taken || !from || !to) throw new Error(`no mark ${a} or ${b} on the template`);
    if (isThere && Math.abs(distance2(from, to) - distance2(p, q)) > 1e-6) throw new Error(`${b} is not there`);
    const turn = direction(p, q) - direction(from, to);
    const on = (point: Vec2): Vec2 =>
      pointOn(p, distance2(from, point), distance2(from, point) === 0 ? 0 : direction(from, point) + turn);
    for (const { use, points } of taken.lines) {
      if (use !== 'pencil') this.lines.push({ use, points: points.map(on), between: null });
    }
  }

  #across(mm: number, from: string): number {
    return from === 'left' ? mm : this.#size[0] - mm;
  }

  #actions(): readonly (readonly [RegExp, (parts: readonly string[]) => void])[] {
    const [width, height] = this.#size;
    return [
      [
        pattern('The (lower|upper) (left|right) corner is mark MARK\\.'),
        ([y, x, n]) => this.#set(Number(n), [x === 'left' ? 0 : width, y === 'lower' ? 0 : height]),
      ],
      [
        pattern('(Bottom|Top) edge, from the (left|right): tick (.+)\\. (Marks? .+)\\.'),
        ([edge, from, list, marks]) =>
          this.#setAll(
            marks as string,
            this.#ticks(list as string).map(
              (mm): Vec2 => [this.#across(mm, from as string), edge === 'Top' ? height : 0],
            ),
          ),
      ],
      [
        pattern('(Left|Right) edge, from the bottom: tick (.+)\\. (Marks? .+)\\.'),
        ([edge, list, marks]) =>
          this.#setAll(
            marks as string,
            this.#ticks(list as string).map((mm): Vec2 => [edge === 'Left' ? 0 : width, mm]),
          ),
      ],
      [
        pattern('(Bottom|Top) edge: tick NUM either side of NUM from the (left|right)\\. (Marks .+)\\.'),
        ([edge, half, middle, from, marks]) => {
          const y = edge === 'Top' ? height : 0;
          const [m, h] = [this.#mm(middle as string), this.#mm(half as string)];
          this.#setAll(
            marks as string,
            [m - h, m + h].map((mm): Vec2 => [this.#across(mm, from as string), y]),
          );
        },
      ],
      [
        pattern('Tape scrap to the (bottom|top) edge, flush with it, for the point of the compass\\.'),
        ([edge = '']) => {
          this.#scrap.add(edge);
        },
      ],
      [
        pattern('Mark MARK, on that scrap: NUM from the (left|right), NUM (below|above) the (bottom|top) edge\\.'),
        ([mark, x = '', end = '', off = '', way, edge = '']) => {
          if (!this.#scrap.has(edge) || (way === 'below') !== (edge === 'bottom')) throw new Error(`no scrap ${way}`);
          const y = edge === 'bottom' ? -this.#mm(off) : height + this.#mm(off);
          this.#set(Number(mark), [this.#across(this.#mm(x), end), y]);
        },
      ],
      [
        pattern('Mark MARK: NUM from the (left|right), NUM up\\.'),
        ([n, x, from, y]) =>
          this.#set(Number(n), [this.#across(this.#mm(x as string), from as string), this.#mm(y as string)]),
      ],
      [
        pattern('On line MARK–MARK: NUM (on|back) from MARK, then NUM square off it (.+)\\. (Marks? .+)\\.'),
        ([a, b, s, way, , d, sides, marks]) => {
          const line = unit2(sub2(this.#at(b as string), this.#at(a as string)));
          const foot = add2(this.#at(a as string), scale2(line, this.#mm(s as string) * (way === 'back' ? -1 : 1)));
          this.#setAll(
            marks as string,
            (sides as string)
              .split(' and ')
              .map((side) => add2(foot, scale2(beside(line, side), this.#mm(d as string)))),
          );
        },
      ],
      [
        pattern('Lay the ruler’s NUM line on line MARK–MARK, zero at MARK, its edge (.+): tick (.+)\\. (Marks? .+)\\.'),
        ([d, a, b, zero, side, list, marks]) => {
          const [start, end] = [this.#at(zero as string), this.#at(zero === a ? (b as string) : (a as string))];
          const line = unit2(sub2(end, start));
          const off = scale2(beside(line, side as string), this.#mm(d as string));
          this.#setAll(
            marks as string,
            this.#ticks(list as string).map((mm) => add2(add2(start, scale2(line, mm)), off)),
          );
        },
      ],
      [
        pattern('Along line MARK–MARK, from MARK: tick (.+)\\. (Marks? .+)\\.'),
        ([a, b, zero, list, marks]) => {
          const [start, end] = [this.#at(zero as string), this.#at(zero === a ? (b as string) : (a as string))];
          const line = unit2(sub2(end, start));
          this.#setAll(
            marks as string,
            this.#ticks(list as string).map((mm) => add2(start, scale2(line, mm))),
          );
        },
      ],
      [
        pattern('Ruler along line MARK–MARK and on past MARK: tick NUM from MARK\\. (Marks? .+)\\.'),
        ([a, b, end, far, , mark]) => {
          const [from, to] = [this.#at(end === a ? (b as string) : (a as string)), this.#at(end as string)];
          this.#setAll(mark as string, [add2(to, scale2(unit2(sub2(to, from)), this.#mm(far as string)))]);
        },
      ],
      [
        pattern('Take the template of (.+)\\.'),
        ([name]) => {
          this.#taken = this.#templates.get(name as string) ?? null;
        },
      ],
      [
        pattern('Lay its mark MARK on MARK and its mark MARK (on|towards) MARK: trace it(?: and its holes)?\\.'),
        ([a, p, b, where, q]) =>
          this.#trace([a as string, b as string], [this.#at(p as string), this.#at(q as string)], where === 'on'),
      ],
      [
        /^(Prick a fine hole at both ends of every line|Join the traced holes as the template has them).+\.$/,
        () => undefined,
      ],
      [
        pattern('Join ((?:\\d+–|\\d+, |\\d+ and )+\\d+–\\d+(?:–\\d+)*): (.+)\\.'),
        ([list, use]) => {
          for (const run of (list as string).split(/, | and /)) {
            this.#draw(
              use as string,
              run.split('–').map((n) => this.#at(n)),
            );
          }
        },
      ],
      [
        pattern('Join MARK to each of (.+): (.+)\\.'),
        ([centre, list, use]) => {
          for (const n of inRow(list as string)) {
            this.#draw(use as string, [this.#at(centre as string), this.#at(n)]);
          }
        },
      ],
      [
        pattern('Join (.+) in one smooth curve: (.+)\\.'),
        ([list, use]) => {
          const points = inRow(list as string).map((n) => this.#at(n));
          this.#draw(use as string, points, [points[0] as Vec2, points.at(-1) as Vec2]);
        },
      ],
      [
        pattern('Join (.+): (.+)\\.'),
        ([list, use]) =>
          this.#draw(
            use as string,
            inRow(list as string).map((n) => this.#at(n)),
          ),
      ],
      [
        pattern(
          'Compass on MARK, opened to MARK: draw the arc from MARK (clockwise|counter-clockwise) to MARK, (.+)\\.',
        ),
        ([c, a, , turn, b, use]) => {
          const [centre, from] = [this.#at(c as string), this.#at(a as string)];
          this.#draw(
            use as string,
            arc(
              centre,
              distance2(centre, from),
              direction(centre, from),
              a === b ? 2 * Math.PI : turned(centre, from, this.#at(b as string), turn as string),
              turn as string,
            ),
            [from, this.#at(b as string)],
          );
        },
      ],
      [
        pattern(
          'Compass on MARK, opened NUM: draw an arc (clockwise|counter-clockwise) from line MARK–MARK\\. It starts at mark MARK\\.',
        ),
        ([c, r, turn, , towards, n]) => {
          const [centre, radius] = [this.#at(c as string), this.#mm(r as string)];
          const from = direction(centre, this.#at(towards as string));
          this.#arc = { centre, radius, from, way: turn === 'clockwise' ? -1 : 1 };
          this.#set(Number(n), pointOn(centre, radius, from));
        },
      ],
      [
        pattern('From MARK step NUM along that arc(?: (\\d+) times)?: mark MARK\\. So far it is (.+)\\.'),
        ([, chord, times, n, use]) => {
          const begun = this.#arc;
          if (!begun) throw new Error('no arc to step along');
          const by = 2 * Math.asin(this.#mm(chord as string) / 2 / begun.radius) * Number(times || 1);
          const points = arc(
            begun.centre,
            begun.radius,
            begun.from,
            by,
            begun.way === 1 ? 'counter-clockwise' : 'clockwise',
          );
          this.#draw(use as string, points, [points[0] as Vec2, points.at(-1) as Vec2]);
          this.#set(Number(n), pointOn(begun.centre, begun.radius, begun.from + by * begun.way));
        },
      ],
      [
        pattern(
          'Compass on MARK, opened NUM: draw an arc (clockwise|counter-clockwise) from line MARK–MARK to line MARK–MARK, (.+)\\. (Marks .+)\\.',
        ),
        ([c, r, turn, , a, , b, use, marks]) => {
          const [centre, radius] = [this.#at(c as string), this.#mm(r as string)];
          const [from, to] = [this.#at(a as string), this.#at(b as string)];
          const points = arc(
            centre,
            radius,
            direction(centre, from),
            turned(centre, from, to, turn as string),
            turn as string,
          );
          this.#draw(use as string, points, [points[0] as Vec2, points.at(-1) as Vec2]);
          this.#second = points;
          this.#setAll(marks as string, [points[0] as Vec2, points.at(-1) as Vec2]);
        },
      ],
      [
        pattern(
          'Compass on MARK, opened NUM: draw an arc in pencil (clockwise|counter-clockwise) from line MARK–MARK\\. It starts at mark MARK\\.',
        ),
        ([c, r, turn, , towards, n]) => {
          const [centre, radius] = [this.#at(c as string), this.#mm(r as string)];
          const from = direction(centre, this.#at(towards as string));
          this.#arc = { centre, radius, from, way: turn === 'clockwise' ? -1 : 1 };
          this.#set(Number(n), pointOn(centre, radius, from));
        },
      ],
      [
        pattern('Compass on MARK, opened to MARK: draw an arc in pencil (clockwise|counter-clockwise) from MARK\\.'),
        ([c, a, turn]) => {
          const [centre, start] = [this.#at(c as string), this.#at(a as string)];
          const way = turn === 'clockwise' ? -1 : 1;
          this.#arc = { centre, radius: distance2(centre, start), from: direction(centre, start), way };
        },
      ],
      [
        pattern('From MARK step NUM (\\d+) times along that arc\\. (Marks? .+)\\.'),
        ([from, chord, times, marks]) =>
          this.#stepAlong(
            from as string,
            Array.from({ length: Number(times) }, () => chord as string),
            marks as string,
          ),
      ],
      [
        pattern('From MARK step (.+) in turn along that arc\\. (Marks? .+)\\.'),
        ([from, list, marks]) => this.#stepAlong(from as string, (list as string).split(/, | and /), marks as string),
      ],
      [
        pattern(
          'Compass on MARK, opened NUM, and on MARK, opened NUM: both arcs cross (clockwise|counter-clockwise) of line MARK–MARK at mark MARK\\.',
        ),
        ([a, ra, b, rb, turn, , , n]) => {
          const [p, q] = [this.#at(a as string), this.#at(b as string)];
          const [r, s, d] = [this.#mm(ra as string), this.#mm(rb as string), distance2(p, q)];
          const along = (r * r - s * s + d * d) / (2 * d);
          const off = Math.sqrt(Math.max(0, r * r - along * along)) * (turn === 'clockwise' ? -1 : 1);
          const way = unit2(sub2(q, p));
          this.#set(Number(n), add2(p, add2(scale2(way, along), scale2(left2(way), off))));
        },
      ],
      [
        pattern(
          'Draw a second line NUM off the curve from MARK to MARK, on its (left|right) as it goes: a line to cut\\.',
        ),
        ([d, a, b, side]) => {
          const curve = this.#curve(a as string, b as string);
          const off = this.#mm(d as string) * (side === 'left' ? 1 : -1);
          const points = curve.map((p, i) => add2(p, scale2(left2(wayAt(curve, i)), off)));
          this.#draw('cut', [curve[0] as Vec2, ...points, curve.at(-1) as Vec2]);
          this.#second = off;
        },
      ],
      [
        pattern(
          'Step NUM along the curve from MARK to MARK, (once|\\d+ times); at each point cut a notch down to it, NUM wide at the second line: teeth\\.',
        ),
        ([step, a, b, times, wide]) => {
          const curve = this.#curve(a as string, b as string);
          const second = this.#second;
          for (const { at, way } of divided(
            curve,
            this.#mm(step as string),
            Number.parseInt(times as string, 10) || 1,
          )) {
            const out = typeof second === 'number' ? add2(at, scale2(left2(way), second)) : nearestOn(at, second);
            const half = scale2(way, this.#mm(wide as string) / 2);
            this.#draw('cut', [sub2(out, half), at, add2(out, half)]);
          }
        },
      ],
      [
        pattern('Trimmer: cut across at (.+) from the (left|right)\\.'),
        ([list, from]) => {
          for (const mm of this.#ticks(list as string)) {
            const x = this.#across(mm, from as string);
            const isDrawn = this.lines.some(
              ({ use, points }) =>
                use === 'cut' &&
                points.some((q, i) => {
                  const p = points[i - 1];
                  const isUpright = p && Math.abs(p[0] - x) < 1e-6 && Math.abs(q[0] - x) < 1e-6;
                  return isUpright && Math.abs(Math.abs(p[1] - q[1]) - height) < 1e-6;
                }),
            );
            if (!isDrawn) throw new Error(`no line to cut across at ${mm}`);
          }
        },
      ],
      [
        /^(Score every line to score|Cut along every line to cut|The strip is the piece: nothing is left to cut)\.$/,
        () => undefined,
      ],
      [/^The (flap beside line|edge at mark) .+\.$/, () => undefined],
      [/^Where a round wall or collar meets this piece, .+\.$/, () => undefined],
      [/^Line \d+–\d+: .+\.$/, () => undefined],
    ];
  }
}

const numbers = (text: string): readonly number[] => [...text.matchAll(/\d+/g)].map(([n]) => Number(n));

/** `3, 4 and 9`; `1 and 3 to 9` for all from the third to the ninth. */
const inRow = (text: string): readonly number[] =>
  text.split(/, | and /).flatMap((part) => {
    const [first = 0, last = first] = numbers(part);
    return Array.from({ length: last - first + 1 }, (_, i) => first + i);
  });

/** The unit vector square off a line that points to the side that is named. */
function beside(line: Vec2, words: string): Vec2 {
  const [x, y] = left2(line);
  const isLeft = words.includes('left')
    ? x < 0
    : words.includes('right')
      ? x > 0
      : /above|upwards/.test(words)
        ? y > 0
        : y < 0;
  return isLeft ? [x, y] : [-x, -y];
}

const direction = (from: Vec2, to: Vec2): number => Math.atan2(to[1] - from[1], to[0] - from[0]);
const pointOn = (c: Vec2, r: number, a: number): Vec2 => [c[0] + r * Math.cos(a), c[1] + r * Math.sin(a)];

/** Angle from one point to the other about a centre, the way that is named. */
function turned(centre: Vec2, from: Vec2, to: Vec2, turn: string): number {
  const by = (direction(centre, to) - direction(centre, from)) * (turn === 'clockwise' ? -1 : 1);
  return by < 0 ? by + 2 * Math.PI : by;
}

const arc = (c: Vec2, r: number, from: number, by: number, turn: string): readonly Vec2[] =>
  Array.from({ length: 961 }, (_, i) => pointOn(c, r, from + ((by * i) / 960) * (turn === 'clockwise' ? -1 : 1)));

/** Which way a curve goes at a corner of the line that stands for it. */
const wayAt = (line: readonly Vec2[], i: number): Vec2 =>
  unit2(sub2(line[Math.min(line.length - 1, i + 1)] as Vec2, line[Math.max(0, i - 1)] as Vec2));

/** Points that a divider comes to along a line of short parts, so many times, and the line's direction there. */
function divided(
  line: readonly Vec2[],
  chord: number,
  times: number,
): readonly { readonly at: Vec2; readonly way: Vec2 }[] {
  const found: { at: Vec2; way: Vec2 }[] = [];
  let [from, i, start] = [line[0] as Vec2, 1, line[0] as Vec2];
  while (found.length < times) {
    const end = line[i];
    if (!end) throw new Error(`the divider finds no room ${times} times`);
    if (distance2(end, from) < chord) {
      [start, i] = [end, i + 1];
      continue;
    }
    // Halving: the line leaves the circle somewhere on this part.
    let [low, high] = [0, 1];
    for (let round = 0; round < 60; round++) {
      const t = (low + high) / 2;
      const p = add2(start, scale2(sub2(end, start), t));
      if (distance2(p, from) < chord) low = t;
      else high = t;
    }
    from = add2(start, scale2(sub2(end, start), high));
    start = from;
    const share = distance2(line[i - 1] as Vec2, from) / distance2(line[i - 1] as Vec2, end);
    const way = add2(scale2(wayAt(line, i - 1), 1 - share), scale2(wayAt(line, i), share));
    found.push({ at: from, way: unit2(way) });
  }
  return found;
}

/** The nearest point of a line of short parts. */
function nearestOn(p: Vec2, line: readonly Vec2[]): Vec2 {
  const feet = line.slice(1).map((b, i) => {
    const a = line[i] as Vec2;
    const d = sub2(b, a);
    const square = d[0] * d[0] + d[1] * d[1];
    const t = square === 0 ? 0 : ((p[0] - a[0]) * d[0] + (p[1] - a[1]) * d[1]) / square;
    return add2(a, scale2(d, Math.min(1, Math.max(0, t))));
  });
  return feet.reduce((best, q) => (distance2(p, q) < distance2(p, best) ? q : best));
}

import { distance2, type Vec2 } from '../geometry/vector.ts';
import { isSameLength } from '../tolerance.ts';
import { arcPoints, directionTo, pointAt, turnBetween } from './arcs.ts';
import { Pad } from './pad.ts';
import type { LineUse } from './set-out.ts';
import * as words from './words.ts';

/** A strip that is set out by ruler and compass. */
export class CompassPad extends Pad {
  /** An arc from one mark to the direction of another, the compass opened to the first. */
  arcTo(centre: number, [a, b]: readonly [number, number], turn: words.Turn, use: LineUse): void {
    const [middle, from] = [this.at(centre), this.at(a)];
    const start = directionTo(middle, from);
    const by = a === b ? 2 * Math.PI : turnBetween(start, directionTo(middle, this.at(b)), turn === 'clockwise');
    const points = arcPoints(middle, distance2(middle, from), start, turn === 'clockwise' ? -by : by);
    this.draw(words.arcSentence(centre, a, b, turn, use), use, points);
  }

  /** An arc of a measured radius from the line from its centre to a mark; its end is found by stepping a chord along it. */
  sector(
    [centre, towards]: readonly [number, number],
    {
      radius,
      chord,
      times,
      turn,
    }: { readonly radius: number; readonly chord: number; readonly times: number; readonly turn: words.Turn },
    use: LineUse,
  ): readonly [start: number, end: number] {
    const middle = this.at(centre);
    const begins = directionTo(middle, this.at(towards));
    const by = 2 * Math.asin(Math.min(1, chord / (2 * radius))) * times * (turn === 'clockwise' ? -1 : 1);
    const points = arcPoints(middle, radius, begins, by);
    const start = this.mark(points[0] as Vec2, null, '', false);
    this.say(words.sectorSentence([centre, towards], this.figure(radius), turn, start), [start]);
    const end = this.mark(points.at(-1) as Vec2, null, '', false);
    this.draw(words.chordSentence(start, this.figure(chord), times, end, use), use, points, [end]);
    return [start, end];
  }

  /** Corners round a peak at one distance from it: an arc in pencil from the direction of a mark, and chords stepped along it. */
  fanArc(
    [centre, towards]: readonly [number, number],
    {
      radius,
      chords,
      turn,
    }: { readonly radius: number; readonly chords: readonly number[]; readonly turn: words.Turn },
  ): void {
    const [middle, ahead] = [this.at(centre), this.at(towards)];
    const way = turn === 'clockwise' ? -1 : 1;
    const begins = directionTo(middle, ahead);
    const angles = chords.map((chord) => way * 2 * Math.asin(Math.min(1, chord / (2 * radius))));
    const all = angles.reduce((sum, angle) => sum + angle, 0);
    const isThere = isSameLength(distance2(middle, ahead), radius);
    const start = isThere ? towards : this.mark(pointAt(middle, radius, begins), null, '', false);
    this.draw(
      isThere
        ? words.fanArcAtSentence([centre, towards], turn)
        : words.fanArcSentence([centre, towards], this.figure(radius), turn, start),
      'pencil',
      arcPoints(middle, radius, begins, all),
      isThere ? [] : [start],
    );
    let direction = begins;
    const numbers = angles.map((angle) => {
      direction += angle;
      return this.mark(pointAt(middle, radius, direction), null, '', false);
    });
    const marks = words.markWords(numbers[0] as number, numbers.length);
    this.say(
      words.chordsSentence(
        start,
        chords.map((chord) => this.figure(chord)),
        marks,
      ),
      numbers,
    );
  }

  /** A mark on the line from a peak towards another mark, which is drawn for it where it lies elsewhere. */
  ray([centre, towards]: readonly [number, number], radius: number): number {
    if (isSameLength(distance2(this.at(centre), this.at(towards)), radius)) return towards;
    this.join([centre, towards], 'pencil');
    return this.along([centre, towards], centre, [radius])[0] as number;
  }

  /** A mark where two openings of the compass cross, on the side of the line between their centres that `turn` goes to. */
  cross(
    centres: readonly [number, number],
    openings: readonly [number, number],
    { at, turn }: { readonly at: Vec2; readonly turn: words.Turn },
  ): number {
    const number = this.mark(at, null, '', false);
    const [a, b] = openings.map((mm) => this.figure(mm)) as [string, string];
    this.say(words.crossSentence(centres, [a, b], turn, number), [number]);
    return number;
  }

  /** An arc between two lines from its centre. */
  between(
    centre: number,
    radius: number,
    { turn, lines: [a, b] }: { readonly turn: words.Turn; readonly lines: readonly [number, number] },
    use: LineUse,
  ): readonly [start: number, end: number] {
    const middle = this.at(centre);
    const begins = directionTo(middle, this.at(a));
    const by = turnBetween(begins, directionTo(middle, this.at(b)), turn === 'clockwise');
    const points = arcPoints(middle, radius, begins, turn === 'clockwise' ? -by : by);
    const numbers = [this.mark(points[0] as Vec2, null, '', false), this.mark(points.at(-1) as Vec2, null, '', false)];
    const marks = words.markWords(numbers[0] as number, 2);
    this.draw(words.betweenSentence(centre, this.figure(radius), turn, [a, b], marks, use), use, points, numbers);
    return numbers as [number, number];
  }
}

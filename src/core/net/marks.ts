import { at, ringLength } from '../geometry/polygon.ts';
import { alignSegments, apply2, type Rigid2 } from '../geometry/rigid2.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import { isSameLength, NOISE_MM } from '../tolerance.ts';
import { cutEnds } from './cut-ends.ts';
import { flapEnds, type Piece } from './net.ts';

/** Bevels that agree to so many digits of a radian are one: nobody could set a blade to more. */
const BEVEL_DIGITS = 6;

/** A, B, … Z, AA, AB …; the first `before` of them are taken. */
export function seamMarks(count: number, before = 0): readonly string[] {
  const letter = (index: number): string => String.fromCharCode('A'.charCodeAt(0) + index);
  const mark = (index: number): string =>
    index < 26 ? letter(index) : mark(Math.floor(index / 26) - 1) + letter(index % 26);
  return Array.from({ length: count }, (_, i) => mark(before + i));
}

/** Pieces are sorted by their length round into cells of this size, mm: far above noise. */
const CELL_MM = 0.01;

/** Names for each piece the first one before it that it equals without turning over. */
export function withCongruence(pieces: readonly Piece[]): readonly Piece[] {
  const firsts = new Map<number, Piece[]>();
  return pieces.map((piece) => {
    const round = ringLength(piece.outline);
    // Like pieces are as long round, up to noise: in one cell, or in two that meet.
    const cells = [...new Set([round - CELL_MM / 4, round + CELL_MM / 4].map((long) => Math.floor(long / CELL_MM)))];
    const like = cells.flatMap((cell) => firsts.get(cell) ?? []);
    const first = like.find((earlier) => isCongruent(earlier, piece));
    if (first) return { ...piece, same: first.id };
    const cell = Math.floor(round / CELL_MM);
    firsts.set(cell, [...(firsts.get(cell) ?? []), piece]);
    return piece;
  });
}

/** Whether some motion of the plane, without turning over, lays one piece on the other with every line on a like line. */
export function isCongruent(a: Piece, b: Piece): boolean {
  const n = a.outline.length;
  if (n !== b.outline.length || a.folds.length !== b.folds.length || a.flaps.length !== b.flaps.length) return false;
  for (let shift = 0; shift < n; shift++) {
    const from = [at(a.outline, 0), at(a.outline, 1)] as const;
    const to = [at(b.outline, shift), at(b.outline, shift + 1)] as const;
    if (!isSameLength(distance2(...from), distance2(...to))) continue;
    const motion = alignSegments(...from, ...to);
    const isOn = a.outline.every((p, i) => isSamePoint(apply2(motion, p), at(b.outline, i + shift)));
    if (isOn && linesMatch(a, b, motion)) return true;
  }
  return false;
}

const isSamePoint = (p: Vec2, q: Vec2): boolean => distance2(p, q) <= 10 * NOISE_MM;

function linesMatch(a: Piece, b: Piece, motion: Rigid2): boolean {
  const there = linesOf(b);
  return linesOf(a).every(({ kind, ends }) => {
    const [p, q] = ends.map((end) => apply2(motion, end)) as [Vec2, Vec2];
    return there.some(
      (line) =>
        line.kind === kind &&
        ((isSamePoint(p, line.ends[0]) && isSamePoint(q, line.ends[1])) ||
          (isSamePoint(p, line.ends[1]) && isSamePoint(q, line.ends[0]))),
    );
  });
}

const linesOf = (piece: Piece): readonly { readonly kind: string; readonly ends: readonly [Vec2, Vec2] }[] => [
  ...piece.folds.map(({ kind, ends }) => ({ kind: `fold ${kind}`, ends })),
  ...piece.flaps.map((flap) => ({
    kind: `flap ${flap.kind}`,
    ends: flapEnds(flap),
  })),
  ...piece.hems.map((hem) => ({ kind: 'hem', ends: flapEnds(hem) })),
  ...piece.glueLines.map(({ ends }) => ({ kind: 'glue', ends })),
  ...(piece.board?.edges ?? []).map(({ bevel, lap = '' }, i) => ({
    kind: `edge ${bevel.toFixed(BEVEL_DIGITS)} ${lap}`,
    ends: cutEnds(piece, i),
  })),
];

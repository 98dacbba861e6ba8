import { distance2, scale2 } from '../geometry/vector.ts';
import { NOISE_MM } from '../tolerance.ts';
import type { PieceClass } from './piece-class.ts';
import { axisError, mayMove, type RuledAxis } from './round-axis.ts';

/** A seam by the points at its ends, on the classes of its two pieces. */
export interface SeamTerm {
  readonly sides: readonly [TermSide, TermSide];
}

interface TermSide {
  readonly of: PieceClass;
  readonly ends: readonly [number, number];
}

/** Most rounds over all lines; it has come to rest long before. */
const ROUNDS = 40;

/** How much the square of a corner's own error counts beside that of a seam's mismatch. */
const OWN = 0.02;

/**
 * Moves columns and rows of pieces, radii and chords of fans, by whole marks as long as that brings the two sides of seams nearer to one length: the
 * least sum of squared mismatches, with a small weight on what the corners themselves are off. Changes the classes' counts.
 */
export function matchSeams(classes: readonly PieceClass[], seams: readonly SeamTerm[]): void {
  const lines = movableLines(classes, distinct(classes, seams));
  for (let round = 0; round < ROUNDS; round++) {
    let isMoved = false;
    for (const { axis, line, terms } of lines) isMoved = moveLine(axis, line, terms) || isMoved;
    if (!isMoved) return;
  }
}

/** Lines that the length of a seam depends on, with those seams, in the order of the classes. */
function movableLines(
  classes: readonly PieceClass[],
  terms: readonly SeamTerm[],
): readonly { readonly axis: RuledAxis; readonly line: number; readonly terms: readonly SeamTerm[] }[] {
  const touching = new Map<RuledAxis, Map<number, Set<SeamTerm>>>();
  for (const term of terms) {
    for (const { of, ends } of term.sides) {
      for (const { axis, line } of of.between(ends)) {
        const byLine = touching.get(axis) ?? new Map<number, Set<SeamTerm>>();
        touching.set(axis, byLine);
        byLine.set(line, (byLine.get(line) ?? new Set()).add(term));
      }
    }
  }
  return classes.flatMap(({ axes }) =>
    axes.flatMap((axis) =>
      axis.lines.flatMap((_, line) => {
        const own = touching.get(axis)?.get(line);
        return own ? [{ axis, line, terms: [...own] }] : [];
      }),
    ),
  );
}

/** Takes the better neighbouring mark of a line if there is one. */
function moveLine(axis: RuledAxis, line: number, terms: readonly SeamTerm[]): boolean {
  const here = axis.counts[line] as number;
  const cost = (): number =>
    OWN * axisError(axis, line) ** 2 + terms.reduce((sum, term) => sum + mismatch(term) ** 2, 0);
  let [best, least] = [here, cost() - NOISE_MM];
  for (const by of [1, -1] as const) {
    if (!mayMove(axis, line, by)) continue;
    axis.counts[line] = here + by;
    const own = cost();
    if (own < least) [best, least] = [here + by, own];
    axis.counts[line] = here;
  }
  axis.counts[line] = best;
  return best !== here;
}

const mismatch = ({ sides: [a, b] }: SeamTerm): number => sideLength(a) - sideLength(b);

const sideLength = ({ of, ends: [a, b] }: TermSide): number => {
  const step = of.axes[0]?.step ?? 0;
  return distance2(scale2(of.place(a), step), scale2(of.place(b), step));
};

/** Seams between the same points of the same classes count once. */
function distinct(classes: readonly PieceClass[], seams: readonly SeamTerm[]): readonly SeamTerm[] {
  const number = new Map(classes.map((one, c) => [one, c] as const));
  const keyOf = ({ of, ends }: TermSide): string => `${number.get(of)}:${[...ends].sort((a, b) => a - b).join('-')}`;
  const found = new Map<string, SeamTerm>();
  for (const seam of seams) found.set(seam.sides.map(keyOf).sort().join('|'), seam);
  return [...found.values()];
}

import { distanceToSegment, isInside } from '../../core/geometry/polygon.ts';
import { add2, distance2, lerp2, scale2, type Vec2 } from '../../core/geometry/vector.ts';

/** A letter beside its side of a seam, all in pixels. */
export interface LetterToPlace {
  /** Of the seam's side, the lower first. */
  readonly ends: readonly [Vec2, Vec2];
  /** Unit normal towards the inside of the panel. */
  readonly side: Vec2;
  readonly panel: readonly Vec2[];
}

export interface LetterPlace {
  readonly at: Vec2;
  /** Height of its line. */
  readonly size: number;
}

/** From the usual size down to the least that can be read. */
const SIZES = [15, 13, 11, 9] as const;
const LEAST = 9;
/** Half of a capital, as a share of the height of its line, and what is left free round it, pixels. */
const HALF = 0.36;
const FREE = 1;
/** Pixels from the lower end of a seam to the middle of its letter, and from the seam. */
export const LETTER_AT = 32;
const OFF = 13;
/** Where else along its seam a letter may stand. */
const SHARES = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8] as const;

/**
 * Where the letters of a piece stand, in their order: near the lower end of their seams, where panels have most room, but out of
 * the corner itself. One that would touch an edge of its panel, or a letter before it, moves along its seam, then gets smaller;
 * what has no room at the least size keeps that, halfway up its seam.
 */
export function letterPlaces(letters: readonly LetterToPlace[]): readonly LetterPlace[] {
  const placed: LetterPlace[] = [];
  for (const { ends, side, panel } of letters) {
    const long = distance2(...ends);
    const usual = Math.min(0.5, Math.max(0.14, LETTER_AT / long));
    const placeAt = (size: number, share: number): LetterPlace => ({
      at: add2(lerp2(...ends, share), scale2(side, OFF - (SIZES[0] - size) / 2)),
      size,
    });
    const places = SIZES.flatMap((size) => [usual, ...SHARES].map((share) => placeAt(size, share)));
    placed.push(places.find((place) => isClear(place, panel, placed)) ?? placeAt(LEAST, 0.5));
  }
  return placed;
}

function isClear({ at, size }: LetterPlace, panel: readonly Vec2[], placed: readonly LetterPlace[]): boolean {
  const reach = HALF * size + FREE;
  return (
    isInside(at, panel) &&
    panel.every((p, i) => distanceToSegment(at, p, panel[(i + 1) % panel.length] as Vec2) >= reach) &&
    placed.every((other) => distance2(other.at, at) >= reach + HALF * other.size)
  );
}

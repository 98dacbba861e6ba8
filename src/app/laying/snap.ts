import { at, boxOf } from '../../core/geometry/polygon.ts';
import {
  add2,
  cross2,
  distance2,
  dot2,
  left2,
  length2,
  scale2,
  sub2,
  unit2,
  type Vec2,
} from '../../core/geometry/vector.ts';
import type { PrintRepeat } from '../../core/layout/print-match.ts';
import { NOISE_MM } from '../../core/tolerance.ts';
import type { Guide } from './guides.ts';

/** What a piece under a hand is drawn to. Everything on the sheet, mm. */
export interface Surroundings {
  /** Border of the sheet, counter-clockwise. */
  readonly border: readonly Vec2[];
  readonly margin: number;
  readonly gap: number;
  /** Outlines of the other pieces, counter-clockwise. */
  readonly others: readonly (readonly Vec2[])[];
  readonly print: PrintRepeat | null;
}

/** What a piece has been drawn to, and the line to show for it. */
export interface Caught {
  readonly by: 'sheet' | 'piece' | 'print';
  readonly line: readonly [Vec2, Vec2];
}

export interface Snapped {
  readonly shift: Vec2;
  readonly caught: readonly Caught[];
}

/** A wish to be moved by so much along a direction, whatever happens across it. */
interface Pull extends Caught {
  readonly along: Vec2;
  readonly far: number;
}

/** Sides shorter than this are not laid against anything, mm. */
const SHORT = 3;
/** Sines of angles under which two lines count as parallel, and over which two pulls as pulling elsewhere. */
const PARALLEL = 1e-4;
const ELSEWHERE = 0.2;
/** The print draws no farther than a share of its own repeat, so that a piece can lie anywhere on it. */
const PRINT_SHARE = 1 / 10;

/**
 * Where a piece comes to rest when it is let go near something: against the border of its sheet, edge to edge with another piece, or
 * with a fold, a fall line or an eave on a line of the print. Nearest first, and a second one that pulls another way. `ring` and
 * `guides` lie where the hand holds them; `reach` mm.
 */
export const snap = (ring: readonly Vec2[], guides: readonly Guide[], around: Surroundings, reach: number): Snapped => {
  const pulls = [...toSheet(ring, around), ...toPieces(ring, around, reach), ...toPrint(guides, around.print, reach)]
    .filter((pull) => Math.abs(pull.far) <= reach)
    .sort((a, b) => Math.abs(a.far) - Math.abs(b.far));
  const [first] = pulls;
  if (first === undefined) return { shift: [0, 0], caught: [] };
  const alone = scale2(first.along, first.far);
  for (const second of pulls) {
    const turn = cross2(first.along, second.along);
    if (Math.abs(turn) < ELSEWHERE) continue;
    // The shift whose parts along both directions are what both ask for.
    const shift = scale2(
      [
        first.far * second.along[1] - second.far * first.along[1],
        first.along[0] * second.far - second.along[0] * first.far,
      ],
      1 / turn,
    );
    if (length2(shift) > 2 * reach) continue;
    return { shift, caught: [first, second].map((pull) => shownAt(pull)) };
  }
  return { shift: alone, caught: [shownAt(first)] };
};

const shownAt = ({ by, line }: Pull): Caught => ({ by, line });

const sidesOf = (ring: readonly Vec2[]): readonly (readonly [Vec2, Vec2])[] =>
  ring.map((p, i) => [p, at(ring, i + 1)] as const).filter(([a, b]) => distance2(a, b) >= SHORT);

/** Every straight side of the border draws what is nearest to it. */
const toSheet = (ring: readonly Vec2[], { border, margin }: Surroundings): Pull[] =>
  sidesOf(border).map(([a, b]) => {
    const inward = left2(unit2(sub2(b, a)));
    const nearest = Math.min(...ring.map((p) => dot2(sub2(p, a), inward)));
    return { by: 'sheet', along: inward, far: margin - nearest, line: [a, b] };
  });

/** Sides that face each other come to lie on one line, less the gap; then their ends on each other. */
const toPieces = (ring: readonly Vec2[], { others, gap }: Surroundings, reach: number): Pull[] => {
  const own = boxOf(ring);
  const near = others.filter((other) => {
    const box = boxOf(other);
    const away = reach + gap;
    return (
      box.minX < own.maxX + away &&
      own.minX < box.maxX + away &&
      box.minY < own.maxY + away &&
      own.minY < box.maxY + away
    );
  });
  const sides = sidesOf(ring);
  return near.flatMap(sidesOf).flatMap(([c, d]) => sides.flatMap(([a, b]) => toSide([a, b], [c, d], gap, reach)));
};

const toSide = ([a, b]: readonly [Vec2, Vec2], [c, d]: readonly [Vec2, Vec2], gap: number, reach: number): Pull[] => {
  const along = unit2(sub2(d, c));
  const own = unit2(sub2(b, a));
  if (dot2(along, own) > 0 || Math.abs(cross2(along, own)) > PARALLEL) return [];
  // Rings run counter-clockwise: the outside of the other piece is to the right of its side.
  const out = scale2(left2(along), -1);
  const away = gap - dot2(sub2(a, c), out);
  const [low, high] = [dot2(sub2(b, c), along), dot2(sub2(a, c), along)];
  const isBeside = high > -reach && low < distance2(c, d) + reach;
  if (Math.abs(away) > reach || !isBeside) return [];
  const shifts = [-low, distance2(c, d) - high, -high, distance2(c, d) - low];
  const ends = shifts.map((far): Pull => ({ by: 'piece', along, far, line: [c, d] }));
  return [{ by: 'piece', along: out, far: away, line: [c, d] }, ...ends];
};

/** Guides along an axis of the print come to lie on its lines: an even one has them on every half repeat, courses on whole ones. */
const toPrint = (guides: readonly Guide[], print: PrintRepeat | null, reach: number): Pull[] => {
  if (print === null) return [];
  return guides.flatMap(({ kind, ends: [a, b] }): Pull[] => {
    const axes = [
      { axis: print.x, place: 0 as const, along: [1, 0] as Vec2 },
      { axis: print.y, place: 1 as const, along: [0, 1] as Vec2 },
    ];
    return axes.flatMap(({ axis, place, along }): Pull[] => {
      // Only a line that runs along the print's own lines can lie on one of them.
      if (axis === null || Math.abs(a[place] - b[place]) > NOISE_MM) return [];
      if (!axis.isEven && kind === 'fall') return [];
      const step = axis.isEven ? axis.period / 2 : axis.period;
      const far = Math.round(a[place] / step) * step - a[place];
      if (Math.abs(far) > Math.min(reach, axis.period * PRINT_SHARE)) return [];
      const moved = [add2(a, scale2(along, far)), add2(b, scale2(along, far))] as const;
      return [{ by: 'print', along, far, line: moved }];
    });
  });
};

/** Angles at which a side of a piece lies along a side of the sheet draw the turn, radians from where it is. */
export const snapTurn = (ring: readonly Vec2[], reach: number): number | null => {
  const wishes = sidesOf(ring).map(([a, b]) => {
    const [x, y] = sub2(b, a);
    const angle = Math.atan2(y, x);
    return Math.round(angle / (Math.PI / 2)) * (Math.PI / 2) - angle;
  });
  const nearest = wishes.reduce((best, by) => (Math.abs(by) < Math.abs(best) ? by : best), Number.POSITIVE_INFINITY);
  return Math.abs(nearest) <= reach ? nearest : null;
};

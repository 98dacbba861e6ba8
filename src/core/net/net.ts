import type { Vec2 } from '../geometry/vector.ts';
import type { BoardEdgeCut } from './board-edges.ts';

/** A point of a piece laid flat, seen from the outside of the roof; mm, y up. */
export type NetPoint = Vec2;

/** One face laid flat; the polygon has the order of the face's loop. */
export interface Panel {
  /** Index into `solid.faces`. */
  readonly face: number;
  readonly polygon: readonly NetPoint[];
}

export type FoldKind = 'mountain' | 'valley';

/** An edge that stays joined. */
export interface Fold {
  /** Index into `solid.edges`. */
  readonly edge: number;
  readonly ends: readonly [NetPoint, NetPoint];
  /** As seen from the outside (the printed side): mountain folds away from the eye. */
  readonly kind: FoldKind;
  /** How far the paper is turned from flat, radians, 0 to pi; 0 where it goes straight on and nothing is scored. */
  readonly angle: number;
  /** Indices into the piece's panels: the one that holds still and the one that turns. */
  readonly panels: readonly [number, number];
}

/**
 * The strip that glues a seam, or one of the teeth along a curved seam. Its polygon is counter-clockwise; the points from the
 * first to that at `base` lie on the seam. Convex but for the bulge of a curved seam.
 */
export interface Flap {
  readonly edge: number;
  /** Face that carries the flap. */
  readonly from: number;
  /** Face it is glued to, on its inside. */
  readonly to: number;
  /** Index into the piece's panels of the carrying panel; -1 for half a seam strip. */
  readonly panel: number;
  readonly polygon: readonly NetPoint[];
  /** Index of the last point on the seam: 1 along a straight seam. */
  readonly base: number;
  readonly kind: FoldKind;
  /** How far it is turned from flat when glued, radians. */
  readonly angle: number;
}

/**
 * A strip turned under at a free eave, or at the foot of a fascia, into the level plane there; or one of the teeth along a round
 * one. Its polygon is like that of a flap.
 */
export interface Hem {
  readonly edge: number;
  /** Index into the piece's panels of the panel it hangs on. */
  readonly panel: number;
  readonly polygon: readonly NetPoint[];
  readonly base: number;
  readonly kind: FoldKind;
  /** How far it is turned from flat when under the eave, radians. */
  readonly angle: number;
}

/** A line to draw on the inside of a panel: a wall's flap is glued along it (an abutment), or the collar of a seat. */
export interface GlueLine {
  readonly edge: number;
  /** The letter of a seam that only the other side's layer knows. */
  readonly mark?: string;
  readonly panel: number;
  readonly ends: readonly [NetPoint, NetPoint];
}

/**
 * One connected part to cut out. Frame: the lower left corner of the bounding box of its outline is the origin; the
 * first panel's fall line runs down the page where the piece has one.
 */
export interface Piece {
  readonly id: string;
  readonly title: string;
  /** Id of the first piece that is congruent without turning over. */
  readonly same?: string;
  /** Counter-clockwise, flaps and hems included, not closed. */
  readonly outline: readonly NetPoint[];
  readonly panels: readonly Panel[];
  readonly flaps: readonly Flap[];
  readonly hems: readonly Hem[];
  readonly folds: readonly Fold[];
  readonly glueLines: readonly GlueLine[];
  /** Some of the lines that stay straight where a panel is rolled. */
  readonly rulings: readonly Ruling[];
  /** It is a seam strip: it has no panels, and its two flaps are its halves. */
  readonly strip?: SeamStrip;
  /** A panel of board: how it is cut. Its outline is then that of the cut, its panel's polygon the outside of the roof. */
  readonly board?: BoardCut;
  readonly width: number;
  readonly height: number;
}

/** A panel of board, cut from the outside or with a tilted blade. */
export interface BoardCut {
  /** mm */
  readonly thickness: number;
  /** Its outside and its inside surface, seen from the outside; the outline is the wider of both at every edge. */
  readonly outer: readonly NetPoint[];
  readonly inner: readonly NetPoint[];
  /** One for each edge of the face's loop, in its order. */
  readonly edges: readonly BoardEdgeCut[];
}

/**
 * A piece of its own that joins a seam on the inside, folded along its middle. Its first half is glued under the first face of
 * the edge, its second half under the second; each is a flap with no panel of its own.
 */
export interface SeamStrip {
  /** Index into `solid.edges`. */
  readonly edge: number;
  /** Where both ends of the edge would lie, in the direction of its first face's loop: the first half is to the left. */
  readonly line: readonly [NetPoint, NetPoint];
}

export interface Ruling {
  readonly panel: number;
  readonly ends: readonly [NetPoint, NetPoint];
}

/** Boards are glued edge to edge. `none`: shorter than anything that could join it. */
export type SeamJoin = 'flap' | 'strip' | 'tape' | 'glue' | 'none';

/** An edge that is cut and joined again. */
export interface Seam {
  readonly edge: number;
  /** The match mark that both sides carry: A, B, … Z, AA … */
  readonly mark: string;
  readonly join: SeamJoin;
  /**
   * Where its two sides lie: piece and panel index; the second is the host panel at an abutment. Where another layer cuts the face
   * that this one is glued to, piece -1 and the index of the face, and the ends are in its own frame.
   */
  readonly sides: readonly [SeamSide, SeamSide];
}

export interface SeamSide {
  readonly piece: number;
  readonly panel: number;
  readonly ends: readonly [NetPoint, NetPoint];
  /** The points from end to end where the seam is curved on this panel. */
  readonly curve?: readonly NetPoint[];
}

/** The straight stretch that a seam's letter stands at: all of it, of a curve the piece at a share of its way. */
export function letterStretch({ ends, curve }: SeamSide, share = 0.5): readonly [NetPoint, NetPoint] {
  if (!curve) return ends;
  const i = Math.min(curve.length - 2, Math.floor(share * (curve.length - 1)));
  return [curve[i] as NetPoint, curve[i + 1] as NetPoint];
}

/** How a net closes: what goes on last. */
export interface Closing {
  /** The piece that goes on last, index into `pieces`. */
  readonly piece: number;
  /** The edge that is joined last, from inside; null where the last piece carries no flap and closes from outside. */
  readonly seam: number | null;
  /** It goes on from outside, or its seam ends at an open edge, where a hand reaches in. */
  readonly isReachable: boolean;
}

export interface Net {
  /** Seam strips come last. */
  readonly pieces: readonly Piece[];
  readonly seams: readonly Seam[];
  /** Null where nothing is joined. */
  readonly closing: Closing | null;
}

/** Both ends of a flap on its seam, against the loop of the panel that carries it. */
export const flapEnds = ({ polygon, base }: Pick<Flap, 'polygon' | 'base'>): readonly [NetPoint, NetPoint] => [
  polygon[0] as NetPoint,
  polygon[base] as NetPoint,
];

/** A line of a piece that is scored before it is folded; more than two points round a curve. */
export interface ScoredLine {
  readonly kind: FoldKind;
  readonly points: readonly NetPoint[];
}

/** Every line of a piece that is scored, each once: folds, and the feet of flaps and hems. */
export const scoredLines = ({ folds, flaps, hems, strip }: Piece): readonly ScoredLine[] => [
  ...folds.filter((fold) => fold.angle > 0).map(({ kind, ends }) => ({ kind, points: ends })),
  // The halves of a strip have one foot.
  ...[...flaps.slice(0, strip ? 1 : undefined), ...hems].map(({ kind, polygon, base }) => ({
    kind,
    points: polygon.slice(0, base + 1),
  })),
];

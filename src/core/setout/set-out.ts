import type { Vec2 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import type { Placement } from '../layout/layout.ts';
import type { Ruler } from '../units/units.ts';

/** Which side of the paper lies up and is drawn on. */
export type UpSide = 'wrong' | 'right';

/** A point of a strip as it lies before the maker: mm, origin at its lower left corner, y up. */
export type StripPoint = Vec2;

export type StripEdge = 'bottom' | 'top' | 'left' | 'right';

/** What a drawn line is for; folds as they are seen on the side that is drawn on. */
export type LineUse = 'cut' | 'mountain' | 'valley' | 'glue' | 'pencil';

/** A numbered mark: a tick on an edge of the strip, or a point on it. */
export interface SetOutMark {
  /** From 1, as the sentences call it. */
  readonly number: number;
  readonly at: StripPoint;
  /** The edge that it is a tick on. */
  readonly edge: StripEdge | null;
  /** Distance along that edge from where it is measured, as text; empty at a corner and away from the edges. */
  readonly text: string;
  /** A short tick gives room: no line begins at it. */
  readonly isShort: boolean;
}

export interface SetOutLine {
  readonly use: LineUse;
  /** As drawn from rounded marks; more than two points along a chain or a curve. */
  readonly points: readonly StripPoint[];
}

/** One action. */
export interface SetOutStep {
  readonly text: string;
  /** Indices into the strip's marks and lines: what this step draws. */
  readonly marks: readonly number[];
  readonly lines: readonly number[];
}

/** The letter of a seam on a piece. */
export interface SetOutLetter {
  readonly text: string;
  /** Where it may stand beside its line, the best place first. */
  readonly places: readonly StripPoint[];
  /** Numbers of the marks that its line runs between; null where it ends at none. */
  readonly line: readonly [number, number] | null;
}

/** A piece on a strip. */
export interface SetOutPiece extends Placement {
  readonly title: string;
  /** Its outline by its true measures, where the rounded one lies. */
  readonly outline: readonly StripPoint[];
  /** Farthest that an edge of its panels is drawn from its true place, mm; in a fan from its place on its own panel. */
  readonly off: number;
  /** How much farther than that a fan's edges lie from where the layout has them, as slope by slope adds up, mm; else 0. */
  readonly spread: number;
  /** Farthest that a flap falls short of its true size, teeth left aside, mm. */
  readonly flapOff: number;
  /** Letters of its seams. */
  readonly letters: readonly SetOutLetter[];
  /** The marks that its template is laid on; the marks at its letters are then those of the template. Null where it is not traced. */
  readonly laid: readonly [number, number] | null;
}

/** The steps that set out one piece, or a row of plain ones: from `from` up to but not with `to`. */
export interface SetOutPart {
  readonly title: string;
  readonly from: number;
  readonly to: number;
  /** Indices into the strip's pieces. */
  readonly pieces: readonly number[];
  /** Its pieces are traced from a template. */
  readonly isTraced: boolean;
}

/** A strip cut from a sheet, or a whole sheet; strips that are the same are told once. */
export interface SetOutStrip {
  readonly title: string;
  /** mm */
  readonly width: number;
  readonly height: number;
  /** How many strips are set out like this. */
  readonly times: number;
  readonly marks: readonly SetOutMark[];
  readonly lines: readonly SetOutLine[];
  readonly steps: readonly SetOutStep[];
  readonly pieces: readonly SetOutPiece[];
  /** Its pieces, or rows of plain ones, one after the other. */
  readonly parts: readonly SetOutPart[];
  /** Figures of what is rolled: sectors with their radius and angle. */
  readonly notes: readonly string[];
}

/** A straight cut on the trimmer. */
export interface TrimStep {
  readonly text: string;
  /** What the stop is set to, mm. */
  readonly stop: number;
  readonly count: number;
}

/** A piece to make once from scrap and to trace. */
export interface TraceTemplate {
  readonly strip: SetOutStrip;
  /**
   * With its flaps: the steps of the strips lay it by two of its corners, whose marks on its own strip and whose true places in the
   * frame of its piece, mm, are these. Null: without its flaps, to be taken in place of the steps.
   */
  readonly hold: { readonly marks: readonly [number, number]; readonly at: readonly [Vec2, Vec2] } | null;
  /** How often it is traced on this sheet. */
  readonly times: number;
  /** Measures by ruler with it and without it. */
  readonly measures: readonly [withIt: number, withoutIt: number];
}

/** How alike the two sides of seams are once all marks are rounded. */
export interface SeamGaps {
  /** How many seams are of one length on both sides. */
  readonly alike: number;
  /** Letters of the others by how far their sides differ, mm; the widest first. */
  readonly apart: readonly { readonly roof: string; readonly marks: readonly string[]; readonly gap: number }[];
}

/** How one sheet is set out by ruler. */
export interface SetOut {
  /** Index into the project's stock, and into its sheets. */
  readonly stock: number;
  readonly index: number;
  readonly ruler: Ruler;
  readonly up: UpSide;
  /** Which side is up, and what that does to the folds. */
  readonly upSentence: string;
  readonly trims: readonly TrimStep[];
  readonly strips: readonly SetOutStrip[];
  /** Where tracing is less work. */
  readonly templates: readonly TraceTemplate[];
  /** Of the pieces on this sheet. */
  readonly seams: SeamGaps;
  /** The same in sentences. */
  readonly seamSentences: readonly string[];
  readonly issues: readonly Issue[];
}

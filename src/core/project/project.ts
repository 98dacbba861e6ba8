import type { Vec2 } from '../geometry/vector.ts';
import type { KindId } from '../roofs/catalogue.ts';
import type { Ruler, Units } from '../units/units.ts';
import type { PrintPattern } from './prints.ts';

/**
 * A project with every length in mm (model size) and every angle in radians. The file as typed is kept apart
 * (`project-file.ts`) so that nothing a maker wrote is rewritten.
 */
export interface Project {
  readonly title: string;
  readonly units: Units;
  readonly ruler: Ruler;
  /** Model size over real size: 1 or 1/87. Already applied to shapes, overhangs and bodies. */
  readonly scale: number;
  readonly seed: number;
  readonly page: PageSpec;
  readonly stock: readonly Stock[];
  readonly roofs: readonly RoofSpec[];
  readonly layout: LayoutSpec;
  /** Where pieces were laid, as the file says it; pieces that have changed since are laid anew. */
  readonly positions: readonly PositionSpec[];
}

export interface PageSpec {
  /** The name in the data file. */
  readonly name: string;
  /** As the page lies, mm: across and up; in landscape the width is the longer one. */
  readonly width: number;
  readonly height: number;
  readonly margin: number;
  /** Overlap of tiles where a piece is larger than the page. */
  readonly overlap: number;
  /** Pages show the sheets of the layout as pieces lie on them; missing: pieces close together, whatever sheet they are on. */
  readonly arrange?: 'as-laid';
  /** Every page is followed by one for its wrong side, which carries all letters; missing: letters on the printed side. */
  readonly marks?: 'both';
  /** What 100 mm measure on paper as this printer prints them; missing: 100 mm both ways. */
  readonly correction?: PrinterCorrection;
}

/** mm, across the page and up it. */
export interface PrinterCorrection {
  readonly across: number;
  readonly up: number;
}

/** How the pieces are laid on the sheets. */
export interface LayoutSpec {
  /** `strips`: straight cuts from edge to edge, as a paper trimmer makes them. */
  readonly cuts: 'free' | 'strips';
  /** What is saved: sheets, or the price of them. */
  readonly prefer: 'sheets' | 'cheapest';
  /** `first`: of the papers of a layer, those with an outline of their own before all others. */
  readonly offcuts: 'first' | 'as-listed';
}

/** A piece on a sheet, by ids: piece point p lies at R(rotation) p + (x, y), counter-clockwise from the lower left of the sheet. */
export interface PositionSpec {
  readonly roof: string;
  /** Index of the layer; the seat comes after the layers of the file. */
  readonly layer: number;
  readonly piece: string;
  /** From 0. */
  readonly copy: number;
  readonly stock: string;
  /** From 0 for each stock. */
  readonly sheet: number;
  /** mm. */
  readonly x: number;
  readonly y: number;
  /** Radians. */
  readonly rotation: number;
  /** The engine lays all other pieces round it. */
  readonly locked: boolean;
  /** Of the piece when it was laid (`fingerprint`); missing: any piece of that name. */
  readonly fingerprint?: string;
}

export type Direction = 'one-way' | 'two-way' | 'any';

export interface Stock {
  readonly id: string;
  readonly name: string;
  /** Of a sheet; of an offcut, of the box of its outline. */
  readonly width: number;
  readonly height: number;
  /** Sheets owned; null: as many as needed. */
  readonly count: number | null;
  readonly thickness: number;
  readonly direction: Direction;
  readonly margin: number;
  readonly gap: number;
  /** An offcut: its corners counter-clockwise, mm, the lower left of their box at the origin; missing: a rectangle. */
  readonly outline?: readonly Vec2[];
  readonly price?: Price;
  /** What is printed on it, as a picture or as one of our own prints; never both. */
  readonly picture?: Picture;
  readonly print?: PrintSpec;
}

/** So much for so many sheets. */
export interface Price {
  readonly amount: number;
  /** As `EUR`. */
  readonly currency: string;
  readonly sheets: number;
}

export interface Picture {
  /** A data URL, or a file name relative to the project. */
  readonly file: string;
  /** How much paper the picture is wide, mm; its height follows. It repeats from the lower left of the sheet. */
  readonly width: number;
}

export interface PrintSpec {
  readonly pattern: PrintPattern;
  /** From one check, stripe, slate … to the next alike, mm. */
  readonly repeat: number;
}

export interface RoofSpec {
  readonly id: string;
  readonly title: string;
  readonly copies: number;
  readonly kind: KindId;
  /** Given parameters of the kind: mm, radians, counts, words. Outline parameters are missing where `overhang` is given. */
  readonly shape: ShapeValues;
  readonly body: Body | null;
  readonly overhang: Overhang | null;
  /** Height of the strip that hangs from the eaves, mm; null: none. */
  readonly fascia: number | null;
  /** Missing: none. */
  readonly seat?: SeatSpec;
  readonly neighbours: readonly Neighbour[];
  readonly layers: readonly LayerSpec[];
}

/** A collar under the roof that drops into the body or over it. */
export interface SeatSpec {
  readonly fits: 'inside' | 'outside';
  /** Plan of the walls that it touches, mm, counter-clockwise: their inside or their outside. */
  readonly plan: readonly Vec2[];
  /** The plan samples a circle. */
  readonly isRound: boolean;
  /** Left free between collar and wall on each side, mm. */
  readonly play: number;
  /** From where the collar meets the roof lowest down to its foot, mm. */
  readonly height: number;
  /** The roof is closed at its eaves by a level plate, and the collar stands under that. */
  readonly plate: boolean;
  readonly layer: LayerSpec;
}

/** A number or word; a roof within the roof, or the wall it stands on; for measured outlines corners and courts (in examples also lengths and angles); for sides by their id a pitch of their own or a gable. */
export type ShapeValue =
  | number
  | string
  | readonly number[]
  | readonly Vec2[]
  | readonly (readonly Vec2[])[]
  | SidePitches
  | TierSpec
  | TypedTier
  | Body;

export type ShapeValues = Readonly<Record<string, ShapeValue>>;

/** A roof that is part of another: its outline in the shape, or by an overhang over the wall that it stands on. */
export interface TierSpec {
  readonly kind: string;
  readonly shape: ShapeValues;
  readonly overhang?: Overhang;
}

/** As an example gives it: mm and degrees. */
export interface TypedTier {
  readonly kind: string;
  readonly shape: ShapeValues;
  readonly overhang?: number;
}

/** Radians, or `gable`, by the id of the side. */
export type SidePitches = Readonly<Record<string, number | 'gable'>>;

/** Upright prism that the roof sits on, centred under it. */
export interface Body {
  /** Plan of the outer wall faces, counter-clockwise, centred on the origin; its first side is level and to the south. */
  readonly outline: readonly Vec2[];
  readonly height: number;
  /** The outline samples a circle within a hundredth of a millimetre: it has one wall and no corners. */
  readonly isRound?: true;
  /** Open courts inside the outline, counter-clockwise. */
  readonly courts?: readonly (readonly Vec2[])[];
  /** Rectangle: sizes along x and y; null for any other plan. */
  readonly rectangle: { readonly width: number; readonly depth: number } | null;
}

/** What stands beside the body: a wall as long as need be, parallel to one of the body's. */
export interface Neighbour {
  /** The body's wall that it stands beside (`wallNames`). */
  readonly side: string;
  /** From wall to wall in plan, mm. */
  readonly gap: number;
  /** From the table to its top, mm. */
  readonly height: number;
}

/** How far the eave outline stands out from the body's walls, plan size. */
export interface Overhang {
  readonly eave: number;
  /** At gable ends; the same as `eave` where the file gives one length. */
  readonly verge: number;
}

export type LayerKind = 'board' | 'shell' | 'cover';
/** Where boards meet: cut square, bevelled to the plane between them, or one lapping the other. */
export type BoardEdges = 'square' | 'mitred' | 'butted';
export type PiecesMode = 'one-piece' | 'per-panel' | 'fewest';
export type FlapSides = 'alternate' | 'one-side' | 'none';

/** A seam without a flap is joined by tape, or by a strip of its own folded along its middle. */
export type SeamInstead = 'tape' | 'strip';

export interface FlapSpec {
  readonly width: number;
  readonly on: FlapSides;
  /** Least distance to other edges and flaps under the same panel. */
  readonly clearance: number;
  /** A flap narrower than this is not worth cutting. */
  readonly least: number;
  /** What joins a seam that has no flap; tape where nothing is said. */
  readonly instead?: SeamInstead;
}

/** How one edge is joined by hand, and the id of the face that is to carry its flap. */
export interface SeamChoice {
  readonly join: 'fold' | 'flap' | 'tape' | 'strip';
  readonly on?: string | undefined;
}

/** By the id of the edge. */
export type SeamChoices = Readonly<Record<string, SeamChoice>>;

export interface LayerSpec {
  readonly as: LayerKind;
  /** Stock ids in order of preference. */
  readonly stock: readonly string[];
  readonly pieces: PiecesMode;
  /** Of board: how the edges are cut where panels meet; square where nothing is said. */
  readonly edges?: BoardEdges;
  readonly flaps: FlapSpec;
  /** Edges joined by hand; missing: none. */
  readonly seams?: SeamChoices;
  /** Width of the strip turned under at the eaves, mm; missing: none. */
  readonly hem?: number;
  /** `ignore`: paper thinner than 0.4 mm counts as having no thickness. */
  readonly thickness: 'ignore' | 'allow';
}

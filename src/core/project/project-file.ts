import type { PrintPattern } from './prints.ts';

/**
 * A project file as typed (`*.roofs.json`): texts stay texts. `file-schema.ts` says what is allowed,
 * `shared/project-file.md` what it means.
 */
export interface ProjectFile {
  readonly format: 'spirewright-project';
  readonly version: 1;
  readonly title: string;
  readonly units: 'in' | 'mm';
  readonly ruler?: '1/8in' | '1/16in' | '1/32in' | '1mm' | '0.5mm';
  readonly scale?: number | string;
  readonly seed?: number;
  readonly page?: PageFile;
  readonly stock: readonly StockFile[];
  readonly roofs: readonly RoofFile[];
  readonly layout?: LayoutFile;
  readonly positions?: readonly PositionFile[];
}

/** A number is mm; a text carries its unit. */
export type LengthText = number | string;

/** A number is degrees; a text as `35deg` or `8/12`. */
export type PitchText = number | string;

export interface PageFile {
  readonly size?: string;
  readonly orientation?: 'portrait' | 'landscape';
  readonly margin?: LengthText;
  readonly overlap?: LengthText;
  readonly correction?: { readonly across?: LengthText; readonly up?: LengthText };
}

export interface LayoutFile {
  readonly cuts?: 'free' | 'strips';
  readonly prefer?: 'sheets' | 'cheapest';
  readonly offcuts?: 'first' | 'as-listed';
}

/** Where a piece lies, by the ids of roof, piece and stock. */
export interface PositionFile {
  readonly roof: string;
  readonly layer: number;
  readonly piece: string;
  readonly copy?: number;
  readonly stock: string;
  readonly sheet?: number;
  readonly x: LengthText;
  readonly y: LengthText;
  /** Degrees, counter-clockwise. */
  readonly rotation?: number;
  readonly locked?: boolean;
  readonly fingerprint?: string;
}

export interface StockFile {
  readonly id: string;
  readonly name?: string;
  readonly width?: LengthText;
  readonly height?: LengthText;
  readonly outline?: readonly PointText[];
  readonly count?: number;
  readonly thickness?: LengthText;
  readonly direction?: 'one-way' | 'two-way' | 'any';
  readonly margin?: LengthText;
  readonly gap?: LengthText;
  readonly price?: { readonly amount: number; readonly currency: string; readonly sheets?: number };
  readonly picture?: { readonly file: string; readonly width: LengthText };
  readonly print?: { readonly pattern: PrintPattern; readonly repeat?: LengthText };
}

export interface RoofFile {
  readonly id: string;
  readonly title?: string;
  readonly copies?: number;
  readonly kind: string;
  /** Parameters of the kind. */
  readonly shape: Readonly<Record<string, LengthText | PitchText>>;
  readonly body?: BodyFile;
  readonly overhang?: LengthText | { readonly eave: LengthText; readonly verge?: LengthText };
  readonly fascia?: LengthText;
  readonly seat?: SeatFile;
  readonly neighbours?: readonly { readonly side: string; readonly gap: LengthText; readonly height: LengthText }[];
  readonly layers: readonly LayerFile[];
}

export interface SeatFile {
  readonly fits?: 'inside' | 'outside';
  /** Thickness of the walls. */
  readonly walls?: LengthText;
  /** Plan of the inside of the walls: keys of a body without its height. */
  readonly inside?: Omit<BodyFile, 'height'>;
  readonly play?: LengthText;
  readonly height?: LengthText;
  readonly plate?: boolean;
  readonly as?: 'shell' | 'board';
  readonly edges?: 'square' | 'mitred' | 'butted';
  readonly pieces?: 'one-piece' | 'per-panel';
  readonly stock: string | readonly string[];
  readonly thickness?: 'ignore' | 'allow';
}

/** A measured plan: corners, or lengths with a diagonal or angles. */
export interface FootprintFile {
  readonly corners?: readonly PointText[];
  readonly lengths?: readonly LengthText[];
  readonly diagonal?: LengthText;
  /** A number is degrees. */
  readonly angles?: readonly (number | string)[];
  readonly courts?: readonly (readonly PointText[])[];
}

export type PointText = readonly [x: LengthText, y: LengthText];

/** A rectangle (width, depth), a regular polygon (sides and one of side, acrossCorners, acrossFlats) or a measured plan. */
export interface BodyFile extends FootprintFile {
  readonly width?: LengthText;
  readonly depth?: LengthText;
  readonly sides?: number;
  readonly side?: LengthText;
  readonly acrossCorners?: LengthText;
  readonly acrossFlats?: LengthText;
  readonly diameter?: LengthText;
  readonly height: LengthText;
}

export interface LayerFile {
  readonly as: 'shell' | 'cover';
  readonly stock: string | readonly string[];
  readonly pieces?: 'one-piece' | 'per-panel' | 'fewest';
  /** By the id of the edge. */
  readonly seams?: Readonly<
    Record<string, { readonly join: 'fold' | 'flap' | 'tape' | 'strip'; readonly on?: string }>
  >;
  readonly flaps?: {
    readonly width?: LengthText;
    readonly on?: 'alternate' | 'one-side' | 'none';
    readonly clearance?: LengthText;
    readonly least?: LengthText;
    readonly instead?: 'tape' | 'strip';
  };
  readonly hem?: LengthText;
  readonly thickness?: 'ignore' | 'allow';
}

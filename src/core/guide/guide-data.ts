/** A picture that is drawn when it is shown (`drawMoment`): what lies where at one moment of the work. Indices of the production. */
export type Moment =
  /** The finished roof on its body. */
  | { readonly kind: 'whole'; readonly roof: number }
  /** A piece by itself, half folded. */
  | { readonly kind: 'folding'; readonly roof: number; readonly layer: number; readonly piece: number }
  /** Pieces of a layer just before they are in their places; others of it are on already, and so are the layers under it. */
  | {
      readonly kind: 'going-on';
      readonly roof: number;
      readonly layer: number;
      readonly on: readonly number[];
      readonly moving: readonly number[];
    };

/** What a step does, for checks: nothing of it is shown. */
export type StepWork = 'cut' | 'score' | 'fold' | 'colour' | 'dry-fit' | 'put-on' | 'close' | 'set-down';

export interface GuideStep {
  /** The same for the same project, so that a tick is found again. */
  readonly id: string;
  readonly work: StepWork;
  readonly layer: number;
  /** Indices into the layer's pieces. */
  readonly pieces: readonly number[];
  /** Seams that are joined in this step, indices into the net's seams. */
  readonly joins: readonly number[];
  /** Short sentences, one action each. */
  readonly sentences: readonly string[];
  /** What must be true now. */
  readonly check?: string;
  readonly picture?: GuidePicture;
}

export interface GuidePicture {
  readonly moment: Moment;
  /** What a reader hears who does not see it. */
  readonly alt: string;
}

export type GuideBlock =
  | { readonly kind: 'words'; readonly text: string }
  | { readonly kind: 'caution'; readonly about: string; readonly text: string }
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'items'; readonly items: readonly string[] }
  | {
      readonly kind: 'table';
      readonly head: readonly string[];
      readonly rows: readonly (readonly string[])[];
    }
  | { readonly kind: 'terms'; readonly terms: readonly (readonly [term: string, meaning: string])[] }
  | { readonly kind: 'picture'; readonly picture: GuidePicture; readonly caption: string }
  /** A sheet at reduced scale; `keys` are the numbers of the cut list, one for each placement. */
  | {
      readonly kind: 'sheet';
      readonly sheet: number;
      readonly keys: readonly string[];
      readonly caption: string;
      readonly alt: string;
    }
  | { readonly kind: 'step'; readonly step: GuideStep };

export interface GuideSection {
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly GuideBlock[];
}

/** The order of work of a whole project, as plain data that pages and screens are made from. */
export interface Guide {
  readonly title: string;
  readonly sections: readonly GuideSection[];
}

/** A pattern that the program can draw on a paper by itself. */
export type PrintPattern =
  | 'plain'
  | 'checks'
  | 'stripes'
  | 'slates'
  | 'shingles'
  | 'scales'
  | 'pantiles'
  | 'brick'
  | 'marbled'
  | 'greyboard';

export interface PrintData {
  readonly title: string;
  /** From one check, stripe, slate … to the next alike where the file does not say it, mm. */
  readonly repeat: number;
}

/** Every print, in the order they are offered; what any of them looks like is for those who draw it. */
export const prints: Readonly<Record<PrintPattern, PrintData>> = {
  plain: { title: 'Plain', repeat: 64 },
  checks: { title: 'Checks', repeat: 12 },
  stripes: { title: 'Stripes', repeat: 12 },
  slates: { title: 'Slates', repeat: 6 },
  shingles: { title: 'Shingles', repeat: 5 },
  scales: { title: 'Scales', repeat: 6 },
  pantiles: { title: 'Pantiles', repeat: 6 },
  brick: { title: 'Brick', repeat: 8 },
  marbled: { title: 'Marbled', repeat: 80 },
  greyboard: { title: 'Greyboard', repeat: 64 },
};

export const printPatterns: readonly PrintPattern[] = Object.keys(prints) as PrintPattern[];

/** Regular pyramids with printed figures. Sizes in the source's unit; a unit of any length gives the same figures. */
export interface PublishedRoof {
  readonly name: string;
  readonly source: string;
  readonly sides: number;
  /** Base side. */
  readonly side: number;
  readonly given: { readonly rise: number } | { readonly slant: number };
  readonly printed: {
    readonly slant?: string;
    /** Of one panel and of all. */
    readonly panelArea?: string;
    readonly area?: string;
    readonly volume?: string;
    /** Degrees: lowest and highest that the print allows. */
    readonly slope?: readonly [number, number];
  };
}

export const publishedRoofs: readonly PublishedRoof[] = [
  {
    name: 'Great Pyramid, inches: 51° 52′ ± 2′',
    source: 'W. M. F. Petrie, The Pyramids and Temples of Gizeh, 1883',
    sides: 4,
    side: 9068.8,
    given: { rise: 5776 },
    printed: { slope: [51 + 50 / 60, 51 + 54 / 60] },
  },
  {
    name: 'Louvre pyramid, metres: 51°',
    source: 'French caption and travel pages on the Louvre pyramid',
    sides: 4,
    side: 35.42,
    given: { rise: 21.64 },
    printed: { slope: [50.5, 51.5] },
  },
  {
    name: 'church roof, metres',
    source: 'hackmath.net word problem 3480',
    sides: 4,
    side: 5.4,
    given: { rise: 5 },
    printed: { slant: '5.6824', panelArea: '15.3426', area: '61.3702' },
  },
  {
    name: 'pavilion roof, metres',
    source: 'hackmath.net word problem 6226',
    sides: 4,
    side: 12,
    given: { rise: 4.5 },
    printed: { slant: '7.5', area: '180' },
  },
  {
    name: 'tent, metres',
    source: 'hackmath.net word problem 3444',
    sides: 4,
    side: 2,
    given: { rise: 1.8 },
    printed: { slant: '2.0591' },
  },
  {
    name: 'square pyramid, inches',
    source: 'intellectualmath.com, surface area of square base pyramid, example 1',
    sides: 4,
    side: 33,
    given: { slant: 51 },
    printed: { area: '3366' },
  },
  {
    name: 'square pyramid roof, feet',
    source: 'intellectualmath.com, surface area of square base pyramid, example 4',
    sides: 4,
    side: 18,
    given: { slant: 15 },
    printed: { area: '540' },
  },
  {
    name: 'hexagonal tower roof, metres',
    source: 'hackmath.net word problem 3397',
    sides: 6,
    side: 3.6,
    given: { rise: 2.5 },
    printed: { volume: '28.0592' },
  },
  {
    name: 'pentagonal pyramid, feet',
    source: '19th-century mensuration textbook, books.google ud82AAAAMAAJ p. 168 ex. 5',
    sides: 5,
    side: 2,
    given: { rise: 12 },
    printed: { volume: '27.5276' },
  },
  {
    name: 'hexagonal pyramid, feet',
    source: '19th-century mensuration textbook, books.google ud82AAAAMAAJ p. 168 ex. 7',
    sides: 6,
    side: 10,
    given: { rise: 45 },
    printed: { volume: '3897.1143' },
  },
];

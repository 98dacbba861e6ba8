/** A place of the file that is settled but does not work yet. Documented in `shared/project-file.md`. */
export interface NotYet {
  /** As `stock[].outline`; list positions left out. */
  readonly place: string;
  /** Only this value of the key; missing: the whole key. */
  readonly value?: string;
  /** What it will be, as the start of a sentence. */
  readonly title: string;
  /** What to do until then. */
  readonly until: string;
}

export const notYet: readonly NotYet[] = [
  {
    place: 'positions',
    title: 'Saved and locked positions of pieces on sheets',
    until: 'Leave positions out: the pieces are laid anew each time, the same way for the same seed.',
  },
  {
    place: 'page.correction',
    title: 'Correcting a printer by its measured check bars',
    until: 'Leave correction out and print at actual size.',
  },
  {
    place: 'stock[].outline',
    title: 'An offcut with its own outline',
    until: 'Leave outline out and give the largest rectangle inside the offcut as width and height.',
  },
  { place: 'stock[].picture', title: 'A picture of a paper', until: 'Leave picture out.' },
  { place: 'stock[].price', title: 'The price of a paper', until: 'Leave price out.' },
];

export const findNotYet = (place: string, value?: unknown): NotYet | undefined =>
  notYet.find((entry) => entry.place === place && (entry.value === undefined || entry.value === value));

/**
 * Differences in length from one jack rafter to the next, inches, as printed for a rise of so many inches per foot.
 *
 * Sources. Fractions: Osborne, "Tables 1: Rafter Table", daveosborne.com, 2 to 8 and 10 to 12 in 12; 8 in 12 at 24 in also
 * Johnson Level, RAS-1 rafter square manual, p. 25. Decimals: US Navy NAVEDTRA 14044 vol. 2 fig. 2-52, third line of the
 * square (8 in 12); Audel's Carpenters and Builders Guide, vol. 3, p. 975, fig. 1,993, Eagle square (10 in 12).
 * `step`: the ruler the table's figure is rounded to; four figures of the table are in eighths. Left out, being nearest to
 * no mark of either ruler: 24 in at 4, 7 and 11 in 12. At 9 and 13 to 18 in 12 no printed figure was found.
 */
export const jackTable: readonly {
  readonly rise: number;
  readonly spacing: 16 | 24;
  readonly printed: string;
  readonly step: '1/16in' | '1/8in' | 'hundredth';
}[] = [
  { rise: 2, spacing: 16, printed: '16 1/4', step: '1/16in' },
  { rise: 2, spacing: 24, printed: '24 5/16', step: '1/16in' },
  { rise: 3, spacing: 16, printed: '16 1/2', step: '1/16in' },
  { rise: 3, spacing: 24, printed: '24 3/4', step: '1/16in' },
  { rise: 4, spacing: 16, printed: '16 7/8', step: '1/16in' },
  { rise: 5, spacing: 16, printed: '17 5/16', step: '1/16in' },
  { rise: 5, spacing: 24, printed: '26', step: '1/16in' },
  { rise: 6, spacing: 16, printed: '17 7/8', step: '1/16in' },
  { rise: 6, spacing: 24, printed: '26 7/8', step: '1/8in' },
  { rise: 7, spacing: 16, printed: '18 1/2', step: '1/16in' },
  { rise: 8, spacing: 16, printed: '19 1/4', step: '1/16in' },
  { rise: 8, spacing: 16, printed: '19.23', step: 'hundredth' },
  { rise: 8, spacing: 24, printed: '28 7/8', step: '1/16in' },
  { rise: 10, spacing: 16, printed: '20 7/8', step: '1/8in' },
  { rise: 10, spacing: 16, printed: '20.83', step: 'hundredth' },
  { rise: 10, spacing: 24, printed: '31 1/4', step: '1/16in' },
  { rise: 11, spacing: 16, printed: '21 3/4', step: '1/8in' },
  { rise: 12, spacing: 16, printed: '22 5/8', step: '1/16in' },
  { rise: 12, spacing: 24, printed: '34', step: '1/8in' },
];

/**
 * Fifth line of the square: side cut of a jack, the figure to use with 12. Source: NAVEDTRA 14044 vol. 2, after fig. 2-52;
 * no other pitch was found in print.
 */
export const jackSideCut = { rise: 8, printed: '10' } as const;

/**
 * Corners of unequal pitch, degrees as printed: on each of the two planes the angle in plan from the eave to the hip or valley
 * (`plan`), the corner of the panel (`panel`), the side cut of a jack, and the backing angle between the plane and one that
 * holds the hip and is level across it; and the slope of the hip. Case letters as in the source's pages.
 *
 * Source: roof framing geometry notes, geocities.ws/web_sketches: irregular_valley_roof (12 and 8 in 12, with jacks at 16 in
 * centres), jack_compound_calcs (10 and 11 in 12), hip_peak_sidecut_3d_model (10 and 7 in 12).
 */
export const unequalCorners: readonly {
  readonly role: 'valley' | 'hip';
  readonly slope: string;
  readonly planes: readonly {
    readonly rise: number;
    readonly plan?: string;
    readonly panel?: string;
    readonly sideCut?: string;
    readonly backing?: string;
    /** Inches, at 16 in centres. */
    readonly jack?: string;
  }[];
}[] = [
  {
    role: 'valley',
    slope: '29.01714',
    planes: [
      { rise: 12, plan: '33.69007', panel: '43.31386', sideCut: '46.68614', backing: '36.03989', jack: '15.08495' },
      { rise: 8, plan: '56.30993', panel: '60.98286', sideCut: '29.01714', backing: '17.92021', jack: '28.84441' },
    ],
  },
  {
    role: 'hip',
    slope: '31.65868',
    planes: [
      { rise: 10, plan: '47.72631', sideCut: '34.92979', backing: '25.50784' },
      { rise: 11, plan: '42.27369', sideCut: '39.03754', backing: '29.99972' },
    ],
  },
  { role: 'hip', slope: '25.54245', planes: [{ rise: 10 }, { rise: 7 }] },
];
